// A display test as the diagnosis takes it: a segment that is dark at every digit, a digit that is dark whole, or all of
// it dark. Lines are known by the names of the board's nets: "SEG_F", "DIGIT_3".

import type { SignId } from "../../compute/diagnosis/strength";
import type { LogContext } from "../../judge/context";
import type { Board, Net } from "../../knowledge/types";
import type { LogTable, Reading } from "../../log/model";
import type { Observation } from "./observation";

interface Cell {
  readonly reading: Reading;
  readonly digit?: string;
  readonly segments: readonly string[];
  readonly ok: boolean;
}

const SEGMENT = /\bseg(?:ment)?s?\.?\s*([a-h]|dp)\b(?:\s*(?:,|and|&|\+)\s*([a-h]|dp)\b)*/i;

export function displayObservations(table: LogTable, ctx: LogContext): Observation[] {
  const board = ctx.board?.value;
  if (!board) return [];
  const cells = table.readings.flatMap((reading) => cellOf(reading) ?? []);
  const wrong = cells.filter(({ ok }) => !ok);
  const [first] = wrong;
  if (!first) return [];
  const digits = new Set(cells.flatMap(({ digit }) => digit ?? []));
  const dark = (digit: string): boolean => {
    const own = cells.filter((cell) => cell.digit === digit);
    return (
      own.length > 0 && own.every(({ ok, segments }) => !ok && (segments.length === 0 || own.length > 1))
    );
  };
  const darkDigits = [...digits].filter(dark);
  if (digits.size > 1 && darkDigits.length === digits.size)
    return found(
      "display-dark",
      [...segmentNets(board), ...digitNets(board)],
      "the display",
      "All of the display is dark.",
      first.reading,
    );
  const segments = new Map<string, Set<string>>();
  for (const { digit, segments: named } of wrong) {
    if (digit !== undefined && darkDigits.includes(digit)) continue;
    for (const segment of named) segments.set(segment, (segments.get(segment) ?? new Set()).add(digit ?? ""));
  }
  const everywhere = Math.max(1, digits.size - darkDigits.length);
  return [
    ...darkDigits.flatMap((digit) =>
      found(
        "digit",
        digitNets(board, digit),
        `digit ${digit}`,
        `Digit ${digit} is dark at any digit it should show.`,
        first.reading,
      ),
    ),
    ...[...segments].flatMap(([segment, at]) =>
      at.size * 2 > everywhere || at.has("")
        ? found(
            "segment",
            segmentNets(board, segment),
            `segment ${segment}`,
            `Segment ${segment} is dark at every digit.`,
            first.reading,
          )
        : found(
            "crossing-dead",
            [],
            `segment ${segment} of digit ${[...at].join(", ")}`,
            `Segment ${segment} is dark at digit ${[...at].join(", ")} alone.`,
            first.reading,
            `the display itself at digit ${[...at].join(", ")}, segment ${segment}`,
            tubesOf(board, [...at]),
          ),
    ),
  ];

  function found(
    sign: SignId,
    nets: readonly string[],
    of: string,
    says: string,
    reading: Reading,
    outside?: string,
    refs: readonly string[] = [],
  ): Observation[] {
    if (nets.length === 0 && outside === undefined) return [];
    return [
      {
        key: `${table.procedure.id} ${of}`.toUpperCase(),
        what: of,
        table,
        span: reading.cell.span,
        refs: [],
        finding: {
          kind: "sign",
          sign,
          nets,
          of,
          says,
          ...(refs.length > 0 ? { refs } : outside === undefined ? {} : { outside }),
        },
      },
    ];
  }
}

/** One result: of a digit, of a segment, or of one at the other. */
function cellOf(reading: Reading): Cell | undefined {
  const { value, subject } = reading;
  const ok = value.kind === "result" ? value.ok : value.kind === "text" ? textOk(value.text) : undefined;
  if (ok === undefined) return undefined;
  const item = subject.item?.text ?? "";
  const digit = /^\s*(?:digit|display|position|d|player)?\s*#?(\d{1,2})\b/i.exec(item)?.[1];
  const told = `${item}; ${subject.signal?.text ?? ""}; ${ok ? "" : `${value.typed}; ${subject.note?.text ?? ""}`}`;
  const bare = /^\s*([a-h]|dp)\s*$/i.exec(subject.signal?.text ?? "")?.[1];
  const segments = bare === undefined ? segmentsIn(told) : [bare.toUpperCase()];
  return { reading, segments, ok, ...(digit === undefined ? {} : { digit }) };
}

const textOk = (text: string): boolean | undefined =>
  /\b(?:dark|dead|missing|no|off|out|blank|never)\b/i.test(text) ? false : undefined;

function segmentsIn(text: string): string[] {
  const all = SEGMENT.exec(text)?.[0] ?? "";
  const letters = all.replace(/^seg(?:ment)?s?\.?/i, "").match(/\b(?:dp|[a-h])\b/gi) ?? [];
  return letters.map((letter) => letter.toUpperCase());
}

const named = ({ nets }: Board, pattern: RegExp): readonly string[] =>
  [...nets.values()].filter(({ name }: Net) => pattern.test(name)).map(({ name }) => name);

/** All stages of the line, whatever it is called behind its drivers. */
const segmentNets = (board: Board, letter = "(?:[A-H]|DP)"): readonly string[] =>
  named(board, new RegExp(`^(?:(?:[A-Z0-9]+_)?SEG(?:MENT)?_?${letter}(?:_[A-Z]+)?|K_${letter})$`, "i"));

const digitNets = (board: Board, number = "\\d+"): readonly string[] =>
  named(
    board,
    new RegExp(`^(?:[A-Z0-9]+_)?(?:DIGIT|DIG|ANODE|GRID)(?:_[A-Z]+)*_?${number}(?:_[A-Z]+)?$`, "i"),
  );

/** Display parts numbered as the digits are. */
const tubesOf = ({ parts }: Board, digits: readonly string[]): readonly string[] =>
  digits.flatMap((digit) => parts.get(`DS${digit}`)?.ref ?? []);

// A display test as the diagnosis takes it: a segment that is wrong at every digit or from one digit on, a digit that is wrong
// whole, two segments that come together, or all of it dark.

import { defined } from "../../../base/defined";
import type { SignId } from "../../../compute/diagnosis/strength";
import type { SignFinding } from "../../../compute/diagnosis/types";
import type { LogContext } from "../../../judge/context";
import type { Board } from "../../../knowledge/types";
import type { LogTable, Reading } from "../../../log/model";
import { alikeObservations, comesWith, stagesOf } from "../lines/alike";
import type { Observation } from "../observation";
import { digitNets, endsBetween, ownNets, segmentNets, tubeNets, tubePins, tubesOf } from "./display-lines";

/** What is wrong with it, in the words of a sentence. */
type Wrong = "dark" | "dim" | "lit without being called";

interface Cell {
  readonly reading: Reading;
  readonly digit?: string;
  readonly segments: readonly string[];
  readonly ok: boolean;
  readonly wrong: Wrong;
  /** Another segment that comes with it. */
  readonly with?: string;
}

const SEGMENT = /\bseg(?:ment)?s?\.?\s*([a-h]|dp)\b(?:\s*(?:,|and|&|\+)\s*([a-h]|dp)\b)*/i;
/** "c lights with it", "comes with c", "so does c". */
const WITH =
  /\b([a-h]|dp)\s+(?:lights?|lit|glows?|comes?|goes|is)\s+(?:up\s+|on\s+|lit\s+)*(?:with|too|as well|also|together)\b|\b(?:with|so does|together with)\s+(?:seg(?:ment)?\s*)?([b-h]|dp)\b/i;

export function displayObservations(table: LogTable, ctx: LogContext): Observation[] {
  const board = ctx.board?.value;
  if (!board) return [];
  const all = table.readings.flatMap((reading) => cellOf(reading) ?? []);
  const joined = joinedLines(all, board);
  const alike = digitsAlike(table, all, board);
  const isAlike = ({ reading }: Cell): boolean => alike.some(({ readings }) => readings.includes(reading));
  const cells = all.filter((cell) => !joined.some(({ of }) => of.includes(cell)) && !isAlike(cell));
  const wrong = cells.filter(({ ok }) => !ok);
  const found: Observation[] = [
    ...alike.map(({ one }) => one),
    ...joined.map(({ letters, nets, of: [first] }) =>
      told(first!.reading, `segments ${letters}`, {
        sign: "lines-joined",
        nets,
        says: `Segments ${letters} come together.`,
      }),
    ),
  ];
  const [first] = wrong;
  if (!first) return found;
  const digits = new Set(cells.flatMap(({ digit }) => digit ?? []));
  const isWhole = (digit: string): boolean => {
    const own = cells.filter((cell) => cell.digit === digit);
    return (
      own.length > 0 && own.every(({ ok, segments }) => !ok && (segments.length === 0 || own.length > 1))
    );
  };
  const wholeDigits = [...digits].filter(isWhole);
  const isDark = wrong.some((cell) => cell.wrong === "dark");
  if (digits.size > 1 && wholeDigits.length === digits.size && isDark) {
    const nets = [...segmentNets(board), ...digitNets(board)];
    if (nets.length === 0) return found;
    const says = "All of the display is dark.";
    return [...found, told(first.reading, "the display", { sign: "display-dark", nets, says })];
  }
  for (const digit of wholeDigits) {
    const nets = digitNets(board, digit);
    const how = wrong.find((cell) => cell.digit === digit)?.wrong ?? "dark";
    const says = `Digit ${digit} is ${how} at any digit it should show.`;
    if (nets.length > 0)
      found.push(told(first.reading, `digit ${digit}`, { sign: "digit", nets, says, ...stateOf(how) }));
  }
  const segments = new Map<string, Cell[]>();
  for (const cell of wrong) {
    if (cell.digit !== undefined && wholeDigits.includes(cell.digit)) continue;
    for (const segment of cell.segments) segments.set(segment, [...(segments.get(segment) ?? []), cell]);
  }
  const everywhere = Math.max(1, digits.size - wholeDigits.length);
  for (const [segment, at] of segments) found.push(...ofSegment(segment, at, cells, everywhere, board));
  return found;
}

/** A segment at the digits where it is wrong: its line, the way along the tubes, or one tube by itself. */
function ofSegment(
  segment: string,
  at: readonly Cell[],
  cells: readonly Cell[],
  everywhere: number,
  board: Board,
): Observation[] {
  const [first] = at;
  if (!first) return [];
  const { reading, wrong } = first;
  const nets = segmentNets(board, segment);
  const along = tubeNets(board, nets);
  const dark = [...new Set(at.map(({ digit }) => digit ?? ""))].sort((a, b) => Number(a) - Number(b));
  const lit = cells.flatMap(({ ok, digit, segments }) =>
    ok && digit !== undefined && segments.includes(segment) ? digit : [],
  );
  const which = dark.join(", ");
  const ends = wrong === "dark" ? endsBetween(dark, lit) : undefined;
  if (ends)
    return [
      told(
        reading,
        `segment ${segment} of digits ${which}`,
        defined({
          sign: "line-partway" as const,
          nets: along,
          refs: tubesOf(board, dark),
          pins: tubePins(board, along, ends),
          outside: along.length > 0 ? undefined : `the wiring of segment ${segment} in the display`,
          says: `Segment ${segment} is dark at digits ${which} and lit at ${lit.join(", ")}: its driver works, and its line ends between them.`,
        }),
      ),
    ];
  if (dark.length * 2 > everywhere || dark.includes(""))
    return nets.length === 0
      ? []
      : [
          told(reading, `segment ${segment}`, {
            sign: "segment",
            nets,
            ...stateOf(wrong),
            says: `Segment ${segment} is ${wrong} at every digit.`,
          }),
        ];
  const tubes = tubesOf(board, dark);
  const [digit = ""] = dark;
  const own = dark.length === 1 && tubes.length === 0 ? ownNets(board, segment, digit) : [];
  if (own.length > 0)
    return [
      told(reading, `segment ${segment} of digit ${digit}`, {
        sign: "segment",
        nets: own,
        ...stateOf(wrong),
        says: `Segment ${segment} is ${wrong} at digit ${digit}, which has its own line for it.`,
        outside: `the display itself at digit ${digit}, segment ${segment}`,
      }),
    ];
  return [
    told(reading, `segment ${segment} of digit ${which}`, {
      sign: "bar-dark",
      nets: [],
      says: `Segment ${segment} is ${wrong} at digit ${which} alone.`,
      ...(tubes.length > 0
        ? { refs: tubes, pins: tubePins(board, along, dark) }
        : { outside: `the display itself at digit ${which}, segment ${segment}` }),
    }),
  ];
}

/** Of a line that is lit though nobody calls it: it stands on, and is not off. */
const stateOf = (wrong: Wrong): Pick<SignFinding, "state"> =>
  wrong === "lit without being called" ? { state: "high" } : {};

const told = (
  reading: Reading,
  of: string,
  finding: Omit<SignFinding, "kind" | "of"> & { readonly sign: SignId },
): Observation => ({
  key: `${reading.table.procedure.id} ${of}`.toUpperCase(),
  what: of,
  table: reading.table,
  span: reading.cell.span,
  refs: [],
  finding: { kind: "sign", of, ...finding },
});

interface Joined {
  readonly letters: string;
  /** Two of each stage in turn. */
  readonly nets: readonly string[];
  readonly of: readonly Cell[];
}

/** Pairs of segments of which one comes with the other. */
function joinedLines(cells: readonly Cell[], board: Board): readonly Joined[] {
  const pairs = new Map<string, Cell[]>();
  for (const cell of cells) {
    const [own] = cell.segments;
    if (cell.with === undefined || own === undefined || cell.with === own) continue;
    const key = [own, cell.with].sort().join(" and ");
    pairs.set(key, [...(pairs.get(key) ?? []), cell]);
  }
  return [...pairs].flatMap(([letters, of]): Joined[] => {
    const all = letters.split(" and ").map((letter) => segmentNets(board, letter));
    // Stage by stage where both have as many, else where the tubes are.
    const [a, b] = all[0]?.length === all[1]?.length ? all : all.map((names) => tubeNets(board, names));
    const nets = (a ?? []).flatMap((name, i) => [name, b?.[i] ?? []].flat());
    return a && b && a.length > 0 && a.length === b.length ? [{ letters, nets, of }] : [];
  });
}

/** Digits of which each shows what another does, and the readings that say so. */
function digitsAlike(table: LogTable, cells: readonly Cell[], board: Board) {
  const pairs = cells.flatMap(({ ok, digit, segments, reading }) => {
    const other = ok ? undefined : comesWith(reading);
    return digit === undefined || segments.length > 0 || other === undefined
      ? []
      : [{ own: digit, other, reading }];
  });
  const readings = pairs.map(({ reading }) => reading);
  return alikeObservations(table, "digit", pairs, (number) =>
    stagesOf(board, number, digitNets(board, number)),
  ).map((one) => ({ one, readings }));
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
  const note = subject.note?.text ?? "";
  const [, one, other] = (ok ? undefined : WITH.exec(`${value.typed}; ${note}`)) ?? [];
  const wrong = /stuck|always|ghost|bright/i.test(value.typed)
    ? ("lit without being called" as const)
    : /dim|weak|faint/i.test(value.typed)
      ? ("dim" as const)
      : ("dark" as const);
  return defined({ reading, segments, ok, wrong, digit, with: (one ?? other)?.toUpperCase() });
}

const textOk = (text: string): boolean | undefined =>
  /\b(?:dark|dead|missing|no|off|out|blank|never|always|stuck|stays|dim|weak|faint)\b/i.test(text)
    ? false
    : undefined;

function segmentsIn(text: string): string[] {
  const all = SEGMENT.exec(text)?.[0] ?? "";
  const letters = all.replace(/^seg(?:ment)?s?\.?/i, "").match(/\b(?:dp|[a-h])\b/gi) ?? [];
  return letters.map((letter) => letter.toUpperCase());
}

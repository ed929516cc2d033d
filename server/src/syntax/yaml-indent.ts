// One line indented by a blank too many makes a parser complain of everything below it. Here the line is found by what
// the text would be if it stood where it was meant to, so that this one line is told and the rest is read.
import { span } from "../text/span";
import { type Fits, type IndentChange, type Indented, levelsOf, type YamlLevels } from "./yaml-levels";
import type { Problem } from "./yaml-node";
import { splitLines } from "./yaml-recover";

/** More lines than these that are off by themselves, and it is another text than was taken for. */
const MOST = 4;
/** So many lines in no place are not off but something else altogether. */
const TOO_MUCH = 1_000;

export interface RepairedIndents {
  /** The text with its lines where they are meant to be. */
  readonly text: string;
  /** One for each move, with the edits that make it. Offsets are those of the text given. */
  readonly problems: readonly Problem[];
  /** True where nothing is wrong with the text as YAML, which takes the line for something else than is meant. */
  readonly misread: boolean;
  /** Offset in the text given of an offset in the repaired one. */
  before(offset: number): number;
}

/** Undefined where no line is off, or where nothing shows how it is meant. */
export function repairIndents(text: string, fits?: Fits): RepairedIndents | undefined {
  if (/^ *\t[ \t]*[^\s#]/m.test(text)) return undefined;
  const source = splitLines(text);
  const original: Indented[] = source.map((line) => ({
    indent: line.indent,
    content: line.text.slice(line.indent),
    blank: line.blank || /^(?:---|\.\.\.|%)/.test(line.text),
  }));
  let lines: readonly Indented[] = original;
  let levels = levelsOf(lines, fits, TOO_MUCH);
  if (levels.odd + levels.misfits > TOO_MUCH) return undefined;
  const { odd } = levels;
  const made: IndentChange[] = [];
  while (levels.moves.length > 0 && made.length < MOST && (levels.odd > 0 || made.length === 0)) {
    const best = bestOf(lines, levels, fits);
    if (!best || made.some((move) => overlap(move, best.move))) break;
    made.push(best.move);
    ({ lines, levels } = best);
  }
  if (made.length === 0 || levels.odd > 0) return undefined;
  // `- one` and `- two` a blank further in are one text, "one - two".
  const joined = made.every(({ line, count, by }) => count === 1 && Math.abs(by) === 1 && isDash(line));
  const parts = source.map((line, at) =>
    lines[at] === original[at]
      ? text.slice(line.start, line.end)
      : " ".repeat((lines[at] as Indented).indent) + text.slice(line.start + line.indent, line.end),
  );
  return {
    text: parts.join(""),
    misread: odd === 0 || joined,
    problems: made.map((move) => problemOf(move)),
    before: (offset) => {
      let [to, at] = [0, 0];
      while (at < parts.length - 1 && to + (parts[at] as string).length <= offset)
        to += (parts[at++] as string).length;
      const line = source[at];
      if (!line) return offset;
      const [was, is] = [line.indent, (lines[at] as Indented).indent];
      return line.start + Math.max(offset - to - is + was, Math.min(offset - to, was));
    },
  };

  function isDash(line: number): boolean {
    return /^-(?:\s|$)/.test((original[line] as Indented).content);
  }

  function problemOf({ line, count, by }: IndentChange): Problem {
    const first = source[line] as (typeof source)[number];
    const own = source.slice(line, line + count).filter((one) => !one.blank && one.indent + by >= 0);
    const [from, to] = [first.indent, first.indent + by];
    const rule = isDash(line)
      ? "Entries of one list must begin in the same column."
      : "Keys of one mapping must begin in the same column.";
    const what = own.length > 1 ? `This line and the ${own.length - 1} below it are` : "This line is";
    return {
      code: "yaml-indent",
      message: `${what} indented by ${from}, the lines ${own.length > 1 ? "they belong" : "it belongs"} with by ${to}.`,
      step: rule,
      span: span(first.start, first.start + first.text.trimEnd().length),
      suggestion: own.map((one) => ({
        span: span(one.start, one.start + one.indent),
        newText: " ".repeat(one.indent + by),
      })),
    };
  }
}

/** The move after which least is wrong; undefined where none makes it better. */
function bestOf(lines: readonly Indented[], now: YamlLevels, fits: Fits | undefined) {
  let least = wrong(now) - 1;
  const tried = now.moves.flatMap((move) => {
    const moved = moveLines(lines, move);
    if (!moved) return [];
    const levels = levelsOf(moved, fits, least);
    least = Math.min(least, wrong(levels));
    return [{ move, lines: moved, levels, rank: rankOf(levels, move) }];
  });
  const [best] = tried.sort((a, b) => a.rank.map((n, at) => n - (b.rank[at] ?? 0)).find((n) => n !== 0) ?? 0);
  if (!best || wrong(best.levels) >= wrong(now)) return undefined;
  // Where every line has its place, one is only moved into another that leaves its old one whole.
  return now.odd > 0 || best.levels.hollow <= now.hollow ? best : undefined;
}

const overlap = (a: IndentChange, b: IndentChange): boolean =>
  a.line < b.line + b.count && b.line < a.line + a.count;

const wrong = ({ odd, misfits }: YamlLevels): number => odd + misfits;

/** What the format says counts most, then how the rest of the text is indented, then how little is moved. */
const rankOf = (levels: YamlLevels, { count, by }: IndentChange): readonly number[] => [
  wrong(levels),
  levels.hollow,
  -levels.named,
  levels.irregular,
  count,
  Math.abs(by),
  -by,
];

function moveLines(
  lines: readonly Indented[],
  { line, count, by }: IndentChange,
): readonly Indented[] | undefined {
  const moved = lines.map((one, at) =>
    at < line || at >= line + count || one.blank ? one : { ...one, indent: one.indent + by },
  );
  return moved.every(({ indent }) => indent >= 0) ? moved : undefined;
}

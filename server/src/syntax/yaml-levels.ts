// How deep each line of a block-style YAML text is meant to stand, by its indentation alone: the parser makes no sense
// of what follows a line that is off, and this is to find the very line.
import { defined } from "../base/defined";
import { readLine, type Unfinished, unfinished, type ValueForm } from "./yaml-line";

export type Path = readonly (string | number)[];

/**
 * Whether something may stand at a path: "named" where the format has a key of that name there, "slip" where it is
 * nearly one's name and may be nothing else than mistyped.
 */
export type Fits = (path: Path, form: ValueForm) => "named" | "yes" | "no" | "slip";

/** Lines that may be meant otherwise: `count` of them from `line` on, each further in by `by` than it stands. */
export interface IndentChange {
  readonly line: number;
  readonly count: number;
  readonly by: number;
}

/** What the indentation of a text comes to. Fewer of everything but `named` is better. */
export interface YamlLevels {
  /** Lines that belong to nothing. */
  readonly odd: number;
  /** Entries the format has no place for. */
  readonly misfits: number;
  readonly named: number;
  /** Keys with neither a value nor anything below them. */
  readonly hollow: number;
  /** Levels that are not as far in as most. */
  readonly irregular: number;
  /** How the first line that is off may be meant. */
  readonly moves: readonly IndentChange[];
}

/** A line with its indentation as it is to be read. */
export interface Indented {
  readonly indent: number;
  /** Without its indentation. */
  readonly content: string;
  /** With nothing on it, or a comment alone. */
  readonly blank: boolean;
}

interface Level {
  readonly column: number;
  readonly list: boolean;
  readonly path: Path;
  /** The line of its first entry. */
  readonly line: number;
  entries: number;
}

interface Entry {
  readonly path: Path;
  readonly column: number;
  /** Nothing stands behind its colon or dash yet. */
  open: boolean;
  /** How it may be meant as a key that the format names further out. */
  further?: readonly IndentChange[];
}

/** Keys in the wrong place of which only the first are tried elsewhere. */
const FEW = 6;

/** @param most more wrong than this, and the rest is not looked at: what is given then is no more than that */
export function levelsOf(
  lines: readonly Indented[],
  fits: Fits = () => "yes",
  most = Number.POSITIVE_INFINITY,
): YamlLevels {
  const stack: Level[] = [];
  const steps: number[] = [];
  const count = { odd: 0, misfits: 0, named: 0, hollow: 0 };
  let moves: readonly IndentChange[] | undefined;
  const strays: IndentChange[] = [];
  const slips: IndentChange[] = [];
  let last: Entry | undefined;
  let inside: { readonly column: number; readonly until?: Unfinished } | undefined;

  const push = (column: number, list: boolean, line: number): Level => {
    if (stack.length > 0 && !list) steps.push(column - (stack.at(-1)?.column ?? 0));
    const level = { column, list, path: last?.path ?? [], line, entries: 0 };
    stack.push(level);
    return level;
  };

  /** The level that a line joins, the innermost from now on; undefined where it belongs to none. */
  const join = (indent: number, list: boolean, line: number): Level | undefined => {
    if (!last || (last.open && indent > last.column)) return push(indent, list, line);
    // A list may stand in the column of its key; the next key ends it.
    if (last.open && list && indent === last.column && stack.at(-1)?.list === false)
      return push(indent, true, line);
    while (stack.length > 1 && (stack.at(-1)?.column ?? 0) > indent) stack.pop();
    if (!list && stack.at(-1)?.list && stack.at(-2)?.column === indent) stack.pop();
    const found = stack.at(-1);
    return found?.column === indent && found.list === list ? found : undefined;
  };

  const enter = (level: Level, column: number, key: string | undefined, form: ValueForm) => {
    const path = [...level.path, key ?? level.entries];
    level.entries++;
    last = { path, column, open: form === "none" };
    const verdict = fits(path, form);
    if (verdict === "named") count.named++;
    if (verdict === "no" || verdict === "slip") count.misfits++;
    return verdict;
  };

  for (const [at, { indent, content, blank }] of lines.entries()) {
    if (blank) continue;
    if (count.odd + count.misfits > most) break;
    if (inside && indent > inside.column) {
      const { column, until }: { column: number; until?: Unfinished } = inside;
      const still = until && unfinished(content, until);
      if (until) inside = still && { column, until: still };
      continue;
    }
    inside = undefined;
    const { tokens, form, goesOn } = readLine(content);
    const [first, ...more] = tokens;
    if (!first) {
      // A value on a line of its own, or the next line of one.
      if (last) last.open = false;
      if (goesOn)
        inside = defined({ column: last?.column ?? -1, until: goesOn === "block" ? undefined : goesOn });
      continue;
    }
    const list = first.key === undefined;
    const above = [...stack];
    const before = last;
    let level = join(indent, list, at);
    if (before?.open && level?.path !== before.path) {
      count.hollow++;
      strays.push(...(before.further ?? []));
    }
    if (!level) {
      count.odd++;
      moves ??= movesFor(lines, at, list, above, before);
      level = stack.findLast((one) => one.list === list && one.column < indent) ?? push(indent, list, at);
    }
    let verdict = enter(level, indent, first.key, more.length > 0 ? "none" : form);
    for (const [index, { column, key }] of more.entries()) {
      const inner = push(indent + column, key === undefined, at);
      const own = enter(inner, indent + column, key, index < more.length - 1 ? "none" : form);
      if (verdict !== "no") verdict = own;
    }
    const misfit = verdict === "no" || verdict === "slip";
    if (first.key !== undefined && (form === "none" || misfit)) {
      const { key } = first;
      const other = above.filter((one) => {
        if (one.list || one.column === indent) return false;
        const there = fits([...one.path, key], form);
        return one.column < indent ? there === "named" : misfit && there !== "no";
      });
      const next = indentBelow(lines, at);
      const columns = other.map(({ column }) => column);
      // The first below its key: how far in it was to be, the next one shows.
      if (misfit && before?.open && next > indent) columns.push(next);
      const further = columns.map((column) => ({ line: at, count: 1, by: column - indent }));
      if (misfit) (verdict === "slip" ? slips : strays).push(...further);
      else if (last) last.further = further;
    }
    const column = indent + (tokens.at(-1)?.column ?? 0);
    if (goesOn) inside = defined({ column, until: goesOn === "block" ? undefined : goesOn });
  }
  const usual = mostOften(steps);
  return {
    ...count,
    irregular: steps.filter((step) => step !== usual).length,
    // What is nearly a key's name is that key mistyped, unless the lines around it speak against it.
    moves: [...(moves ?? []), ...strays.slice(0, FEW), ...(moves ? slips.slice(0, FEW) : [])],
  };
}

/** To a level that was open above, alone or with what follows it; or the one entry above that is off instead. */
function movesFor(
  lines: readonly Indented[],
  line: number,
  list: boolean,
  above: readonly Level[],
  before: Entry | undefined,
): readonly IndentChange[] {
  const { indent } = lines[line] as Indented;
  const columns = new Set(above.filter((level) => level.list === list).map(({ column }) => column));
  if (before?.open && list) columns.add(before.column);
  columns.delete(indent);
  const end = lines.findIndex((other, at) => at > line && !other.blank && other.indent < indent);
  const run = (end < 0 ? lines.length : end) - line;
  const firsts = above.filter((level) => level.entries === 1 && level.column !== indent);
  return [
    ...[...columns].flatMap((column) => {
      const by = column - indent;
      return [{ line, count: 1, by }, ...(run > 1 ? [{ line, count: run, by }] : [])];
    }),
    ...firsts.map((level) => ({ line: level.line, count: 1, by: indent - level.column })),
  ];
}

function indentBelow(lines: readonly Indented[], at: number): number {
  let below = at + 1;
  while (lines[below]?.blank) below++;
  return lines[below]?.indent ?? 0;
}

function mostOften(steps: readonly number[]): number | undefined {
  const times = new Map<number, number>();
  for (const step of steps) times.set(step, (times.get(step) ?? 0) + 1);
  return [...times].sort(([, a], [, b]) => b - a)[0]?.[0];
}

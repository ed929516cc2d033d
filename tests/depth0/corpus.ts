// Logs as technicians write them, with what is wrong in them told apart from what only looks so.
import { readdirSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import type { Planted } from "./faults";

/** A folder of logs, and what is wrong in each by the log's name. */
export interface Corpus {
  readonly folder: URL;
  readonly planted: Readonly<Record<string, Planted>>;
}

/** Offsets in the faulty log. */
export interface Place {
  readonly start: number;
  readonly end: number;
}

interface Edit extends Place {
  readonly innocent: string;
}

export interface Fault {
  readonly what: string;
  /** Its first row as planted, for whoever reads a list of misses. */
  readonly row: string;
  readonly edits: readonly Edit[];
  /** Where a finding counts as having found it. */
  readonly places: readonly Place[];
  /** The only check whose finding counts, of a matrix. */
  readonly code?: string;
}

export interface Specimen {
  readonly name: string;
  readonly text: string;
  /** The same log of a sound board. */
  readonly clean: string;
  readonly faults: readonly Fault[];
  readonly names: readonly string[];
}

export function readCorpus({ folder, planted: all }: Corpus): Specimen[] {
  const logs = fileURLToPath(folder);
  const files = readdirSync(logs).filter((name) => name.endsWith(".md"));
  for (const name of Object.keys(all))
    if (!files.includes(`${name}.md`)) throw new Error(`no log ${name}.md`);
  return files.sort().map((file) => {
    const name = file.slice(0, -".md".length);
    const planted = all[name];
    if (!planted) throw new Error(`${file}: nothing is said of its faults`);
    // One log has the line ends of another system, which a checkout might not keep.
    const text = readFileSync(logs + file, "utf8").replaceAll("\n", name.startsWith("17") ? "\r\n" : "\n");
    const faults = readFaults(text, planted.faults);
    return { name, text, faults, names: planted.names, clean: cured(text, faults) };
  });
}

/** The log with all or some of its faults taken out. */
export function cured(text: string, faults: readonly Fault[]): string {
  const edits = faults.flatMap((fault) => fault.edits).sort((a, b) => b.start - a.start);
  return edits.reduce(
    (whole, { start, end, innocent }) => whole.slice(0, start) + innocent + whole.slice(end),
    text,
  );
}

interface Row extends Place {
  readonly cells: readonly (Place & { readonly text: string })[];
}

/** Every line with a bar in it. */
function rowsOf(text: string): Row[] {
  return [...text.matchAll(/^.*\|.*$/gm)].map(({ 0: line, index }) => {
    const outer = line.startsWith("|");
    let at = index;
    const cells = line.split("|").map((cell) => {
      const start = at + (cell.length - cell.trimStart().length);
      at += cell.length + 1;
      return { text: cell.trim(), start, end: start + cell.trim().length };
    });
    return { cells: outer ? cells.slice(1) : cells, start: index, end: index + line.length };
  });
}

interface Pattern {
  readonly cells: readonly { readonly planted: string; readonly innocent?: string }[];
}

function readPattern(source: string): Pattern {
  const cells = source.trim().replace(/^\|/, "").split("|");
  return {
    cells: cells.map((cell) => {
      const marked = /^\[(.*) -> (.*)\]$/.exec(cell.trim());
      return marked ? { planted: marked[1] ?? "", innocent: marked[2] ?? "" } : { planted: cell.trim() };
    }),
  };
}

function readFaults(text: string, source: string): Fault[] {
  const rows = rowsOf(text);
  const faults: Fault[] = [];
  for (const line of source.split("\n").filter((each) => each.trim() !== "")) {
    const more = /^ {2}(and|with) (.*)$/.exec(line);
    const first =
      /^(\S+) ([^|[]*?): (.*)$/.exec(line) ?? (more ? undefined : fail(line, "reads as no fault"));
    if (first) {
      const [, reach = "", what = "", row = ""] = first;
      faults.push({
        ...oneRow(rows, row, reach),
        what,
        row: row.replace(/\[(.*?) -> .*?\]/g, "$1"),
        ...(reach.startsWith("matrix-") ? { code: reach } : {}),
      });
      continue;
    }
    const last = faults.pop() ?? fail(line, "adds to nothing");
    const [, word, rest = ""] = more ?? [];
    const pins = /^pins (.*)$/.exec(rest)?.[1]?.split(" ");
    const added = pins
      ? { edits: [], places: pins.map((pin) => pinBeside(rows, last, pin)) }
      : oneRow(rows, rest, last.code ?? "row");
    if ((word === "and") !== added.edits.length > 0) fail(line, "changes nothing, or must not");
    faults.push({
      ...last,
      edits: [...last.edits, ...added.edits],
      places: [...last.places, ...added.places],
    });
  }
  return faults;
}

function oneRow(rows: readonly Row[], source: string, reach: string): Pick<Fault, "edits" | "places"> {
  const { cells } = readPattern(source);
  const [row = fail(source, "is no row"), another] = rows.filter((each) =>
    cells.every(({ planted }, i) => each.cells[i]?.text === planted),
  );
  if (another) fail(source, "is more than one row");
  const edits = cells.flatMap(({ innocent }, i) => {
    const cell = row.cells[i];
    return innocent === undefined || !cell ? [] : [{ start: cell.start, end: cell.end, innocent }];
  });
  if (reach === "cell") return { edits, places: edits };
  return { edits, places: [reach.startsWith("matrix-") ? tableOf(rows, row) : row] };
}

/** Rows with nothing but a line's end between them. */
function tableOf(rows: readonly Row[], row: Row): Place {
  const together = (a: Row | undefined, b: Row | undefined) => a && b && b.start - a.end <= 2;
  let first = rows.indexOf(row);
  let last = first;
  while (together(rows[first - 1], rows[first])) first--;
  while (together(rows[last], rows[last + 1])) last++;
  return { start: rows[first]?.start ?? row.start, end: rows[last]?.end ?? row.end };
}

/** Another pin of a fault's chip, in the fault's table: its row, or its cell where a column is a chip. */
function pinBeside(rows: readonly Row[], { edits, places, row: source }: Fault, pin: string): Place {
  const edit = edits[0] ?? fail(source, "has no place");
  const wide = places[0] === edit;
  const own =
    rows.find((each) => each.start <= edit.start && edit.end <= each.end) ?? fail(source, "is no row");
  const column = own.cells.findIndex((cell) => cell.start === edit.start);
  const table = tableOf(rows, own);
  // The pin stands first where a column is a chip; else just before the reading, behind what names the chip.
  const at = wide ? 0 : column - 1;
  const beside = rows.filter(
    (each) =>
      each.start >= table.start &&
      each.end <= table.end &&
      each.cells[at]?.text === pin &&
      (wide || own.cells.slice(0, at).every((cell, i) => cell.text === each.cells[i]?.text)),
  );
  if (beside.length !== 1) fail(source, `has ${beside.length} rows of pin ${pin} beside it`);
  const [only = own] = beside;
  return wide ? (only.cells[column] ?? only) : only;
}

function fail(source: string, how: string): never {
  throw new Error(`${source} ${how}`);
}

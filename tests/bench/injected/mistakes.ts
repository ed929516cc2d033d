// Mistakes at the bench, made in the logs of boards without a fault: what a technician would have written down with the lead
// off ground, the leads reversed, the pins counted from another end, a column slid by a row, a unit lost or the point in the
// wrong place. Nothing but the readings of the table is touched, and nothing of the diagnosis is asked.
import { isNamed, type Said } from "../../stories/judge";

export interface MistakenLog {
  readonly name: string;
  /** Of the mistake, as the stories' answers have it; any of them is right. */
  readonly kinds: readonly string[];
  readonly table: string;
  readonly log: string;
}

interface TableOfLog {
  readonly title: string;
  readonly head: readonly string[];
  readonly rows: readonly (readonly string[])[];
  /** The column of the readings where there is one reading a row; absent of wide tables. */
  readonly column?: number;
}
type Rows = readonly (readonly string[])[];

interface Mistake {
  readonly name: string;
  readonly kinds: readonly string[];
  readonly in: RegExp;
  readonly made: (table: TableOfLog) => Iterable<Rows>;
}

const NOT_READ = "-";
const DIODE = /^Diode check/;
const STATES = /^Logic states/;
const LEVELS = /^Logic levels/;
const OHMS = /^Resistance/;
const RAILS = /^Supply rails/;

/** Volts or ohms of a cell; not a number where it holds none. */
function figure(cell: string): number {
  const [, digits, unit] = /^(-?[\d.]+)\s*(mV|kohm|Mohm)?/.exec(cell) ?? [];
  const times = unit === "mV" ? 1e-3 : unit === "kohm" ? 1e3 : unit === "Mohm" ? 1e6 : 1;
  return digits === undefined ? Number.NaN : Number(digits) * times;
}

/** Every reading of the table as it would have been. */
const each =
  (cell: (was: string) => string) =>
  ({ rows, column }: TableOfLog): Rows[] => [
    rows.map((row) =>
      row.map((was, at) =>
        (column === undefined ? at > 0 : at === column) && was !== "" && was !== NOT_READ ? cell(was) : was,
      ),
    ),
  ];

/** The readings of one chip after another, whole chips only, in the order of their pins. */
function ofChip(readings: (was: readonly string[]) => readonly string[] | undefined) {
  return function* ({ head, rows, column }: TableOfLog): Iterable<Rows> {
    if (column !== undefined) return;
    for (let at = 1; at < head.length; at += 1) {
      const was = rows.map((row) => row[at] ?? "").filter((cell) => cell !== "" && cell !== NOT_READ);
      const isWhole = was.length >= 8 && was.length % 2 === 0 && was.length === lastRead(rows, at) + 1;
      const now = isWhole ? readings(was) : undefined;
      if (now) yield rows.map((row, i) => row.map((cell, j) => (j === at ? (now[i] ?? cell) : cell)));
    }
  };
}

const lastRead = (rows: Rows, at: number): number =>
  rows.reduce((last, row, i) => (["", NOT_READ].includes(row[at] ?? "") ? last : i), -1);

const isGround = (cell: string): boolean => Math.abs(figure(cell)) < 0.02;
/** What a junction shows to leads that are reversed, alternately, for there is no one answer. */
const REVERSED = ["OL", "1.61 V", "OL", "1.74 V", "OL"];
const reversed = (was: string, at: number): string =>
  isGround(was) ? was : (REVERSED[at % REVERSED.length] ?? "");

/** The row in which a reading was left out: there the rest of the column came up. */
const LEFT_OUT = 3;

export const MISTAKES: readonly Mistake[] = [
  { name: "off ground", kinds: ["off-ground"], in: DIODE, made: each(() => "OL") },
  { name: "off ground", kinds: ["off-ground"], in: STATES, made: each(() => "floating") },
  { name: "off ground", kinds: ["off-ground", "range"], in: OHMS, made: each(() => "OL") },
  {
    name: "one chip off ground",
    kinds: ["off-ground"],
    in: DIODE,
    made: ofChip((was) => was.map(() => "OL")),
  },
  {
    name: "one chip off ground",
    kinds: ["off-ground"],
    in: STATES,
    made: ofChip((was) => was.map(() => "floating")),
  },
  { name: "reversed", kinds: ["reversed"], in: DIODE, made: ofChip((was) => was.map(reversed)) },
  {
    name: "reversed",
    kinds: ["reversed"],
    in: LEVELS,
    made: each((was) => (figure(was) > 0 ? `-${was}` : was)),
  },
  {
    name: "reversed",
    kinds: ["reversed"],
    in: RAILS,
    made: each((was) => (/ V$/.test(was) ? `-${was}` : was)),
  },
  {
    name: "unit lost",
    kinds: ["range"],
    in: LEVELS,
    made: each((was) => `${Math.round(figure(was) * 1000)} V`),
  },
  {
    name: "counted from the other end",
    kinds: ["counted"],
    in: DIODE,
    made: ofChip((was) => [...was].reverse()),
  },
  {
    name: "counted from the other end",
    kinds: ["counted"],
    in: STATES,
    made: ofChip((was) => [...was].reverse()),
  },
  { name: "turned round", kinds: ["counted"], in: DIODE, made: ofChip(turned) },
  { name: "turned round", kinds: ["counted"], in: STATES, made: ofChip(turned) },
  { name: "slid by a row", kinds: ["shifted", "counted"], in: DIODE, made: ofChip(slid) },
  { name: "slid by a row", kinds: ["shifted", "counted"], in: STATES, made: ofChip(slid) },
  { name: "point slipped", kinds: ["slip"], in: DIODE, made: ofChip(slipped) },
];

function turned(was: readonly string[]): string[] {
  return was.map((_, i) => was[(i + was.length / 2) % was.length] ?? "");
}
function slid(was: readonly string[]): string[] {
  return [...was.slice(0, LEFT_OUT), ...was.slice(LEFT_OUT + 1), ""];
}
/** The fourth of its readings, with the point one place further on. */
function slipped(was: readonly string[]): string[] | undefined {
  const at = was.findIndex((cell, i) => i >= LEFT_OUT && figure(cell) > 0.4 && figure(cell) < 1);
  return at < 0 ? undefined : was.map((cell, i) => (i === at ? `${(figure(cell) * 10).toFixed(2)} V` : cell));
}

/** All of these mistakes in a log, one a log. */
export function* mistakesIn(name: string, log: string): Iterable<MistakenLog> {
  const sections = log.split(/^(?=## )/m);
  for (const [at, section] of sections.entries()) {
    const lines = section.split("\n");
    const of = lines.flatMap((line, i) => (line.startsWith("|") ? [i] : []));
    const [first = 0] = of;
    const cells = (line: string | undefined): string[] =>
      (line ?? "")
        .split("|")
        .slice(1, -1)
        .map((cell) => cell.trim());
    const head = cells(lines[first]);
    const column = head.findIndex((word) => /^(?:Reading|State)$/.test(word));
    const rows = of.slice(2).map((i) => cells(lines[i]));
    const title = lines[0]?.slice(3) ?? "";
    const table = { title, head, rows, ...(head[0] === "Pin" ? {} : { column }) };
    if (rows.length < 3 || (head[0] !== "Pin" && column < 0)) continue;
    for (const mistake of MISTAKES) {
      if (!mistake.in.test(title)) continue;
      for (const made of mistake.made(table)) {
        const now = made.map((row) => `| ${row.join(" | ")} |`);
        const whole = [...lines.slice(0, first + 2), ...now, ...lines.slice((of.at(-1) ?? 0) + 1)].join("\n");
        yield {
          name: `${name}: ${mistake.name} in ${title}`,
          kinds: mistake.kinds,
          table: `${mistake.name}, ${title.replace(/,.*/, "")}`,
          log: sections.map((one, i) => (i === at ? whole : one)).join(""),
        };
      }
    }
  }
}

const NO_BOARD = { id: "", parts: {}, nets: {}, rails: {} };

/** Whether the mistake leads: it is the first suspect, or the likeliest explanation blames nothing else. */
export function mistakeLeads({ kinds }: MistakenLog, { suspects, together }: Said): boolean {
  const isIt = (said: string): boolean => kinds.some((kind) => isNamed(said, `mistake ${kind}`, NO_BOARD));
  const [best] = together;
  const excuses =
    best !== undefined && [...best.blamed, ...best.excused].some(isIt) && best.blamed.every(isIt);
  return excuses || isIt(suspects[0]?.name ?? "");
}

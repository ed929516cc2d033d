// Tables of readings as they are typed, for what readings taken together say. All readings are invented; pins are those
// of server/data/devices, windows those of the families there.

/** One reading a pin from pin 1 on, separated by spaces; "." leaves the cell blank. */
type Readings = string;

const list = (readings: Readings): string[] =>
  readings
    .trim()
    .split(/\s+/)
    .map((one) => (one === "." ? "" : one));

const rows = (head: readonly string[], body: readonly (readonly string[])[]): string =>
  [head, head.map(() => "---"), ...body].map((cells) => `| ${cells.join(" | ")} |`).join("\n");

const section = (heading: string, table: string): string => `## ${heading}\n\n${table}\n`;

/** A row a pin, the designator and the number in columns of their own. */
export const long = (
  chips: Readonly<Record<string, readonly [part: string, readings: Readings]>>,
  heading = "Diode check",
  header = "Reading",
): string =>
  section(
    heading,
    rows(
      ["Ref", "Device", "Pin", header],
      Object.entries(chips).flatMap(([ref, [part, readings]]) =>
        list(readings).map((one, i) => [ref, part, String(i + 1), one]),
      ),
    ),
  );

/** A chip in the heading. */
export const under = (chip: string, readings: Readings, header = "Reading", what = "Diode check"): string =>
  section(
    `${what} ${chip}`,
    rows(
      ["Pin", header],
      list(readings).map((one, i) => [String(i + 1), one]),
    ),
  );

/** A column a chip, "U5 (7404)". */
export const wide = (chips: Readonly<Record<string, Readings>>, heading = "Diode check"): string => {
  const columns = Object.values(chips).map(list);
  const most = Math.max(...columns.map(({ length }) => length));
  return section(
    heading,
    rows(
      ["Pin", ...Object.keys(chips)],
      Array.from({ length: most }, (_, i) => [String(i + 1), ...columns.map((column) => column[i] ?? "")]),
    ),
  );
};

/** Rows as they are given: "U5 1 0.57 note". */
export const noted = (part: string, lines: readonly string[]): string =>
  section(
    "Diode check",
    rows(
      ["Ref", "Device", "Pin", "Reading", "Note"],
      lines.map((line) => {
        const [ref = "", pin = "", reading = "", ...note] = line.split(" ");
        return [ref, part, pin, reading, note.join(" ")];
      }),
    ),
  );

export const rails = (lines: Readonly<Record<string, string>>): string =>
  section(
    "Supply rails",
    rows(
      ["Rail", "DC"],
      Object.entries(lines).map(([rail, dc]) => [rail, dc]),
    ),
  );

export interface Together {
  readonly name: string;
  readonly log: string;
  /** "code U5 U6": what is to be found, and of which chips. */
  readonly causes: readonly string[];
  /** Findings of single places that have to stay beside it, as the start of their message. */
  readonly still?: readonly string[];
  /** In the message of the first cause. */
  readonly says?: string;
  /** What `log` becomes by the first fix of the first cause. */
  readonly mended?: string;
}

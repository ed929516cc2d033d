import { readdirSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { readKind } from "../server/build/library.js";
import { KINDS, kindOf } from "../server/src/log/kinds";

interface ProcedureData {
  id: string;
  columns: { role: string; measure?: string }[];
  wide?: { rows: string; columns: string };
}

const procedures = (readKind("procedures") as { data: ProcedureData }[]).map(({ data }) => data);
const IDS = procedures.map(({ id }) => id);
const ROOT = join(dirname(fileURLToPath(import.meta.url)), "..", "server", "src");
const RECORDS = "log/kinds/";

const files = readdirSync(ROOT, { recursive: true })
  .map((name) => String(name).split("\\").join("/"))
  .filter((name) => name.endsWith(".ts") && !name.endsWith(".d.ts"));

describe("every procedure of the library has a record, in the file of its id", () => {
  test("and no record is of a procedure that there is not", () => {
    expect(KINDS.map(({ id }) => id).sort()).toEqual([...IDS].sort());
    for (const id of IDS) expect(files).toContain(`${RECORDS}${id}.ts`);
  });

  test.each(KINDS.map((kind) => [kind.id, kind] as const))("%s names what there is", (id, kind) => {
    const { columns } = procedures.find((it) => it.id === id)!;
    const names = columns.flatMap(({ role, measure }) => [role, measure]);
    for (const column of kind.newLog?.columns ?? []) expect(names).toContain(column);
    for (const other of kind.insteadOf?.procedures ?? []) expect(IDS).toContain(other);
    if (kind.place === "pin" || kind.place === "part") expect(names).toContain("ref");
    if (kind.place === "pin" || kind.place === "rail" || kind.place === "switch")
      expect(names).toContain(kind.place);
  });

  test("what a new log fills in stands in a column that it writes", () => {
    for (const { newLog } of KINDS) {
      for (const row of newLog?.rows?.({}) ?? []) {
        expect(newLog?.columns).toEqual(expect.arrayContaining(Object.keys(row)));
      }
    }
  });

  test("no two stand at the same place in the order of the job", () => {
    expect(new Set(KINDS.map(({ inJob }) => inJob)).size).toBe(KINDS.length);
  });

  test("one kind is what a chip is read by where no heading says otherwise, and one is of each sort of matrix", () => {
    expect(KINDS.filter(({ firstOfChip }) => firstOfChip)).toHaveLength(1);
    expect(KINDS.flatMap(({ matrix }) => matrix ?? []).sort()).toEqual(["lamp", "switch"]);
  });

  test("a procedure of one's own has readings that only what is expected there can judge", () => {
    expect(kindOf("my-own-test")).toEqual({
      holds: "readings",
      place: "columns",
      judgedBy: "expected",
      observedAs: "nothing",
      acrossJobs: "expected",
    });
  });
});

const quoted = (id: string): RegExp => new RegExp(`["'\`]${id}["'\` ]`, "i");
const ONE_WORD = IDS.filter((id) => !id.includes("-")).join("|");
const HYPHENATED = IDS.filter((id) => id.includes("-")).map(quoted);
/** A word that may mean many things, beside something that can only be a procedure's id. */
const COMPARED = [
  new RegExp(`\\b(?:\\w*[pP]rocedure|\\w*[iI]d)\\b\\)?\\s*[!=]==?\\s*["'](?:${ONE_WORD})["']`),
  new RegExp(`["'](?:${ONE_WORD})["']\\s*[!=]==?\\s*[\\w.?]*(?:[pP]rocedure|\\b[iI]d)\\b`),
  new RegExp(`\\b\\w*[pP]rocedure\\w*\\([^()]*["'](?:${ONE_WORD})["']`),
  /\bkindOf\(["'`]/,
];
const SWITCHED = new RegExp(
  `switch \\([^)]*(?:[pP]rocedure|\\b[iI]d)\\b[^{]*\\{[^}]*\\bcase ["'](?:${ONE_WORD})["']`,
);
const LISTED = new RegExp(`\\[\\s*["'](?:${ONE_WORD})["'](?:\\s*,\\s*["'](?:${ONE_WORD})["'])+\\s*,?\\s*\\]`);
const KEYED = /Record<string,[^;=]*=\s*\{([^{}]*)\}/g;

/** Where a text asks for a procedure by an id that is written down in it. */
function literalIds(text: string): string[] {
  const code = text.replace(/\/\*[\s\S]*?\*\//g, "").replace(/(^|[^:"'`])\/\/.*$/gm, "$1");
  const keyed = [...code.matchAll(KEYED)].filter(([, body = ""]) => {
    const keys = [...body.matchAll(/^\s*(\w+):/gm)].map(([, key = ""]) => key);
    return keys.length > 0 && keys.every((key) => IDS.includes(key));
  });
  return [
    ...code
      .split("\n")
      .filter((line) => HYPHENATED.some((id) => id.test(line)) || COMPARED.some((how) => how.test(line)))
      .map((line) => line.trim()),
    ...[SWITCHED.exec(code)?.[0], LISTED.exec(code)?.[0], ...keyed.map(([all]) => all)].filter(
      (found) => found !== undefined,
    ),
  ];
}

describe("only a kind's record names it", () => {
  test.each([
    'if (table.procedure.id === "work") continue;',
    'const done = procedure?.id !== "soak";',
    'if ("proving" === id) return;',
    'const rails = library.procedure("settings");',
    'const list = rowsOfProcedure(source, "work");',
    'if (kindOf("work").holds) return;',
    'const NO_PLACE = new Set(["soak", "continuity"]);',
    'const KINDS: Readonly<Record<string, string>> = {\n  "switch-matrix": "switch",\n};',
    "const COLUMNS: Readonly<Record<string, string[]>> = {\n  work: [],\n  soak: [],\n};",
    'switch (procedure) {\n  case "inspection":\n    return 1;\n}',
    'const LEVELS = "LOGIC-LEVELS ";',
    "const id = `diode-check`;",
  ])("%s would be told", (code) => {
    expect(literalIds(code)).not.toEqual([]);
  });

  test.each([
    'if (table.kind.holds === "work") continue;',
    'const late = stage === "proving" || stage === "returned";',
    'const RANGES: Readonly<Record<string, string>> = {\n  ohms: "resistance",\n  hertz: "frequency",\n};',
    'const title = "Diode check";',
    "// as for `diode-check`",
    '/** A procedure id: "diode-check". */',
    'if (id === "") return;',
  ])("%s would not", (code) => {
    expect(literalIds(code)).toEqual([]);
  });

  // Arithmetic knows no log: its "diode-check" is one of the readings that it may advise.
  test.each(files.filter((file) => !file.startsWith(RECORDS) && !file.startsWith("compute/")))(
    "%s",
    (file) => {
      expect(literalIds(readFileSync(join(ROOT, file), "utf8"))).toEqual([]);
    },
  );
});

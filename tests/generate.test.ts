// What is generated is checked in; it must be what the checks and procedures of today make.
import { execFile } from "node:child_process";
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { promisify } from "node:util";
import { describe, expect, test } from "vitest";
import { CHECKS } from "../server/src/checks/registry";
import { builtinLibrary } from "../server/src/knowledge/library";
import { Service } from "../server/src/service";

const ROOT = fileURLToPath(new URL("..", import.meta.url));
const read = (path: string) => readFileSync(join(ROOT, path), "utf8");

test("npm run generate would change nothing", async () => {
  const run = promisify(execFile)(process.execPath, ["server/build/generate.js", "--check"], { cwd: ROOT });
  await expect(run).resolves.toEqual({ stdout: "", stderr: "" });
});

test("every check has its page, its place in the README and its setting", () => {
  const codes = CHECKS.map((check) => check.code);
  const pages = readdirSync(join(ROOT, "docs/checks")).filter((name) => name !== "README.md");
  expect(pages.sort()).toEqual(codes.map((code) => `${code}.md`).sort());
  const readme = read("README.md");
  expect(codes.filter((code) => !readme.includes(`(docs/checks/${code}.md)`))).toEqual([]);
  const setting = JSON.parse(read("package.json")).contributes.configuration.properties["mendlog.severity"];
  expect(Object.keys(setting.properties)).toEqual(codes);
});

test("a check's page says what the check says of its examples", () => {
  const page = read("docs/checks/unknown-designator.md");
  expect(page).toContain('- `U41`: Example board has no part "U41". Did you mean U14?');
  expect(page).toContain("| U41 | 1   | 0.58    |\n  ^^^\n");
  expect(page).not.toContain("^^^ unknown-designator");
});

const procedures = builtinLibrary().procedures;

/** Reads a text as the body of a log and gives its tables, and the codes found in it. */
function readBody(body: string) {
  const service = new Service({ read: async () => undefined, list: async () => [] });
  const uri = "mem:/log.md";
  service.open(uri, `---\nmendlog: 1\n---\n\n${body}`);
  const tables = service.view(uri)?.doc.blocks.flatMap(({ block }) => block.tables) ?? [];
  // They stand alone here; in a log they come below the board's name.
  const found = service.findings(uri).filter((finding) => finding.code !== "board-not-named");
  return { tables, codes: found.map((finding) => finding.code) };
}

/** Columns that are no column of the procedure; in a wide table those are what the readings are of. */
const strangers = ({ columns }: ReturnType<typeof readBody>["tables"][number]) =>
  columns.filter((column) => !column.spec).map((column) => column.header.text);

describe("the snippets make tables that are read", () => {
  interface Snippet {
    readonly prefix: string;
    readonly body: readonly string[];
  }
  const all = Object.values<Snippet>(JSON.parse(read("snippets/log.code-snippets")));
  const linked = all.find(({ prefix }) => prefix === "mend-replaced")!;
  const snippets = all.filter((snippet) => snippet !== linked);
  const filled = ({ body }: Snippet) =>
    body
      .join("\n")
      .replace(/\$\{\d+:([^}]*)\}/g, "$1")
      .replace(/\$\d+/g, "");

  test("there is one for every form of every procedure", () => {
    const forms = procedures.flatMap(({ id, wide }) => (wide ? [id, `${id}-wide`] : [id]));
    expect(snippets.map((snippet) => snippet.prefix).sort()).toEqual(
      forms.map((form) => `mend-${form}`).sort(),
    );
  });

  test.each(snippets.map((snippet) => [snippet.prefix, snippet] as const))("%s", (prefix, snippet) => {
    const { tables, codes } = readBody(filled(snippet));
    expect(codes).toEqual([]);
    expect(tables).toHaveLength(1);
    const wide = prefix.endsWith("-wide");
    expect(tables[0]!.procedure.id).toBe(prefix.replace(/^mend-/, "").replace(/-wide$/, ""));
    expect(tables[0]!.shape).toBe(wide ? "wide" : "long");
    expect(strangers(tables[0]!)).toHaveLength(wide ? 2 : 0);
    // A reading, a state or a result is never filled in beforehand: nobody has measured it.
    expect(tables[0]!.readings.map((reading) => reading.cell.text).join("")).toBe("");
  });

  test("a part that was replaced is typed once and stands in all three tables", () => {
    const body = linked.body.join("\n");
    const typed = (reading: string) => {
      const stops = ["", "U14", "74LS04", "", "", "1", "1", reading];
      return readBody(body.replace(/\$(\d)/g, (_, at: string) => stops[Number(at)] ?? ""));
    };
    // Nothing is claimed before somebody has typed it.
    expect(readBody(filled(linked)).codes).toEqual([]);
    const { tables, codes } = typed("");
    // Until somebody has measured, that is what is still to do.
    expect(codes).toEqual(["replaced-not-retested"]);
    expect(typed("0.58").codes).toEqual([]);
    expect(tables.map(({ procedure }) => procedure.id)).toEqual(["work", "parts-fitted", "diode-check"]);
    expect(body.match(/\$1\b/g)).toHaveLength(3);
    expect(body.match(/\$2\b/g)).toHaveLength(2);
    expect(tables[2]!.readings.map((reading) => reading.cell.text).join("")).toBe("");
  });

  test("their stops are numbered from 1, and the last is behind the table", () => {
    for (const { body } of snippets) {
      const stops = [...body.join("\n").matchAll(/\$\{?(\d+)/g)].map(([, number]) => Number(number));
      expect(stops).toEqual([...stops.slice(0, -1).map((_, at) => at + 1), 0]);
    }
  });
});

describe("the tables on the procedures' pages are read without a finding", () => {
  test.each(procedures.map(({ id }) => id))("%s", (id) => {
    const page = read(`docs/procedures/${id}.md`);
    const examples = [...page.matchAll(/^```markdown\n([\s\S]*?)^```$/gm)].map((match) => match[1] ?? "");
    expect(examples).toHaveLength(procedures.find((it) => it.id === id)?.wide ? 2 : 1);
    for (const example of examples) {
      const { tables, codes } = readBody(example);
      // What was done without a reading after it is a finding about the rest of the log, which is not there.
      expect(codes.filter((code) => code !== "replaced-not-retested")).toEqual([]);
      expect(tables.map((table) => table.procedure.id)).toEqual([id]);
    }
  });

  test("cautions stand before the steps", () => {
    for (const { id } of procedures) {
      const page = read(`docs/procedures/${id}.md`);
      expect(page.indexOf("## Cautions")).toBeGreaterThan(0);
      expect(page.indexOf("## Steps")).toBeGreaterThan(page.indexOf("## Cautions"));
    }
  });
});

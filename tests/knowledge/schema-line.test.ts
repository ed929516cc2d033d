// Other servers of YAML: the line that names a file's schema, and the schemas as any of them reads one.
import { readdirSync, readFileSync } from "node:fs";
import { dirname, join, resolve } from "node:path";
import Ajv from "ajv";
import { describe, expect, test } from "vitest";
import { parse } from "yaml";
import { writeBoardFile } from "../../server/src/knowledge/board-file";
import { EMPTY_DRAFT } from "../../server/src/knowledge/board-file/draft";
import { loadBoard } from "../../server/src/knowledge/load-board";
import { SCHEMAS, type SchemaKind } from "../../server/src/knowledge/schema";
import { schemaLine, schemaLineOf } from "../../server/src/knowledge/schema-line";

const DEMO = join(import.meta.dirname, "../../demo");
const LINE = "# yaml-language-server: $schema=https://mendlog.dev/schemas/board.schema.json\n";

describe("the line that names a schema", () => {
  test.each([
    ["https://mendlog.dev/schemas/board.schema.json", LINE],
    ["https://example.organic/s.json", "# yaml-language-server: $schema=https://example.organic/s.json\n"],
    // Whoever follows one of these gets nothing, and says so at the top of the file.
    ["https://mendlog.example.org/schemas/board.schema.json", ""],
    ["https://example.com/s.json", ""],
    ["https://mendlog.invalid/s.json", ""],
    [undefined, ""],
  ])("%s", (address, line) => expect(schemaLineOf(address)).toBe(line));

  test("a board file begins with it and is read as ever", () => {
    const text = writeBoardFile({ ...EMPTY_DRAFT, id: "halden", title: "Halden" });
    expect(text.startsWith(`${schemaLine("board")}mendlog-board: 1\n`)).toBe(true);
    for (const head of ["", LINE]) {
      const { value, problems } = loadBoard(head + text);
      expect([value?.id, problems]).toEqual(["halden", []]);
    }
  });

  test("every schema has an address of its own", () => {
    const addresses = (Object.keys(SCHEMAS) as SchemaKind[]).map((kind) => SCHEMAS[kind].$id);
    expect(new Set(addresses).size).toBe(8);
    expect(addresses.every((address) => URL.canParse(address ?? ""))).toBe(true);
  });
});

test.each(
  readdirSync(DEMO, { recursive: true })
    .map(String)
    .filter((name) => name.endsWith(".yaml")),
)("%s names its schema, and a checker that knows nothing of us has no complaint", (name) => {
  const file = join(DEMO, name);
  const text = readFileSync(file, "utf8");
  const path = /^# yaml-language-server: \$schema=(\S+)$/m.exec(text)?.[1];
  expect(path).toBeDefined();
  const schema = JSON.parse(readFileSync(resolve(dirname(file), path!), "utf8"));
  const holds = new Ajv({ strict: false, validateFormats: false, allErrors: true }).compile(schema);
  expect(holds(parse(text)), JSON.stringify(holds.errors)).toBe(true);
  expect(holds({ ...parse(text), nonsense: 1 })).toBe(false);
});

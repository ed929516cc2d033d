import { readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { parse } from "yaml";
import { loadDevice } from "../../server/src/knowledge/load-device";
import { loadFamily } from "../../server/src/knowledge/load-family";
import { loadMaker } from "../../server/src/knowledge/load-maker";
import { loadProcedure } from "../../server/src/knowledge/load-procedure";
import type { Loaded } from "../../server/src/knowledge/loaded";
import { type Data, record } from "../../server/src/knowledge/shape";
import { shapeDevice, shapeFamily, shapeProcedure } from "../../server/src/knowledge/shape-library";
import { shapeMaker } from "../../server/src/knowledge/shape-maker";

const DATA = new URL("../../server/data/", import.meta.url);

const KINDS: [
  string,
  string,
  (text: string) => Loaded<{ id: string }>,
  (data: Data) => { id: string } | undefined,
][] = [
  ["devices", ".device.yaml", loadDevice, shapeDevice],
  ["families", ".family.yaml", loadFamily, shapeFamily],
  ["makers", ".maker.yaml", loadMaker, shapeMaker],
  ["procedures", ".procedure.yaml", loadProcedure, shapeProcedure],
];

describe.each(KINDS)("%s", (folder, ending, load, shape) => {
  const files = readdirSync(new URL(folder, DATA), { recursive: true })
    .map((name) => String(name).replaceAll("\\", "/"))
    .filter((name) => name.endsWith(".yaml"))
    .sort();
  const text = (file: string) => readFileSync(new URL(`${folder}/${file}`, DATA), "utf8");

  test("there are files, each named by its kind", () => {
    expect(files.length).toBeGreaterThan(10);
    expect(files.filter((file) => !file.endsWith(ending))).toEqual([]);
  });

  test("every file follows its schema and makes sense", () => {
    const faults = files.flatMap((file) => {
      const content = text(file);
      return load(content).problems.map(({ code, message, span }) => {
        const line = content.slice(0, span.start).split("\n").length;
        return `${file}:${line} ${code}: ${message}`;
      });
    });
    expect(faults).toEqual([]);
  });

  // The program takes the built-in files through a plain YAML parser and JSON; an unquoted number must not
  // lose anything on that way that the checked way keeps.
  test("the short way into the program gives what the checked way gives", () => {
    for (const file of files) {
      const content = text(file);
      const plain = JSON.parse(JSON.stringify(parse(content)));
      expect(shape(record(plain)), file).toEqual(load(content).value);
    }
  });

  test("no id stands twice", () => {
    const ids = files.map((file) => load(text(file)).value?.id);
    expect(ids.filter((id, index) => ids.indexOf(id) !== index)).toEqual([]);
  });
});

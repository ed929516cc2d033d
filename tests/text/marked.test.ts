// What the makers of safe text make of anything. That nothing else is taken for safe text, the compiler sees: `refused.ts`.
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { csv } from "../../server/src/text/csv";
import { cell, html, xml } from "../../server/src/text/html";
import { json } from "../../server/src/text/json";
import { code, md, target } from "../../server/src/text/markdown";
import { visible, visibleFile, visibleLines } from "../../server/src/text/terminal";
import { sourcesOf } from "../support/imports";

const CONTROL = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\u007f-\u009f]/;
/** Any text, often with what has a meaning somewhere. */
const typed = fc
  .array(
    fc.oneof(
      fc.constantFrom(
        ..."\u001b\u0007\u009b\u202e\r\n\t `*_~|<>[]()!&#\\-=+@:;\"'",
        "\r\n",
        "![",
        "](",
        "http://a.b",
        "www.a.b",
      ),
      fc.string({ unit: "binary", maxLength: 3 }),
      fc.string({ maxLength: 5 }),
    ),
    { maxLength: 12 },
  )
  .map((pieces) => pieces.join(""));

describe("whatever is put in", () => {
  test("Markdown stays on its line and holds no control", () => {
    fc.assert(
      fc.property(typed, (text) => {
        for (const made of [md(text), code(text)]) {
          expect(made).not.toMatch(/[\r\n]/);
          expect(made).not.toMatch(CONTROL);
        }
        expect(md(text)).not.toMatch(/(?<!\\)(?:\\\\)*[<>`[\]]/);
      }),
    );
  });

  test("HTML holds no tag of its own and no control", () => {
    fc.assert(
      fc.property(typed, (text) => {
        expect(html(text)).not.toMatch(/[<>"']/);
        expect(cell(text).replaceAll("<wbr>", "")).not.toMatch(/[<>"']/);
        for (const made of [html(text), xml(text)]) expect(made).not.toMatch(CONTROL);
        expect(xml(text)).not.toMatch(/[<>"\u202e]/);
      }),
    );
  });

  test("a terminal is sent no command, and a file keeps its lines", () => {
    fc.assert(
      fc.property(typed, (text) => {
        expect(visible(text)).not.toMatch(/[\u0000-\u001f\u007f-\u009f\u202a-\u202e\u2066-\u2069]/);
        expect(visibleLines(text).split("\n")).toHaveLength(text.split("\n").length);
        expect(visibleFile(text)).not.toMatch(CONTROL);
        expect(visibleFile(text)).not.toMatch(/\r(?!\n)/);
        expect(visibleFile(text).replace(/[^\n]/g, "")).toBe(text.replace(/[^\n]/g, ""));
      }),
    );
  });

  test("JSON reads back the same and does nothing to a terminal", () => {
    fc.assert(
      fc.property(typed, (text) => {
        expect(JSON.parse(json({ text })).text).toBe(text);
        expect(json({ text })).not.toMatch(CONTROL);
      }),
    );
  });

  test("no cell of a table is a formula", () => {
    fc.assert(
      fc.property(typed, (text) => {
        const table = csv([[text]]).replace(/^"/, "");
        expect(table).not.toMatch(/^[=+\-@\t]/);
        expect(table).not.toMatch(CONTROL);
      }),
    );
    expect(csv([["=1+2", "@x", "-5V", 5, undefined]])).toBe("'=1+2,'@x,'-5V,5,\r\n");
  });

  test("a target cannot end its link", () => {
    fc.assert(
      fc.property(typed, (text) => {
        expect(target(text)).not.toMatch(/[\s()<>\\]/);
      }),
    );
  });
});

/** A source without its comments. */
const codeOf = (path: string): string =>
  readFileSync(path, "utf8").replace(/\/\*[\s\S]*?\*\/|^\s*\/\/.*$/gm, "");

describe("what is taken for safe without being made so", () => {
  const ROOT = join(fileURLToPath(new URL("../..", import.meta.url)));
  const uses = (word: RegExp): string[] =>
    ["server/src", "client/src"].flatMap((folder) =>
      sourcesOf(join(ROOT, folder))
        .map((file) => `${folder}/${file}`)
        .filter((file) => !file.startsWith("server/src/text/") && word.test(codeOf(join(ROOT, file)))),
    );

  test("is a text of the program's own, and these are all the places", () => {
    expect(uses(/\bown(?:Markdown|Html|Shown)\(/).sort()).toEqual([
      // The pictures that the server drew, and the pane's own style and script.
      "client/src/pane/html.ts",
      "client/src/preview/html.ts",
      // Help and version.
      "server/src/cli/main.ts",
      // Descriptions in the schemas are Markdown.
      "server/src/features/completion/front.ts",
      "server/src/features/shared/documentation.ts",
      "server/src/features/signature/index.ts",
      // Colours.
      "server/src/report/human.ts",
      "server/src/report/owner/style.ts",
    ]);
  });

  test("nobody else calls a text safe", () => {
    expect(uses(/ as (?:Markdown|Html|Shown|Json|Csv);/)).toEqual([]);
    // Of what leaves for an editor there is one place.
    expect(uses(/MarkupKind\.Markdown\b/).sort()).toEqual([
      "server/src/protocol/client-abilities.ts",
      "server/src/protocol/content.ts",
    ]);
  });
});

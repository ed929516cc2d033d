// The pictures of the walkthrough in every language: drawn alike, titled, and readable without colours.
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { elementsOf } from "../pictures/strict-xml";

const FOLDER = "client/media/walkthrough";
const names = readdirSync(FOLDER).filter((name) => name.endsWith(".svg"));
const languages = readdirSync("l10n").flatMap((name) => /^bundle\.l10n\.(.+)\.json$/.exec(name)?.[1] ?? []);
const read = (path: string): string => readFileSync(path, "utf8");

/** A drawing without its words. */
const drawing = (svg: string): string => svg.replace(/>[^<>]*</g, "><");
const titleOf = (svg: string): string => /<title>([^<]+)<\/title>/.exec(svg)?.[1] ?? "";

describe.each(["", ...languages])("in %j", (language) => {
  const texts: Record<string, string> = JSON.parse(
    read(language ? `package.nls.${language}.json` : "package.nls.json"),
  );
  const pictures = Object.entries(texts).filter(([key]) => /^walkthrough\.\w+\.svg$/.test(key));

  test("every step has its picture, which is there", () => {
    expect(pictures).toHaveLength(names.length);
    for (const [, path] of pictures) {
      expect(existsSync(path), path).toBe(true);
      expect(path).toContain(language ? `${FOLDER}/${language}/` : `${FOLDER}/`);
    }
  });

  test("a picture is said by its title, as in the step's own words for it", () => {
    for (const [key, path] of pictures)
      expect(titleOf(read(path))).toBe(texts[key.replace(/svg$/, "picture")]);
  });

  test("the drawing is the same in all languages", () => {
    for (const [, path] of pictures) {
      const name = path.slice(path.lastIndexOf("/") + 1);
      expect(drawing(read(path)), path).toBe(drawing(read(`${FOLDER}/${name}`)));
    }
  });

  test("text in a colour of its own begins with a sign, and every colour is the editor's", () => {
    for (const [, path] of pictures)
      for (const { name, attributes, text } of elementsOf(read(path).trim())) {
        if (name !== "text") continue;
        const fill = attributes.get("fill") ?? "";
        expect(fill, `${path}: ${text}`).toMatch(/^var\(--vscode-/);
        if (/error|warning|charts/i.test(fill)) expect(text, path).toMatch(/[▲△○✗]/);
      }
  });
});

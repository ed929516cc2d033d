import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { clientTexts, textsIn } from "../server/build/l10n.js";

type Texts = Record<string, string>;

const json = (path: string) => JSON.parse(readFileSync(path, "utf8"));
const manifest = json("package.json");
const english: Texts = json("package.nls.json");
const bundle: Texts = json("l10n/bundle.l10n.json");
const inClient = clientTexts("client/src");
const languages = readdirSync("l10n").flatMap((name) => /^bundle\.l10n\.(.+)\.json$/.exec(name)?.[1] ?? []);

/** What changes from time to time, and what the editor makes a link or a reference of. */
const placeholders = (text: string): string[] =>
  (text.match(/\{\d+\}|\((?:command|https?):[^)]*\)|`#[^`]*#`/g) ?? []).sort();

interface Said {
  readonly at: string;
  readonly key: string;
  readonly text: string;
}

/** Every text in the manifest, the name it stands under, and the names that lead there. */
const manifestTexts = (value: unknown, at = "", key = ""): Said[] =>
  typeof value === "string"
    ? [{ at, key, text: value }]
    : Array.isArray(value)
      ? value.flatMap((one, i) => manifestTexts(one, `${at}[${i}]`, key))
      : value === null || typeof value !== "object"
        ? []
        : Object.entries(value).flatMap(([name, one]) =>
            manifestTexts(one, at ? `${at}.${name}` : name, name),
          );

const all = manifestTexts(manifest);
const keyIn = ({ text }: Said): string | undefined => /^%([^%]+)%$/.exec(text)?.[1];

describe("the client's words", () => {
  test("a text that is not written out, or not in quotes, is told of", () => {
    expect(textsIn(`a(l10n.t("one {0}", x), l10n.t('"two"'), l10n.t(\n  "three",\n))`, "x.ts")).toEqual([
      "one {0}",
      '"two"',
      "three",
    ]);
    expect(() => textsIn("l10n.t(text)", "x.ts")).toThrow("x.ts:1");
    expect(() => textsIn("\nl10n.t(`a`)", "x.ts")).toThrow("x.ts:2");
    expect(() => textsIn('l10n.t("a" + b)', "x.ts")).toThrow();
  });

  test("all are in the bundle, and nothing else is", () => {
    expect(inClient.length).toBeGreaterThan(90);
    expect(Object.keys(bundle)).toEqual(inClient);
    for (const [key, text] of Object.entries(bundle)) expect(text).toBe(key);
  });

  test("nothing is said past the bundle", () => {
    const said =
      /show(?:Error|Warning|Information)Message\(\s*["'`]|\b(?:title|label|prompt|placeholder|tooltip): ["'`]\w/g;
    const files = readdirSync("client/src", { recursive: true }).map(String);
    const past = files
      .filter((name) => name.endsWith(".ts"))
      .flatMap((name) =>
        [...readFileSync(join("client/src", name), "utf8").matchAll(said)].map(([it]) => `${name}: ${it}`),
      );
    expect(past).toEqual([]);
  });
});

describe.each(languages)("in %s", (language) => {
  const translated: Texts = json(`l10n/bundle.l10n.${language}.json`);
  const described: Texts = json(`package.nls.${language}.json`);

  test("every word of the client and of the manifest has its translation, and no other is there", () => {
    expect(Object.keys(translated).sort()).toEqual(inClient);
    expect(Object.keys(described).sort()).toEqual(Object.keys(english).sort());
  });

  test("what changes from time to time, links and references are the same", () => {
    for (const [text, said] of [
      ...Object.entries(translated),
      ...Object.entries(english).map(([key, text]) => [text, described[key] ?? ""] as const),
    ]) {
      expect(said.trim(), text).not.toBe("");
      expect(placeholders(said), text).toEqual(placeholders(text));
    }
  });

  test("a translation says something else than the original", () => {
    const same = [
      ...Object.entries(translated).filter(([text, said]) => text === said),
      ...Object.entries(described).filter(([key, said]) => english[key] === said),
    ].map(([text]) => text);
    // The same word in both languages, and a pattern without words.
    expect(same.filter((text) => !["information", "{1}: {0}"].includes(text))).toEqual([]);
  });

  test("no part is called sound on the word of a reading", () => {
    for (const said of [...Object.values(translated), ...Object.values(described)])
      expect(said).not.toMatch(/\bgut(?:e|es|er|en)?\b|in Ordnung|fehlerfrei/i);
  });
});

describe("the manifest", () => {
  test("there is at least one translation, and all of them are shipped", () => {
    expect(languages).toContain("de");
    expect(manifest.l10n).toBe("./l10n");
    for (const file of ["l10n", "package.nls.json", ...languages.map((it) => `package.nls.${it}.json`)])
      expect(manifest.files).toContain(file);
  });

  test("every key is there, and every one there is used", () => {
    const used = all.flatMap((it) => keyIn(it) ?? []);
    expect(used.length).toBeGreaterThan(40);
    expect([...new Set(used)].sort()).toEqual(Object.keys(english).sort());
  });

  test("no title, name or description is left in one language", () => {
    // Names stay as they are; what is said of each check is made from the checks, which speak one language.
    const words = new Set(["title", "name", "description", "markdownDescription", "enumDescriptions"]);
    words.add("contents").add("altText").add("label").add("displayName").add("userDescription");
    const left = all
      .filter(
        ({ key, at }) => words.has(key) && (at.startsWith("contributes.") || at.startsWith("capabilities.")),
      )
      .filter(({ at }) => !/properties\.mendlog\.(?:severity|options)\.properties\./.test(at))
      // Tasks refer to a matcher by its name.
      .filter(({ at }) => !/problemMatchers\[\d+\]\.name$/.test(at))
      // A model reads these, and English whatever the editor's language; what a person reads of its tools is translated.
      .filter(
        ({ at }) =>
          !/languageModelTools\[\d+\]\.(?:name|modelDescription|toolReferenceName|icon|tags|inputSchema)\b/.test(
            at,
          ),
      )
      .filter((it) => keyIn(it) === undefined && it.text !== "Mendlog");
    expect(left).toEqual([]);
  });
});

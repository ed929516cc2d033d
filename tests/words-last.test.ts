// Words are made last: no sentence that the program makes is read back for what it was made from.
import { readdirSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";

const ROOT = join(dirname(fileURLToPath(import.meta.url)), "..");

/** What the program calls the words it makes. What a person typed goes by other names, or is listed below. */
const WORDS = "(?:sentence|message|reason|formula|why|says|advice|share|tooltip|markdown)";
const ASKS =
  "(?:includes|startsWith|endsWith|split|match|matchAll|replace|replaceAll|search|indexOf|lastIndexOf)";
const READ_BACK = [
  // sentence.includes("…"), found.reason?.split(": ")
  new RegExp(`\\b${WORDS}\\)?[!?]?\\.${ASKS}\\(`),
  // A label cut up: mark.label.split(" ")
  new RegExp(`\\.(?:label|description)[!?]?\\.${ASKS}\\(`),
  // /…/.test(judgement.sentence)
  new RegExp(`\\.(?:test|exec)\\((?:[\\w$]+[!?]?\\.)*${WORDS}\\b\\s*(?:\\?\\?[^)]*)?\\)`),
  // a.sentence === b.sentence: that there are words may be asked
  /\b(?:sentence|formula)\b\s*[!=]==(?!\s*(?:undefined\b|""))/,
];

/** Lines that do it for a reason, each in one file. */
const ALLOWED: readonly (readonly [file: string, line: RegExp, why: string])[] = [
  ["server/src/text/sentence.ts", /\$\{sentence\.replace/, "puts an aside into a sentence, whatever it says"],
  ["server/src/log/stated/ties.ts", /sentence\.matchAll\(/, "a sentence that somebody wrote into the log"],
  [
    "server/src/protocol/plain-text.ts",
    /markdown\.split\("\\n"\)/,
    "Markdown for a client that shows none, whatever it says",
  ],
  ["server/src/cli/read-options.ts", /\(error as Error\)\.message\.replace\(/, "the words of Node"],
  ["server/src/syntax/yaml-errors.ts", /error\.message/, "the words of the YAML parser"],
  ["server/src/syntax/yaml-recover.ts", /error\.message/, "the words of the YAML parser"],
];

const files = ["server/src", "client/src"].flatMap((folder) =>
  readdirSync(join(ROOT, folder), { recursive: true })
    .map((name) => `${folder}/${String(name).split("\\").join("/")}`)
    .filter((name) => name.endsWith(".ts")),
);

/** Code alone: a comment may say what it likes. */
const codeOf = (line: string): string =>
  line.replace(/^\s*(?:\*|\/\/|\/\*).*$/, "").replace(/\s\/\/ .*$/, "");

/** A call that goes on below is one line; the numbers of those behind it are less by as much. */
const onOneLine = (source: string): string => source.replace(/\r?\n\s*(?=\??\.\w)/g, "");

const readsBack = (line: string): boolean => READ_BACK.some((pattern) => pattern.test(codeOf(line)));

describe("no sentence is read back as data", () => {
  test.each([
    'const within = !ruling.sentence.includes("Not disproved");',
    'best.reason.split(": ")[0]',
    'html(mark.label.split(" ")[0] ?? "")',
    "told.sentence?.replace(/\\.$/, '')",
    "if (/Not disproved/.test(judgement.sentence)) return;",
    'const said = expectedText(reading)?.toLowerCase() ?? ""; return /x/.exec(finding.message ?? "")',
    "const twice = all.find((other) => other.sentence === one.sentence);",
  ])("would be seen: %s", (line) => expect(readsBack(line)).toBe(true));

  test.each([
    'if (text.startsWith("---", bom)) return false;',
    "const told = sentence === undefined ? [] : [sentence];",
    '// best.reason.split(": ")',
    "sentences.push(sentence);",
  ])("would be left alone: %s", (line) => expect(readsBack(line)).toBe(false));

  test("would be seen over two lines", () => {
    expect(readsBack(onOneLine('const [ref] = told.reason\n    .split(": ");'))).toBe(true);
  });

  test("no file reads a sentence back", () => {
    expect(files.length).toBeGreaterThan(400);
    const found = files.flatMap((file) =>
      onOneLine(readFileSync(join(ROOT, file), "utf8"))
        .split("\n")
        .flatMap((line, i) => (readsBack(line) ? [{ file, at: `${file}:${i + 1}`, line: line.trim() }] : [])),
    );
    const isAllowed = ({ file, line }: (typeof found)[number]): boolean =>
      ALLOWED.some(([where, pattern]) => where === file && pattern.test(line));
    expect(found.filter((one) => !isAllowed(one)).map(({ at, line }) => `${at} ${line}`)).toEqual([]);
    // What is allowed is there: an entry that fits nothing any more goes.
    expect(
      ALLOWED.filter(
        ([where, pattern]) => !found.some((one) => one.file === where && pattern.test(one.line)),
      ),
    ).toEqual([]);
  });
});

// Words a person may see, taken out of the source: every string of code that reads like a sentence or a part of one.
import { readdirSync, readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

export const ROOT = join(dirname(fileURLToPath(import.meta.url)), "../..");

export interface Text {
  /** "server/src/judge/rail.ts:40" */
  readonly at: string;
  readonly text: string;
}

/** Two words of letters beside each other: what is code, a key or a path has none. */
const READS = /[A-Za-zÄÖÜäöüß']{2,}[,;:]? [A-Za-zÄÖÜäöüß']{2,}/;

/** The strings of a file that read like words; of a template what stands around its values. */
export function wordsIn(file: string): Text[] {
  const code = readFileSync(join(ROOT, file), "utf8");
  const found: Text[] = [];
  const add = (from: number, text: string): void => {
    if (READS.test(text)) found.push({ at: `${file}:${code.slice(0, from).split("\n").length}`, text });
  };
  scan(code, 0, add);
  return found;
}

/** Reads code up to its end, or the brace that closes a template's value; where it stopped. */
function scan(code: string, from: number, add: (from: number, text: string) => void): number {
  let depth = 0;
  let before = "";
  for (let at = from; at < code.length; at += 1) {
    const char = code[at] ?? "";
    if (code.startsWith("//", at)) at = endOr(code, "\n", at);
    else if (code.startsWith("/*", at)) at = endOr(code, "*/", at) + 1;
    else if (char === '"' || char === "'") at = quoted(code, at, add);
    else if (char === "`") at = template(code, at, add);
    // A division has a value before it, a pattern has not.
    else if (char === "/" && !/[\w)\]]/.test(before)) at = pattern(code, at);
    else if (char === "{") depth += 1;
    else if (char === "}") {
      if (depth === 0) return at;
      depth -= 1;
    }
    if (char.trim() !== "") before = char;
  }
  return code.length;
}

const endOr = (code: string, what: string, at: number): number => {
  const end = code.indexOf(what, at);
  return end < 0 ? code.length : end;
};

function quoted(code: string, from: number, add: (from: number, text: string) => void): number {
  let at = from + 1;
  while (at < code.length && code[at] !== code[from]) at += code[at] === "\\" ? 2 : 1;
  add(from, code.slice(from + 1, at).replace(/\\(.)/g, "$1"));
  return at;
}

function template(code: string, from: number, add: (from: number, text: string) => void): number {
  let at = from + 1;
  let text = "";
  while (at < code.length && code[at] !== "`") {
    if (code.startsWith("${", at)) {
      at = scan(code, at + 2, add) + 1;
      text += "…";
    } else {
      if (code[at] === "\\") at += 1;
      text += code[at];
      at += 1;
    }
  }
  add(from, text);
  return at;
}

function pattern(code: string, from: number): number {
  let isClass = false;
  for (let at = from + 1; at < code.length; at += 1) {
    const char = code[at];
    if (char === "\\") at += 1;
    else if (char === "[") isClass = true;
    else if (char === "]") isClass = false;
    else if (char === "\n" || (char === "/" && !isClass)) return at;
  }
  return code.length;
}

/** Source files below these folders. */
export const sourcesBelow = (...folders: readonly string[]): string[] =>
  folders.flatMap((folder) =>
    readdirSync(join(ROOT, folder), { recursive: true })
      .map((name) => `${folder}/${String(name).split("\\").join("/")}`)
      .filter((name) => name.endsWith(".ts")),
  );

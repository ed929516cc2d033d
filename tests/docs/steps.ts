// The steps of a worked example, made in a folder: whole files, and changes of files by the lines around them.
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import type { Shown } from "./page";

/**
 * The text after a change as a page shows it: lines kept begin with a blank, `@@` parts two places.
 * @throws where a place is not there, or is there twice: the page is out of date
 */
export function changed(text: string, change: string): string {
  let now = text;
  for (const hunk of change.split(/^@@\n/m)) {
    const all = hunk.replace(/\n$/, "").split("\n");
    const side = (sign: string) =>
      all
        .filter((line) => line[0] === " " || line[0] === sign)
        .map((line) => `${line.slice(1)}\n`)
        .join("");
    const [before, after] = [side("-"), side("+")];
    const text = `\n${now}`;
    const at = text.indexOf(`\n${before}`);
    if (at < 0) throw new Error(`There is no place that reads\n${before}`);
    if (text.indexOf(`\n${before}`, at + 1) >= 0)
      throw new Error(`There are several places that read\n${before}`);
    now = now.slice(0, at) + after + now.slice(at + before.length);
  }
  return now;
}

/** @returns the path that was written */
export function apply({ name, language, text }: Shown, folder: string): string {
  const file = join(folder, name);
  mkdirSync(dirname(file), { recursive: true });
  writeFileSync(file, language === "diff" ? changed(readFileSync(file, "utf8"), text) : text);
  return name;
}

/** Whether a block is a step, and no log or answer. */
export const isStep = ({ name }: Shown): boolean => name.includes("/") && /\.\w+$/.test(name);

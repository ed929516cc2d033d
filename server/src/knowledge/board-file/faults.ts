import { lineIndex } from "../../text/line-index";
import { loadBoard } from "../load-board";
import { type BoardEntry, isListSection, SECTIONS } from "./entry";
import { entryText } from "./render";

/** Longest name that YAML takes for a key on one line. */
const LONGEST_NAME = 1000;

/**
 * Why an entry cannot stand in a board file, by the loader's own word: all of them are written to one file and
 * loaded. What it says of other entries' absence is not the entry's own fault; `rails` are the names of those that
 * an expected reading may have.
 */
export function entryFaults(
  entries: readonly BoardEntry[],
  rails: ReadonlySet<string>,
): Map<BoardEntry, string> {
  const faults = new Map<BoardEntry, string>();
  const lines = ["mendlog-board: 1", "id: x", "title: x"];
  const at = new Map<number, BoardEntry>();
  for (const section of SECTIONS) {
    // Where a guess and a fact cannot both be, it is the one that comes second that is reported.
    const own = entries
      .filter((entry) => entry.section === section)
      .toSorted((a, b) => Number(a.guess ?? false) - Number(b.guess ?? false));
    if (own.length > 0) lines.push(`${section}:`);
    for (const entry of own) {
      if (entry.key.length > LONGEST_NAME) {
        faults.set(
          entry,
          `The name has ${entry.key.length} characters; a board file takes at most ${LONGEST_NAME}.`,
        );
        continue;
      }
      at.set(lines.length, entry);
      lines.push(`  ${isListSection(section) ? "- " : ""}${entryText(entry)}`);
    }
  }
  const text = lines.join("\n");
  const index = lineIndex(text);
  for (const { code, message, span } of loadBoard(text).problems) {
    const entry = at.get(index.lineAt(span.start));
    if (!entry || faults.has(entry) || code === "missing-key") continue;
    if (/^unknown-(?:part|net|circuit|rail)$|^yaml-duplicate-key$/.test(code)) continue;
    faults.set(entry, message);
  }
  for (const entry of entries) {
    if (entry.section !== "expected" || faults.has(entry)) continue;
    const rail = (entry.value as Readonly<Record<string, string>>).rail;
    if (rail !== undefined && !rails.has(rail)) {
      faults.set(entry, `There is no rail \`${rail}\` in the board file. Add it first, with its voltage.`);
    }
  }
  return faults;
}

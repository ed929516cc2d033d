import type { ReportFile, ReportFinding } from "./model";

/**
 * A name for each finding of a file that stays the same while lines are added or taken away around it: made of
 * the code, the words of the line it starts in and its number among those that have both in common.
 * Changing the line's words makes it another finding. 16 hexadecimal digits, in the order of the findings.
 */
export function fingerprints(file: ReportFile): string[] {
  const lines = file.text.split(/\r\n|\n|\r/);
  const seen = new Map<string, number>();
  return file.findings.map((finding) => {
    const key = `${finding.code}\n${lineWords(lines, finding)}`;
    const nth = seen.get(key) ?? 0;
    seen.set(key, nth + 1);
    return hash64(`${key}\n${nth}`);
  });
}

/** Blanks are left out, since re-aligning a table moves them all. */
const lineWords = (lines: readonly string[], { start }: ReportFinding): string =>
  (lines[start.line - 1] ?? "").replace(/\s+/g, "");

/** FNV-1a, 64 bits, over UTF-16 code units. It need not be hard to forge, only spread well. Constants from memory. */
function hash64(text: string): string {
  let hash = 0xcbf29ce484222325n;
  for (let i = 0; i < text.length; i++) {
    hash = BigInt.asUintN(64, (hash ^ BigInt(text.charCodeAt(i))) * 0x100000001b3n);
  }
  return hash.toString(16).padStart(16, "0");
}

// What an editor does by itself with a cell of a table as the cursor leaves it: as transforms of a snippet's stops, which
// the editor runs in the window, in one step to undo with what was typed. Nothing waits for an answer of ours.
import { readAs, type WholeDigits } from "../../../quantity/whole-digits";

/** Beyond this a cell is left as it was typed: a regular expression has to name each width. */
const WIDEST = 40;

/**
 * The transform of a stop, as what follows its number in a snippet: blanks behind what was typed, so that the pipe stands
 * where the others do, and a reading typed without its point with the point in it, where it can only be one.
 * @param width characters of the column
 * @param digits how digits are read in the column; undefined where they are only digits
 */
export function whenLeft(width: number, digits?: WholeDigits): string {
  const patterns: string[] = [];
  let format = "";
  let groups = 0;
  const blanks = (length: number) => " ".repeat(Math.max(0, width - length));
  for (const { pattern, around, length } of digits ? readAs(digits) : []) {
    patterns.push(pattern);
    const first = groups + 1;
    const [before = "", ...parts] = around;
    if (before !== "") format += `\${${first}:+${before}}`;
    parts.forEach((behind, i) => {
      groups += 1;
      const last = i === parts.length - 1;
      format += `$${groups}`;
      const tail = behind + (last ? blanks(length) : "");
      if (tail !== "") format += `\${${groups}:+${tail}}`;
    });
  }
  for (let length = Math.min(width, WIDEST) - 1; length > 0; length -= 1) {
    groups += 1;
    patterns.push(`(.{${length}})`);
    format += `$${groups}\${${groups}:+${blanks(length)}}`;
  }
  // Whatever fits nothing else stays: blanks that were never typed over, and what is wider than the column.
  groups += 1;
  patterns.push("([^]*)");
  format += `$${groups}`;
  return `/^(?:${patterns.join("|")})$/${format}/`;
}

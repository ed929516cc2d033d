import type { Preview, PreviewTable } from "../../../server/src/protocol/custom-requests/preview";

/**
 * What can still be shown of an answer about an earlier text until the one about this text is here, so that marks and
 * pictures do not come and go under the hand that types. Only what stands in the lines before and behind the edit is
 * kept, at its place now: a row that was changed loses its marks, a table whose heading or header row was changed
 * loses them all, and a changed front matter, which names the board, takes everything with it.
 * @param before the text that the answer is about; both texts have `\n` for line ends
 */
export function carried(answer: Preview, before: string, now: string): Preview | undefined {
  if (before === now) return answer;
  const old = before.split("\n");
  const lines = now.split("\n");
  let head = 0;
  while (head < Math.min(old.length, lines.length) && old[head] === lines[head]) head++;
  let tail = 0;
  while (
    tail < Math.min(old.length, lines.length) - head &&
    old[old.length - 1 - tail] === lines[lines.length - 1 - tail]
  )
    tail++;
  // Front matter ends with the second fence; without one anything may belong to it.
  const fence = old.indexOf("---", 1);
  if (fence < 0 || head <= fence) return undefined;
  const moved = lines.length - old.length;
  const rowsOnly = lines.slice(head, lines.length - tail).every(isRow);
  const place = (line: number): number | undefined =>
    line < head ? line : line >= old.length - tail ? line + moved : undefined;

  const tables = answer.tables.flatMap((table): PreviewTable[] => {
    const line = place(table.line);
    const heading = table.heading === undefined ? undefined : place(table.heading);
    if (line === undefined || (table.heading !== undefined && heading === undefined)) return [];
    // With the heading before the edit and the table behind it, another heading may have come between them.
    if (heading !== undefined && line - heading !== table.line - table.heading!) return [];
    const marks = table.marks.flatMap((mark) => {
      const at = place(mark.line);
      // Rows that are no longer in one piece with their header may belong to another table by now.
      const cut = !rowsOnly && table.line < head && mark.line >= head;
      return at === undefined || cut ? [] : [{ ...mark, line: at }];
    });
    return [{ ...table, line, ...(heading === undefined ? {} : { heading }), marks }];
  });
  const findings = answer.findings.flatMap((finding) => {
    const line = place(finding.line);
    return line === undefined ? [] : [{ ...finding, line }];
  });
  return { ...answer, tables, findings };
}

/** A line of cells that is not the row of dashes below a header. */
const isRow = (line: string): boolean => line.includes("|") && !/^[\s|:-]*-[\s|:-]*$/.test(line);

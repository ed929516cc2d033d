// Makes the fixes that leave no doubt in the files themselves: only how something is written changes, never what is said.
import { resolve } from "node:path";
import type { Report, ReportEdit, ReportFile } from "../report/model";
import { applyEdits, collide, type TextEdit } from "../text/edits";
import { type Disk, failed, type Io, type Tried } from "./io";
import { decode, MOST_LOG_BYTES } from "./read-text";
import { isLink } from "./write-output";

export interface Fixed {
  readonly path: string;
  readonly titles: readonly string[];
  /** Why the file stays as it is, as the end of a sentence that begins with its path; absent where it was written. */
  readonly refused?: string;
}

/**
 * Writes each file with its certain fixes made, whole or not at all, if it still says what was checked.
 * @param dryRun nothing is written, and all is told as if it were
 * @returns the files that have such fixes
 */
export async function fixFiles(
  report: Report,
  { cwd, disk }: Pick<Io, "cwd" | "disk">,
  dryRun: boolean,
): Promise<Fixed[]> {
  const all: Fixed[] = [];
  for (const file of report.files) {
    const { titles, edits } = certainIn(file);
    if (titles.length === 0) continue;
    const { path } = file;
    const written = dryRun ? undefined : await rewrite(resolve(cwd, path), file.text, edits, disk);
    all.push(written && !written.ok ? { path, titles, refused: written.reason } : { path, titles });
  }
  return all;
}

/** Those that do not touch what an earlier one changes; the others are found again the next time. */
function certainIn({ findings }: ReportFile): { titles: string[]; edits: TextEdit[] } {
  const titles: string[] = [];
  const edits: TextEdit[] = [];
  for (const { fix } of findings) {
    const own = fix?.certain ? fix.edits.map(textEdit) : [];
    if (!fix?.certain || own.some((edit) => edits.some((other) => collide(edit, other)))) continue;
    titles.push(fix.title);
    edits.push(...own);
  }
  return { titles, edits };
}

const textEdit = ({ start, end, newText }: ReportEdit): TextEdit => ({
  span: { start: start.offset, end: end.offset },
  newText,
});

async function rewrite(
  path: string,
  checked: string,
  edits: readonly TextEdit[],
  disk: Disk,
): Promise<Tried<void>> {
  if (await isLink(path, disk)) return failed("stays as it is: it is a link. Name the file itself");
  const bytes = await disk.read(path, MOST_LOG_BYTES);
  if (!bytes.ok) return bytes;
  const text = decode(bytes.value);
  if (!text.ok || text.value !== checked) return failed("stays as it is: it was changed meanwhile");
  const after = applyEdits(checked, edits);
  const [a, b, c] = bytes.value;
  const mark = a === 0xef && b === 0xbb && c === 0xbf ? "\uFEFF" : "";
  return disk.replace(path, mark + after);
}

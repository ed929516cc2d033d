import { defined } from "../base/defined";
import { inTurns } from "../base/turns";
import { importBoard, isIncomplete, reportText } from "../knowledge/import";
import { loadBoard } from "../knowledge/load-board";
import { lineIndex } from "../text/line-index";
import { toLspRange } from "./convert";
import { type BoardImported, IMPORT_BOARD } from "./custom-requests/import-board";
import { onOwn } from "./own-request";
import type { Session } from "./session";

/** What a board file is made of by other programs' files. The client reads them and writes the outcome; nothing is kept here. */
export function handleImportBoard(session: Session): void {
  const { service, ready } = session;
  onOwn(session, IMPORT_BOARD, "An import", async ({ files, existing }, token): Promise<BoardImported> => {
    await ready;
    const { library } = service.knowledge.snapshot();
    const id = files[0]?.name.replace(/\.\w+$/, "") ?? "";
    const steps = importBoard(defined({ files, library, id, existing }));
    const made = await inTurns(steps, token);
    if (!made.ok) return made;
    const { text, merged, report } = made;
    const before = existing ?? "";
    const lines = lineIndex(before);
    // A file without anything in it becomes the new one as a whole.
    const edits = merged?.edits ?? [{ span: { start: 0, end: before.length }, newText: text }];
    return {
      ok: true,
      id: loadBoard(text).value?.id ?? id,
      text,
      edits: edits.map(({ span, newText }) => ({ range: toLspRange(lines, span), newText })),
      report: reportText(report),
      parts: report.parts,
      nets: report.nets,
      unmatched: report.unmatched.length,
      complete: !isIncomplete(report),
    };
  });
}

import type { AsyncSteps } from "../../base/steps";
import type { Library } from "../../knowledge/library";
import { LogReader } from "../../log/document";
import { isLog } from "../../log/sniff";
import type { DraftLog } from "../../review/board-draft";

/** Where logs are looked for. */
export interface LogSource {
  openLogs(): readonly DraftLog[];
  /** Uris of those that are not open and may be of this board. */
  closedLogs(board: string): Promise<readonly string[]>;
  read(uri: string): Promise<string | undefined>;
}

/** Every log of a board: as it stands in the editor where it is open there, else on disk. */
export async function* logsOfBoard(board: string, source: LogSource, library: Library): AsyncSteps<DraftLog> {
  for (const log of source.openLogs()) if (log.front.board === board) yield log;
  for (const uri of await source.closedLogs(board)) {
    const text = await source.read(uri);
    if (text === undefined || !isLog(text)) continue;
    const reader = new LogReader(uri);
    for (const _ of reader.prepare(text)) yield undefined;
    const doc = reader.read(text, library);
    const front: DraftLog["front"] = doc.frontMatter.value ?? {};
    yield front.board === board ? { doc, front } : undefined;
  }
}

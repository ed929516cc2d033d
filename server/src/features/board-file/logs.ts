import type { AsyncSteps } from "../../base/steps";
import type { Library } from "../../knowledge/library";
import { sectionsOfSet } from "../../log/boards-of-set";
import { LogReader } from "../../log/document";
import { isLog } from "../../log/sniff";
import type { DraftLog } from "../../review/board-draft";

/** Where logs are looked for. */
export interface BoardLogSource {
  openLogs(): readonly DraftLog[];
  /** Uris of those that are not open and may be of this board. */
  closedLogs(board: string): Promise<readonly string[]>;
  read(uri: string): Promise<string | undefined>;
}

/** Every log of a board: as it stands in the editor where it is open there, else on disk. */
export async function* logsOfBoard(
  board: string,
  source: BoardLogSource,
  library: Library,
): AsyncSteps<DraftLog> {
  for (const log of source.openLogs()) yield* ofBoard(log, board);
  for (const uri of await source.closedLogs(board)) {
    const text = await source.read(uri);
    if (text === undefined || !isLog(text)) continue;
    const reader = new LogReader(uri);
    for (const _ of reader.prepare(text)) yield undefined;
    const doc = reader.read(text, library);
    yield undefined;
    yield* ofBoard({ doc, front: doc.frontMatter.value ?? {} }, board);
  }
}

/** The log, or of one about several boards what it says of that one. */
function ofBoard({ doc, front }: DraftLog, board: string): readonly DraftLog[] {
  if (!front.boards) return front.board === board ? [{ doc, front }] : [];
  return sectionsOfSet(doc, front.boards).logs.flatMap((log) => {
    const own: DraftLog["front"] = log.frontMatter.value ?? {};
    return own.board === board ? [{ doc: log, front: own }] : [];
  });
}

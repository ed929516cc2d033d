import type { AsyncSteps } from "../../base/steps";
import type { Library } from "../../knowledge/library";
import { LogReader } from "../../log/document";
import { isLog } from "../../log/sniff";
import type { TextEdit } from "../../text/edits";
import type { KnowledgeFile } from "../shared/knowledge-file";
import { pathsInYaml } from "../shared/paths/in-yaml";
import { resolvePath } from "../shared/paths/relative";
import type { LogView } from "../view";
import { type FileMove, mayBeTouched, moveEditsOfKnowledge, moveEditsOfLog } from ".";

/** What has to change in one file that names what moves; the spans are of `text`. */
export interface FileEdits {
  readonly uri: string;
  readonly text: string;
  readonly edits: TextEdit[];
}

/** What is asked of the workspace. */
export interface MoveSearch {
  readonly library: Library;
  knowledgeFiles(): readonly KnowledgeFile[];
  openLogs(): readonly LogView[];
  closedLogs(): Promise<readonly string[]>;
  read(uri: string): Promise<string | undefined>;
  exists(uri: string): Promise<boolean>;
}

/**
 * The edits that keep every path right, made before the files move, file by file. Only files that name what moves are read closely.
 */
export async function* searchMoves(
  moves: readonly FileMove[],
  markdown: boolean,
  moved: MoveSearch,
): AsyncSteps<FileEdits> {
  for (const file of moved.knowledgeFiles()) {
    const { uri, text, tree } = file;
    if (!mayBeTouched(uri, text, moves)) continue;
    const there = new Set<string>();
    for (const { path } of pathsInYaml(tree)) {
      const target = resolvePath(uri, path);
      if (target !== undefined && (await moved.exists(target))) there.add(target);
      yield undefined;
    }
    const edits = moveEditsOfKnowledge(file, moves, (target) => there.has(target));
    if (edits.length > 0) yield { uri, text, edits };
  }
  for (const { doc } of moved.openLogs()) {
    if (!mayBeTouched(doc.uri, doc.text, moves)) continue;
    const edits = moveEditsOfLog(doc, moves, markdown);
    yield edits.length > 0 ? { uri: doc.uri, text: doc.text, edits } : undefined;
  }
  for (const uri of await moved.closedLogs()) {
    const text = await moved.read(uri);
    yield undefined;
    if (text === undefined || !isLog(text) || !mayBeTouched(uri, text, moves)) continue;
    const reader = new LogReader(uri);
    for (const _ of reader.prepare(text)) yield undefined;
    const edits = moveEditsOfLog(reader.read(text, moved.library), moves, markdown);
    if (edits.length > 0) yield { uri, text, edits };
  }
}

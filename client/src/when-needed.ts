import { Disposable, type TextDocument, workspace } from "vscode";
import { knowledgeKind } from "../../server/src/workspace/host";
import { HEAD, holdsLog } from "./in-log";

const ANYTHING = "**/{*.board.yaml,*.device.yaml,*.procedure.yaml,*.limits.yaml,mendlog.shop.yaml}";

/**
 * Calls `start` once: when the workspace holds a board or shop file, or as soon as a log or such a file is open.
 * Until then a document costs a look at its first lines, because most Markdown is no repair log.
 */
export function whenNeeded(start: () => void): Disposable {
  const waiting: Disposable[] = [];
  const stopWaiting = () => {
    for (const one of waiting.splice(0)) one.dispose();
  };
  let over = false;
  const found = () => {
    if (over) return;
    over = true;
    stopWaiting();
    start();
  };

  const look = (document: TextDocument) => {
    if (isOurs(document)) found();
  };
  waiting.push(
    workspace.onDidOpenTextDocument(look),
    workspace.onDidChangeTextDocument(({ document, contentChanges }) => {
      if (contentChanges.some(({ range }) => range.start.line < HEAD)) look(document);
    }),
  );
  for (const document of workspace.textDocuments) look(document);
  if (!over) {
    workspace.findFiles(ANYTHING, "**/{node_modules,.git,dist}/**", 1).then((files) => {
      if (files.length > 0) found();
    });
  }
  return new Disposable(() => {
    over = true;
    stopWaiting();
  });
}

const isOurs = (document: TextDocument): boolean =>
  knowledgeKind(document.uri.path) !== undefined || holdsLog(document);

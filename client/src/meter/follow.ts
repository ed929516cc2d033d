import { type Position, type TextEditor, workspace } from "vscode";
import { keepPlace } from "./keep-place";

export interface Followed {
  /** Where the place is now; undefined once its row was changed or its document closed. */
  now(): Position | undefined;
  version(): number;
  stop(): void;
}

/** Keeps hold of a place while the text around it is edited; its row must stay as it is. */
export function follow({ document }: TextEditor, position: Position): Followed {
  const line = document.lineAt(position).range;
  let at: ReturnType<typeof keepPlace> = {
    offset: document.offsetAt(position),
    start: document.offsetAt(line.start),
    end: document.offsetAt(line.end),
  };
  const listening = workspace.onDidChangeTextDocument((event) => {
    if (event.document === document && at) at = keepPlace(at.offset, at, event.contentChanges);
  });
  return {
    now: () => (at && !document.isClosed ? document.positionAt(at.offset) : undefined),
    version: () => document.version,
    stop: () => void listening.dispose(),
  };
}

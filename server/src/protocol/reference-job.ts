// The commands around a job whose board is known to work: to say so, and to write what was read into the board file.
import {
  type CancellationToken,
  MessageType,
  ShowMessageNotification,
  type WorkspaceEdit,
} from "vscode-languageserver";
import { stopIfCancelled } from "../base/cancellation";
import { takeAsReference, whyNoReference } from "../features/reference-job/mark";
import type { TextEdit } from "../text/edits";
import { linedText, toLspRange } from "./convert";
import { workspaceEdit } from "./fix-edit";
import type { Session } from "./session";

/** Writes the key into the log, or says why it is not written. */
export async function takeReference(uri: unknown, session: Session): Promise<null> {
  const { documents, service } = session;
  const tell = teller(session);
  const document = typeof uri === "string" ? documents.get(uri) : undefined;
  if (!document) return tell.warn("Open the repair log of the board that works, then try again.");
  const view = service.view(document.uri);
  if (!view) return tell.warn("This file is no repair log.");
  const { front } = view;
  const named = front.boards?.map(({ board }) => board).join(" and ") ?? front.board;
  if (front.reference)
    return tell.say(
      `This job is a reference for ${named ?? "its board"} already. Take the line \`reference: true\` out of its front matter to end that.`,
    );
  const edit = takeAsReference(view);
  if (!edit)
    return tell.warn(whyNoReference(view) ?? "The front matter is written in a way that cannot be added to.");
  const why = await apply(
    "Take this job as the reference",
    workspaceEdit([edit], document, session),
    session,
  );
  if (why !== undefined) return tell.warn(`The front matter was not changed: ${why}.`);
  return tell.say(
    `Other logs of ${named} are compared with this job once it is saved. It proves nothing about their boards. A reading that differs is worth a second look.`,
  );
}

/** Writes the limits into the board file. Gives its uri back, for whoever shows it; null where nothing was written. */
export async function proposeLimitsCommand(
  uri: unknown,
  session: Session,
  token: CancellationToken,
): Promise<string | null> {
  const { documents, service, remembering } = session;
  const tell = teller(session);
  const document = typeof uri === "string" ? documents.get(uri) : undefined;
  if (!document) return tell.warn("Open a repair log to use its readings as limits, then try again.");
  // What is written down stays: it is not to be of half of the logs.
  await remembering.done();
  stopIfCancelled(token);
  const front = service.view(document.uri)?.front;
  if (front?.boards)
    return tell.warn("This log is about several boards. Open a log about the one that you want limits for.");
  const board = front?.board;
  if (board === undefined)
    return tell.warn("This file is no repair log, or its front matter names no board.");
  const proposed = service.proposeLimits(board);
  if (!proposed)
    return tell.warn(
      `No board file describes ${board}, so there is none to write limits into. Begin one with "Write a board file from these logs", or with a file ${board}.board.yaml.`,
    );
  if (!proposed.ok) return tell.warn(proposed.reason);
  if (proposed.edits.length > 0) {
    const edit = editOf(proposed.uri, proposed.edits, session);
    const why = await apply("Propose limits for the board file", edit, session);
    if (why !== undefined) return tell.warn(`The board file was not changed: ${why}.`);
  }
  await tell.say(proposed.told);
  return proposed.edits.length > 0 ? documents.clientUri(proposed.uri) : null;
}

function editOf(
  uri: string,
  edits: readonly TextEdit[],
  { documents, service, can }: Session,
): WorkspaceEdit {
  const open = documents.at(uri);
  if (open) return workspaceEdit(edits, open, { can });
  const { lines } = linedText(service.text(uri) ?? "");
  const wire = edits.map(({ span, newText }) => ({ range: toLspRange(lines, span), newText }));
  return can.versionedEdits
    ? { documentChanges: [{ textDocument: { uri, version: null }, edits: wire }] }
    : { changes: { [uri]: wire } };
}

/** Undefined where it was applied, else why not, without the last full stop. */
async function apply(label: string, edit: WorkspaceEdit, session: Session): Promise<string | undefined> {
  if (!session.can.applyEdit) return "this editor takes no edits from the language server";
  const { applied, failureReason } = await session.connection.workspace.applyEdit({ label, edit });
  return applied ? undefined : (failureReason?.replace(/\.$/, "") ?? "the file has changed meanwhile");
}

function teller({ connection }: Session) {
  const tell = async (type: MessageType, message: string): Promise<null> => {
    await connection.sendNotification(ShowMessageNotification.type, { type, message: `Mendlog: ${message}` });
    return null;
  };
  return {
    say: (message: string) => tell(MessageType.Info, message),
    warn: (message: string) => tell(MessageType.Warning, message),
  };
}

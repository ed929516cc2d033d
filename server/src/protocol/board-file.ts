// A board file from the logs of one board: for our own client, which asks and writes itself, and as a command for others.

import {
  type CancellationToken,
  MessageType,
  ShowMessageNotification,
  type WorkspaceEdit,
} from "vscode-languageserver";
import { defined } from "../base/defined";
import { eachInTurn } from "../base/turns";
import { draftFile, namingEdit } from "../features/board-file/draft";
import { boardFilePlace } from "../features/board-file/place";
import type { LogView } from "../features/view";
import { idOf } from "../knowledge/board-file";
import type { TextEdit } from "../text/edits";
import { fileName, knowledgeKind } from "../workspace/host";
import { linedText, toLspRange } from "./convert";
import { BOARD_DRAFT, type WireBoardDraft } from "./custom-requests/board-file";
import { onOwn } from "./own-request";
import { whenRemembered } from "./remembered";
import type { Session } from "./session";

export function handleBoardFile(session: Session): void {
  onOwn(session, BOARD_DRAFT, "A board file from logs", ({ uri, name }, token) =>
    boardDraft(uri, name, session, token),
  );
}

type Logs = readonly Pick<LogView, "doc" | "front">[];

async function boardDraft(
  clientUri: string,
  name: string | undefined,
  session: Session,
  token: CancellationToken,
): Promise<WireBoardDraft | null> {
  const { documents, service } = session;
  // What the other logs say is to be of all of them, and no board file is to be overlooked.
  await whenRemembered(session, token);
  const document = documents.get(clientUri);
  const whole = document && service.view(document.uri);
  // Of a set the first board that no file describes: that is the one that wants one.
  const { boards: files } = service.knowledge.snapshot();
  const view = whole?.set?.find(({ front }) => !files.has(front.board ?? "")) ?? whole?.set?.[0] ?? whole;
  if (!document || !view) return null;
  const said = view.front.board || name?.trim();
  if (!said) return { kind: "needs-name" };
  const id = view.front.board ? said : idOf(said);
  const logs = await logsFor(view, id, session, token);
  const { library } = service.knowledge.snapshot();
  const existing = existingFile(id, session);
  const made = draftFile({ logs, library, name: said, existing: existing?.text });
  if (!made.ok) return { kind: "refused", reason: made.reason };
  const naming = namingEdit(view.doc, id);
  const placed = ({ span, newText }: TextEdit, text: string) => ({
    range: toLspRange(linedText(text).lines, span),
    newText,
  });
  const told = defined<Pick<WireBoardDraft & { kind: "new" }, "id" | "told" | "logs" | "naming">>({
    id,
    told: made.told,
    logs: logs.length,
    naming: naming ? { version: document.version, edit: placed(naming, document.text) } : undefined,
  });
  if (existing) {
    const { lines } = linedText(existing.text);
    const edits = made.edits.map(({ span, newText }) => ({ range: toLspRange(lines, span), newText }));
    return {
      ...told,
      kind: "completes",
      uri: documents.clientUri(existing.uri),
      before: existing.text,
      edits,
      notes: made.notes,
    };
  }
  const there = new Set([...(await service.files()), ...service.knowledge.uris()]);
  const place = boardFilePlace({ id, log: document.uri, folders: session.folders.uris(), files: there });
  return defined<WireBoardDraft>({ ...told, kind: "new", text: made.text, place });
}

/** The log that asks, as it stands, and all others of the board. */
async function logsFor(
  own: LogView,
  id: string,
  { service }: Session,
  token: CancellationToken,
): Promise<Logs> {
  const logs: Pick<LogView, "doc" | "front">[] = [own];
  for await (const log of eachInTurn(service.logsOfBoard(id), token)) {
    if (log.doc.uri !== own.doc.uri) logs.push(log);
  }
  return logs;
}

/** The board's file, or one of its name that cannot be read as one: a second file of the name would hide what is wrong. */
function existingFile(
  id: string,
  { service: { knowledge } }: Session,
): { readonly uri: string; readonly text: string } | undefined {
  const known = knowledge.snapshot().boards.get(id);
  if (known) return known;
  const uri = knowledge
    .uris()
    .find(
      (one) =>
        knowledgeKind(one) === "board" &&
        fileName(one).toLowerCase() === `${id}.board.yaml`.toLowerCase() &&
        knowledge.loaded(one)?.value === undefined,
    );
  const text = uri === undefined ? undefined : knowledge.text(uri);
  return uri === undefined || text === undefined ? undefined : { uri, text };
}

/** The same as one edit by the server, for a client that does not ask by itself. Gives the board file's uri back. */
export async function writeBoardFileCommand(
  uri: unknown,
  session: Session,
  token: CancellationToken,
): Promise<string | null> {
  const { connection, documents, can } = session;
  const tell = async (type: MessageType, message: string): Promise<null> => {
    await connection.sendNotification(ShowMessageNotification.type, { type, message: `Mendlog: ${message}` });
    return null;
  };
  const warn = (message: string) => tell(MessageType.Warning, message);
  const made = typeof uri === "string" ? await boardDraft(uri, undefined, session, token) : null;
  if (!made) return warn("Open a repair log of the board, then try again.");
  if (made.kind === "refused") return warn(made.reason);
  if (made.kind === "needs-name")
    return warn("The log names no board. Write `board:` with a name into its front matter, then try again.");
  const target = made.kind === "new" ? made.place : made.uri;
  if (!can.applyEdit) return warn("This editor takes no edits from the language server.");
  if (target === undefined)
    return warn(
      "No folder is open that the board file could be put into. Open the folder of your boards first.",
    );
  if (made.kind === "completes" && made.edits.length === 0)
    return tell(MessageType.Info, "The board file has all that these logs know of the board.");
  if (made.kind === "new" && !can.createFiles)
    return warn(
      `This editor makes no files for the language server. "mendlog board draft --board ${made.id} -o ${made.id}.board.yaml" does the same.`,
    );
  const edit = made.kind === "new" ? newFile(target, made.text) : { changes: { [target]: [...made.edits] } };
  const { applied, failureReason } = await connection.workspace.applyEdit({
    label: "Write a board file",
    edit,
  });
  if (!applied)
    return warn(
      `The board file was not written: ${failureReason?.replace(/\.$/, "") ?? "it has changed meanwhile"}.`,
    );
  await tell(
    MessageType.Info,
    `${fileName(target)}: ${made.told} from ${made.logs} ${made.logs === 1 ? "log" : "logs"}. Look it through, then save it.`,
  );
  return documents.clientUri(target);
}

function newFile(uri: string, newText: string): WorkspaceEdit {
  const start = { line: 0, character: 0 };
  return {
    documentChanges: [
      { kind: "create", uri, options: { overwrite: false, ignoreIfExists: false } },
      { textDocument: { uri, version: null }, edits: [{ range: { start, end: start }, newText }] },
    ],
  };
}

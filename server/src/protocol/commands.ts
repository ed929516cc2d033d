import {
  type CancellationToken,
  ErrorCodes,
  type ExecuteCommandParams,
  MessageType,
  ResponseError,
  ShowMessageNotification,
} from "vscode-languageserver";
import { stopIfCancelled } from "../base/cancellation";
import { nextTurn } from "../base/turns";
import { partsListSteps } from "../features/parts-list";
import { answering } from "./answer";
import { writeBoardFileCommand } from "./board-file";
import {
  COMMANDS,
  PROPOSE_LIMITS,
  TAKE_REFERENCE,
  WRITE_BILL,
  WRITE_BOARD_FILE,
  WRITE_PARTS_LIST,
  WRITE_REPORT,
  WRITE_SHEET,
} from "./command-names";
import { partsListEdit, suspectsEdit } from "./features";
import { workspaceEdit } from "./fix-edit";
import { proposeLimitsCommand, takeReference } from "./reference-job";
import type { Session } from "./session";

/** What the client may have done here by name. What cannot be done is told to the person, not thrown. */
export function handleCommands(session: Session): void {
  const { connection } = session;
  const safely = answering(session);
  connection.onExecuteCommand(
    safely("The command", null, async ({ command, arguments: args }: ExecuteCommandParams, token) => {
      if (!COMMANDS.includes(command)) {
        throw new ResponseError(ErrorCodes.InvalidParams, `There is no command ${command} here.`);
      }
      await nextTurn(token);
      // What is written down stays: it is not to be of a board that is still being read.
      await session.folders.settled();
      stopIfCancelled(token);
      const paper = PAPER_OF[command];
      if (paper !== undefined) return reportOf(paper, args?.[0], args?.[1], session, token);
      if (command === PROPOSE_LIMITS) return proposeLimitsCommand(args?.[0], session, token);
      if (command === WRITE_BOARD_FILE) return writeBoardFileCommand(args?.[0], session, token);
      if (command === TAKE_REFERENCE) return takeReference(args?.[0], session);
      const section = command === WRITE_PARTS_LIST ? PARTS_SECTION : SUSPECTS_SECTION;
      await writeSection(section, args?.[0], session, token);
      return null;
    }),
  );
}

const PAPER_OF: Readonly<Record<string, Parameters<typeof reportOf>[0]>> = {
  [WRITE_REPORT]: "report",
  [WRITE_BILL]: "bill",
  [WRITE_SHEET]: "sheet",
};

/** Where it is put is the client's to ask; nothing is written here. */
async function reportOf(
  paper: Parameters<Session["service"]["paper"]>[0],
  uri: unknown,
  format: unknown,
  session: Session,
  token: CancellationToken,
): Promise<string | null> {
  const { documents, service } = session;
  const asked = typeof uri === "string" ? documents.get(uri) : undefined;
  // The quote in it counts the parts that are suspected.
  if (asked && paper === "report") await session.diagnoses.make(asked.uri, token, partsListSteps);
  const document = asked && documents.get(asked.clientUri);
  const wanted = format === "md" || format === "json" ? format : "html";
  const text = document && (await service.paper(paper, document.uri, wanted, token));
  stopIfCancelled(token);
  if (text !== undefined) return text;
  await warn(
    session,
    document ? "This file is no repair log." : "Open the repair log to report on, then try again.",
  );
  return null;
}

const warn = ({ connection }: Session, message: string): Promise<void> =>
  connection.sendNotification(ShowMessageNotification.type, {
    type: MessageType.Warning,
    message: `Mendlog: ${message}`,
  });

/** A section of the log that a command brings up to date. */
interface OwnSection {
  /** Names the step that is undone. */
  readonly label: string;
  /** What is said of it where nothing was written. */
  readonly open: string;
  readonly not: string;
  readonly edit: typeof suspectsEdit;
  readonly steps?: typeof partsListSteps;
}

const SUSPECTS_SECTION: OwnSection = {
  label: "Write the suspects",
  open: "Open a repair log to write down its suspects, then try again.",
  not: "The suspects were not written",
  edit: suspectsEdit,
};

const PARTS_SECTION: OwnSection = {
  label: "Write the parts list",
  open: "Open a repair log to list its parts, then try again.",
  not: "The parts list was not written",
  edit: partsListEdit,
  steps: partsListSteps,
};

async function writeSection(
  section: OwnSection,
  uri: unknown,
  session: Session,
  token: CancellationToken,
): Promise<void> {
  const { connection, documents, service, can } = session;
  const asked = typeof uri === "string" ? documents.get(uri) : undefined;
  if (asked && can.applyEdit) await session.diagnoses.make(asked.uri, token, section.steps);
  // It may have been typed in meanwhile: what is written down is of the log as it stands now.
  const document = asked && documents.get(asked.clientUri);
  if (!document) return warn(session, section.open);
  if (!can.applyEdit) return warn(session, "This editor takes no edits from the language server.");
  const written = section.edit(service, document.uri);
  if (!written) return warn(session, "This file is no repair log.");
  if (!written.ok) return warn(session, written.reason);
  if (written.edits.length === 0) return;
  const edit = workspaceEdit(written.edits, document, session);
  const { applied, failureReason } = await connection.workspace.applyEdit({ label: section.label, edit });
  // The log was typed in meanwhile: nothing is lost, it only has to be asked for again.
  if (applied) return;
  const why = failureReason?.replace(/\.$/, "") ?? "the log has changed meanwhile";
  await warn(session, `${section.not}: ${why}.`);
}

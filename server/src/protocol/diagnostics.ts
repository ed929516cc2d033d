import type {
  CancellationToken,
  DocumentDiagnosticParams,
  WorkspaceDiagnosticParams,
} from "vscode-languageserver";
import { answering, report } from "./answer";
import type { OpenDocument } from "./documents";
import { Publisher } from "./publish";
import { pullDocument } from "./pull";
import { NOTHING, Reports } from "./reports";
import type { Session } from "./session";
import { WorkspacePull } from "./workspace-pull";

/** What has to be told to whatever sends diagnostics, whichever way this client gets them. */
export interface Diagnostics {
  /** A document was opened or edited. */
  edited(document: OpenDocument): void;
  closed(document: OpenDocument): void;
  /** A file that is not open changed on disk. */
  fileChanged(uri: string): void;
  /** Settings, folders or knowledge files changed: any file may be judged differently now. */
  everythingChanged(): void;
  stop(): void;
}

export function handleDiagnostics(session: Session): Diagnostics {
  const reports = new Reports(session);
  return session.can.pullDiagnostics
    ? pulled(session, reports)
    : pushed(session, new Publisher(session, reports));
}

function pushed({ documents }: Session, publisher: Publisher): Diagnostics {
  return {
    edited: ({ uri }) => publisher.changed(uri),
    closed: (document) => publisher.closed(document),
    fileChanged() {},
    everythingChanged() {
      for (const { uri } of documents.all()) publisher.changed(uri);
    },
    stop() {},
  };
}

function pulled(session: Session, reports: Reports): Diagnostics {
  const { connection } = session;
  const workspace = new WorkspacePull(session, reports);
  session.remembering.closedAreAsked = () => workspace.asked;
  const safely = answering(connection);
  const refresh = refresher(session);

  connection.languages.diagnostics.on(
    safely(
      "Checking a document",
      { kind: "full", ...NOTHING, items: [] },
      (params: DocumentDiagnosticParams, token) => pullDocument(params, token, session, reports),
    ),
  );
  connection.languages.diagnostics.onWorkspace(
    (params: WorkspaceDiagnosticParams, token: CancellationToken, _progress, reporter) =>
      safely("Checking the workspace", { items: [] }, () => workspace.answer(params, token, reporter))(
        params,
        token,
      ),
  );

  return {
    edited: () => workspace.edited(),
    closed({ uri }) {
      reports.forget(uri);
      workspace.changed(uri);
    },
    fileChanged: (uri) => workspace.changed(uri),
    everythingChanged() {
      workspace.changed();
      refresh();
    },
    stop: () => workspace.stop(),
  };
}

/** Asks the client to pull anew: one request at a time, and one more after it if there was reason meanwhile. */
function refresher({ connection, can }: Session): () => void {
  let asking = false;
  let again = false;
  const ask = async () => {
    asking = true;
    do {
      again = false;
      await connection.languages.diagnostics
        .refresh()
        .catch((error: unknown) => report(connection, "Asking for a refresh", error));
    } while (again);
    asking = false;
  };
  return () => {
    if (!can.refreshDiagnostics) return;
    if (asking) again = true;
    else void ask();
  };
}

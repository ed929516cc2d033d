import type {
  CancellationToken,
  DocumentDiagnosticParams,
  WorkspaceDiagnosticParams,
} from "vscode-languageserver";
import { answering } from "./answer";
import { Publisher } from "./publish";
import { pullDocument } from "./pull";
import { NOTHING, Reports } from "./reports";
import type { Session } from "./session";
import { WorkspacePull } from "./workspace-pull";

/** Diagnostics reach the client whichever way this one gets them. */
export function handleDiagnostics(session: Session): void {
  const reports = new Reports(session);
  if (session.can.pullDiagnostics) pulled(session, reports);
  else pushed(session, new Publisher(session, reports));
}

function pushed({ documents, events }: Session, publisher: Publisher): void {
  events.edited.on(({ uri }) => publisher.changed(uri));
  events.closed.on((document) => publisher.closed(document));
  events.everythingChanged.on(() => {
    for (const { uri } of documents.all()) publisher.changed(uri);
  });
}

function pulled(session: Session, reports: Reports): void {
  const { connection, events, refreshes } = session;
  const workspace = new WorkspacePull(session, reports);
  const safely = answering(session);

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

  events.closed.on(({ uri }) => {
    reports.forget(uri);
    workspace.changed(uri);
  });
  events.fileChanged.on((uri) => workspace.changed(uri));
  events.everythingChanged.on(() => {
    workspace.changed();
    refreshes.findings();
  });
}

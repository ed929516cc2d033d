import {
  type CancellationToken,
  type DocumentDiagnosticParams,
  type DocumentDiagnosticReport,
  DocumentDiagnosticReportKind,
} from "vscode-languageserver";
import { canonicalUri } from "../workspace/uri";
import { nextTurn, stopIfCancelled } from "./answer";
import { orNothing, type Reports } from "./reports";
import type { Session } from "./session";

/** Answers `textDocument/diagnostic`, also for a document that was closed a moment ago, as clients ask then. */
export async function pullDocument(
  params: DocumentDiagnosticParams,
  token: CancellationToken,
  session: Session,
  reports: Reports,
): Promise<DocumentDiagnosticReport> {
  const clientUri = params.textDocument.uri;
  await session.ready;
  // An edit right behind the request makes the client cancel it; that is seen only if we let it in.
  await nextTurn();
  stopIfCancelled(token);
  const isOver = () => token.isCancellationRequested;
  const before = session.documents.get(clientUri);
  if (before) await reports.prepare(before.uri, before.text, isOver);
  stopIfCancelled(token);
  // Edits may have come in meanwhile: the document is asked for again.
  const document = session.documents.get(clientUri);
  const report = orNothing(
    document ? reports.of(document.uri, document) : await reports.read(canonicalUri(clientUri), isOver),
  );
  stopIfCancelled(token);
  const { resultId } = report;
  if (params.previousResultId === resultId) return { kind: DocumentDiagnosticReportKind.Unchanged, resultId };
  return { kind: DocumentDiagnosticReportKind.Full, resultId, items: [...report.items] };
}

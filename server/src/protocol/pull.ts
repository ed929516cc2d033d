import {
  type CancellationToken,
  type DocumentDiagnosticParams,
  type DocumentDiagnosticReport,
  DocumentDiagnosticReportKind,
} from "vscode-languageserver";
import { stopIfCancelled } from "../base/cancellation";
import { nextTurn } from "../base/turns";
import { canonicalUri } from "../workspace/uri";
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
  await nextTurn(token);
  const before = session.documents.get(clientUri);
  if (before) await reports.prepare(before.uri, before.text, token);
  // Edits may have come in meanwhile: the document is asked for again.
  const document = session.documents.get(clientUri);
  const report = orNothing(
    document ? reports.of(document.uri, document) : await reports.read(canonicalUri(clientUri), token),
  );
  stopIfCancelled(token);
  const { resultId } = report;
  if (params.previousResultId === resultId) return { kind: DocumentDiagnosticReportKind.Unchanged, resultId };
  return { kind: DocumentDiagnosticReportKind.Full, resultId, items: [...report.items] };
}

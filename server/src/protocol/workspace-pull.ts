import {
  CancellationTokenSource,
  DocumentDiagnosticReportKind,
  type CancellationToken as RequestToken,
  type WorkspaceDiagnosticParams,
  type WorkspaceDiagnosticReport,
  type WorkspaceDiagnosticReportPartialResult,
  type WorkspaceDocumentDiagnosticReport,
} from "vscode-languageserver";
import { anyOf, type CancellationToken, completes, stopIfCancelled } from "../base/cancellation";
import { canonicalUri } from "../workspace/uri";
import { type BegunReport, type DiagnosticsReport, NOTHING, type Reports } from "./reports";
import type { Session } from "./session";

/** Milliseconds without an edit before closed files are looked at: the file being typed in comes first. */
const QUIET = 1000;

type Reporter = { report(part: WorkspaceDiagnosticReportPartialResult): void };

/**
 * Answers `workspace/diagnostic` for the files that are not open. The request is held until there is something
 * to say, because a client asks again as soon as it is answered; one that takes partial results gets each report
 * when it is ready and its request is never answered until it is cancelled.
 */
export class WorkspacePull {
  readonly #session: Session;
  readonly #reports: Reports;
  /** Of closed files what stands for their reports, with the surroundings they were made in; undefined for what is no log. */
  readonly #kept = new Map<
    string,
    { readonly surroundings: string; readonly resultId: string | undefined }
  >();
  /** Cancelled when a file may read differently than it does in the round that is under way. */
  #changes = new CancellationTokenSource();
  /** Cancelled when another request comes. */
  #current = new CancellationTokenSource();
  #wake: (() => void)[] = [];

  constructor(session: Session, reports: Reports) {
    this.#session = session;
    this.#reports = reports;
    // What is held is answered, as nothing more will come.
    session.ended.onCancellationRequested(() => this.#wakeAll());
  }

  /** A file may read differently now; without a uri, what all are judged by changed. */
  changed(uri?: string): void {
    if (uri !== undefined) this.#kept.delete(uri);
    this.#changes.cancel();
    this.#changes = new CancellationTokenSource();
    this.#wakeAll();
  }

  async answer(
    { previousResultIds }: WorkspaceDiagnosticParams,
    token: RequestToken,
    reporter: Reporter | undefined,
  ): Promise<WorkspaceDiagnosticReport> {
    this.#session.remembering.keepParses();
    // A second request means that the client has given up the first.
    this.#current.cancel();
    this.#current = new CancellationTokenSource();
    this.#wakeAll();
    const over = anyOf(token, this.#current.token, this.#session.ended);
    const stopListening = token.onCancellationRequested(() => this.#wakeAll());
    const sent = new Map(previousResultIds.map(({ uri, value }) => [canonicalUri(uri), value]));
    try {
      await this.#session.ready;
      for (;;) {
        const items: WorkspaceDocumentDiagnosticReport[] = [];
        // A change makes the list of files and what they are judged by doubtful: the round begins again.
        const stale = anyOf(over, this.#changes.token);
        const tell = (item: WorkspaceDocumentDiagnosticReport) =>
          reporter ? reporter.report({ items: [item] }) : void items.push(item);
        await completes(this.#round(sent, stale, tell));
        stopIfCancelled(token);
        if (over.isCancellationRequested || items.length > 0) return { items };
        while (!stale.isCancellationRequested) await this.#nextChange();
      }
    } finally {
      stopListening.dispose();
    }
  }

  /** Tells the reports that differ from what was sent, and remembers them as sent. */
  async #round(
    sent: Map<string, string>,
    stale: CancellationToken,
    tell: (item: WorkspaceDocumentDiagnosticReport) => void,
  ): Promise<void> {
    const { documents, service, folders, remembering, typingRest } = this.#session;
    await folders.settled();
    // Closed logs are looked at once, with all earlier jobs known, and not before and after.
    await remembering.done();
    const listed = new Set(await service.files());
    const begun: Promise<BegunReport>[] = [];
    const tellFirst = async (): Promise<void> => {
      const first = await begun[0]!;
      begun.shift();
      stopIfCancelled(stale);
      const { uri } = first;
      const report = await this.#reports.end(first, stale);
      // Looked at again: where it is read for the first time, it is known only now which images it hangs on.
      this.#kept.set(uri, { surroundings: this.#reports.surroundings(uri), resultId: report?.resultId });
      toldOf(uri, report);
    };
    const toldOf = (uri: string, report: DiagnosticsReport | undefined): void => {
      if (documents.at(uri)) return;
      const before = sent.get(uri);
      if (report ? before === report.resultId : before === undefined) return;
      if (report) sent.set(uri, report.resultId);
      else sent.delete(uri);
      const { resultId, items } = report ?? NOTHING;
      tell({ kind: DocumentDiagnosticReportKind.Full, uri, version: null, resultId, items: [...items] });
    };
    for (const uri of service.inOrder(new Set([...listed, ...sent.keys()]))) {
      await typingRest.after(QUIET, stale);
      // An open document has its own reports; when it is closed its file is looked at again.
      if (documents.at(uri)) sent.delete(uri);
      // What was told of a file in a folder that is no longer open has to be taken back.
      else if (!listed.has(uri)) toldOf(uri, undefined);
      else if (!this.#isTold(uri, sent)) {
        begun.push(this.#reports.begin(uri));
        if (begun.length >= service.mostElsewhere) await tellFirst();
      }
    }
    while (begun.length > 0) await tellFirst();
    await service.allChecked();
  }

  /** A closed file that nothing has happened to since it was told. */
  #isTold(uri: string, sent: ReadonlyMap<string, string>): boolean {
    const kept = this.#kept.get(uri);
    if (!kept || kept.resultId !== sent.get(uri)) return false;
    return kept.resultId === undefined || kept.surroundings === this.#reports.surroundings(uri);
  }

  #nextChange(): Promise<void> {
    return new Promise((resolve) => this.#wake.push(resolve));
  }

  #wakeAll(): void {
    const waiting = this.#wake;
    this.#wake = [];
    for (const resolve of waiting) resolve();
  }
}

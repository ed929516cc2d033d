import {
  type CancellationToken,
  DocumentDiagnosticReportKind,
  type WorkspaceDiagnosticParams,
  type WorkspaceDiagnosticReport,
  type WorkspaceDiagnosticReportPartialResult,
  type WorkspaceDocumentDiagnosticReport,
} from "vscode-languageserver";
import { canonicalUri } from "../workspace/uri";
import { nextTurn, stopIfCancelled } from "./answer";
import { NOTHING, type Report, type Reports } from "./reports";
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
  /** Reports of closed files with the surroundings they were made in. */
  /** The client has asked for the findings of closed files. */
  asked = false;
  readonly #kept = new Map<string, { readonly surroundings: string; readonly report: Report | undefined }>();
  #changes = 0;
  #lastEdit = 0;
  #current = 0;
  #wake: (() => void)[] = [];

  constructor(session: Session, reports: Reports) {
    this.#session = session;
    this.#reports = reports;
  }

  /** Something is being typed. */
  edited(): void {
    this.#lastEdit = Date.now();
  }

  /** A file may read differently now; without a uri, what all are judged by changed. */
  changed(uri?: string): void {
    if (uri !== undefined) this.#kept.delete(uri);
    this.#changes++;
    this.#wakeAll();
  }

  /** Answers what is held, as nothing more will come. */
  stop(): void {
    this.#current++;
    this.#wakeAll();
  }

  async answer(
    { previousResultIds }: WorkspaceDiagnosticParams,
    token: CancellationToken,
    reporter: Reporter | undefined,
  ): Promise<WorkspaceDiagnosticReport> {
    this.asked = true;
    const turn = ++this.#current;
    // A second request means that the client has given up the first.
    this.#wakeAll();
    const stopListening = token.onCancellationRequested(() => this.#wakeAll());
    const sent = new Map(previousResultIds.map(({ uri, value }) => [canonicalUri(uri), value]));
    const isOver = () => turn !== this.#current || token.isCancellationRequested;
    try {
      await this.#session.ready;
      for (;;) {
        const seen = this.#changes;
        const items: WorkspaceDocumentDiagnosticReport[] = [];
        // A change makes the list of files and what they are judged by doubtful: the round begins again.
        const isStale = () => isOver() || seen !== this.#changes;
        for await (const item of this.#round(sent, isStale)) {
          if (reporter) reporter.report({ items: [item] });
          else items.push(item);
        }
        stopIfCancelled(token);
        if (isOver() || items.length > 0) return { items };
        while (seen === this.#changes && !isOver()) await this.#nextChange();
      }
    } finally {
      stopListening.dispose();
    }
  }

  /** Reports that differ from what was sent, and remembers them as sent. */
  async *#round(
    sent: Map<string, string>,
    isOver: () => boolean,
  ): AsyncGenerator<WorkspaceDocumentDiagnosticReport> {
    const { documents, service } = this.#session;
    await this.#session.settled;
    // Closed logs are looked at once, with all earlier jobs known, and not before and after.
    await this.#session.remembering.done();
    const listed = new Set(await service.files());
    for (const uri of new Set([...listed, ...sent.keys()])) {
      await this.#quiet();
      if (isOver()) return;
      // An open document has its own reports; when it is closed its file is looked at anew.
      if (documents.at(uri)) {
        sent.delete(uri);
        continue;
      }
      // What was told of a file in a folder that is no longer open has to be taken back.
      const report = listed.has(uri) ? await this.#report(uri, isOver) : undefined;
      if (documents.at(uri) || isOver()) continue;
      const before = sent.get(uri);
      if (report ? before === report.resultId : before === undefined) continue;
      if (report) sent.set(uri, report.resultId);
      else sent.delete(uri);
      const { resultId, items } = report ?? NOTHING;
      yield { kind: DocumentDiagnosticReportKind.Full, uri, version: null, resultId, items: [...items] };
    }
  }

  /** Undefined for a file that is no log or is gone. */
  async #report(uri: string, isOver: () => boolean): Promise<Report | undefined> {
    const surroundings = this.#reports.surroundings(uri);
    const kept = this.#kept.get(uri);
    if (kept && (kept.report === undefined || kept.surroundings === surroundings)) return kept.report;
    const report = await this.#reports.read(uri, isOver);
    if (isOver()) return undefined;
    this.#kept.set(uri, { surroundings, report });
    return report;
  }

  async #quiet(): Promise<void> {
    await nextTurn();
    for (;;) {
      const left = this.#lastEdit + QUIET - Date.now();
      if (left <= 0) return;
      await new Promise((resolve) => setTimeout(resolve, left));
    }
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

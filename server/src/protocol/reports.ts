import type { Diagnostic } from "vscode-languageserver";
import { type CancellationToken, stopIfCancelled } from "../base/cancellation";
import { memo } from "../base/memo";
import { inTurns } from "../base/turns";
import { type FindingTold, knowledgeKind } from "../workspace/host";
import { textHash } from "../workspace/text-hash";
import { report as reportError } from "./answer";
import { type LinedText, linedText } from "./convert";
import { diagnosticOf } from "./diagnostic";
import type { Session } from "./session";

export interface DiagnosticsReport {
  /** The same for as long as text, settings and knowledge files stay the same. */
  readonly resultId: string;
  /** Computed when first asked for. */
  readonly items: readonly Diagnostic[];
}

/** A file that is being looked at, with its text and what another thread found in it, where one did. */
export interface BegunReport {
  readonly uri: string;
  readonly found?: { readonly text: string; readonly findings: readonly FindingTold[] };
}

/** What any Markdown that is no log gets; never computed. */
export const NOTHING: DiagnosticsReport = { resultId: "none", items: [] };

/** The diagnostics of one file after another, kept until something they depend on changes. */
export class Reports {
  readonly #session: Session;
  readonly #kept = new Map<string, DiagnosticsReport>();
  #last = 0;
  /** A number for each object that is seen, by which it is told from others. */
  readonly #number = memo((_of: object) => ++this.#last);

  constructor(session: Session) {
    this.#session = session;
  }

  /** Undefined for what is neither a log nor a knowledge file. */
  of(uri: string, text: LinedText): DiagnosticsReport | undefined {
    if (!knowledgeKind(uri) && !this.#session.service.isLog(uri, text.text)) return undefined;
    const resultId = this.#id(uri, text.text);
    const kept = this.#kept.get(uri);
    if (kept?.resultId === resultId) return kept;
    const report = this.#make(uri, text, resultId);
    // What is closed is told once: ten thousand texts with their findings would fill the memory.
    if (this.#session.documents.at(uri)) this.#kept.set(uri, report);
    return report;
  }

  /** A file that may be closed is read, and where it is a log of many another thread begins to check it. Never fails. */
  async begin(uri: string): Promise<BegunReport> {
    const { documents, service } = this.#session;
    if (documents.at(uri) || service.mostElsewhere < 2) return { uri };
    try {
      const text = await service.read(uri);
      const findings = text === undefined ? undefined : await service.findElsewhere(uri, text);
      return findings && text !== undefined ? { uri, found: { text, findings } } : { uri };
    } catch (error) {
      reportError(this.#session.connection, `Checking ${uri}`, error);
      return { uri };
    }
  }

  /**
   * The report that was begun, made here where no other thread did.
   * @throws Cancelled where nobody waits for it any longer
   */
  async end({ uri, found }: BegunReport, token: CancellationToken): Promise<DiagnosticsReport | undefined> {
    if (!found || this.#session.documents.at(uri)) return this.read(uri, token);
    const text = linedText(found.text);
    const items = found.findings.map((finding) => diagnosticOf(finding, uri, text, this.#session));
    return { resultId: this.#id(uri, found.text), items };
  }

  /**
   * The report of a file that may be open or not, or even be gone.
   * @throws Cancelled where nobody waits for it any longer
   */
  async read(uri: string, token: CancellationToken): Promise<DiagnosticsReport | undefined> {
    const { documents, service } = this.#session;
    const text = documents.text(uri) ?? (await service.read(uri));
    if (text === undefined) return undefined;
    const lined = typeof text === "string" ? linedText(text) : text;
    await this.prepare(uri, lined.text, token);
    return this.of(uri, lined);
  }

  /**
   * Does the slow part of a report ahead of it, letting others in between.
   * @throws Cancelled where nobody waits for it any longer
   */
  async prepare(uri: string, text: string, token: CancellationToken): Promise<void> {
    const { service } = this.#session;
    await inTurns(service.prepare(uri, text), token);
    await service.prepareImages(uri, text, token);
    stopIfCancelled(token);
    await inTurns(service.prepareFindings(uri), token);
  }

  forget(uri: string): void {
    this.#kept.delete(uri);
  }

  /** Changes with everything but the text that a file's report depends on. */
  surroundings(uri: string): string {
    const { service } = this.#session;
    const jobs = service.earlierJobs(uri);
    const images = service.imagesOf(uri);
    return [service.settingsOf(uri), ...service.judgedBy(uri), ...jobs, images, service.relatedJobs(uri)]
      .map((each) => this.#stamp(each))
      .join(".");
  }

  #id(uri: string, text: string): string {
    return `${textHash(text)}.${this.surroundings(uri)}`;
  }

  #make(uri: string, text: LinedText, resultId: string): DiagnosticsReport {
    const session = this.#session;
    let items: readonly Diagnostic[] | undefined;
    return {
      resultId,
      get items() {
        items ??= findItems(uri, text, session);
        return items;
      },
    };
  }

  #stamp(each: unknown): string | number {
    if (typeof each === "object" && each !== null) return this.#number(each);
    return typeof each === "string" ? textHash(each) : "";
  }
}

export const orNothing = (report: DiagnosticsReport | undefined): DiagnosticsReport => report ?? NOTHING;

function findItems(uri: string, text: LinedText, session: Session): readonly Diagnostic[] {
  try {
    const open = session.documents.at(uri);
    const findings =
      open?.text === text.text ? session.service.findings(uri) : session.service.findingsOf(uri, text.text);
    return findings.map((finding) => diagnosticOf(finding, uri, text, session));
  } catch (error) {
    reportError(session.connection, `Checking ${uri}`, error);
    return [];
  }
}

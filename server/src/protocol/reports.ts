import type { Diagnostic } from "vscode-languageserver";
import { isLog } from "../log/sniff";
import { isMarkdown, knowledgeKind } from "../workspace/host";
import { inTurns, report as reportError } from "./answer";
import { type LinedText, linedText } from "./convert";
import { diagnosticOf } from "./diagnostic";
import type { Session } from "./session";

export interface Report {
  /** The same for as long as text, settings and knowledge files stay the same. */
  readonly resultId: string;
  /** Computed when first asked for. */
  readonly items: readonly Diagnostic[];
}

/** What any Markdown that is no log gets; never computed. */
export const NOTHING: Report = { resultId: "none", items: [] };

/** The diagnostics of one file after another, kept until something they depend on changes. */
export class Reports {
  readonly #session: Session;
  readonly #kept = new Map<string, Report>();
  readonly #numbers = new WeakMap<object, number>();
  #last = 0;

  constructor(session: Session) {
    this.#session = session;
  }

  /** Undefined for what is neither a log nor a knowledge file. */
  of(uri: string, text: LinedText): Report | undefined {
    if (!isServed(uri, text.text)) return undefined;
    const resultId = this.#resultId(text.text);
    const kept = this.#kept.get(uri);
    if (kept?.resultId === resultId) return kept;
    const report = this.#make(uri, text, resultId);
    this.#kept.set(uri, report);
    return report;
  }

  /** The report of a file that may be open or not, or even be gone; undefined also where it is no longer wanted. */
  async read(uri: string, isOver: () => boolean = () => false): Promise<Report | undefined> {
    const { documents, service } = this.#session;
    const text = documents.text(uri) ?? (await service.read(uri));
    if (text === undefined) return undefined;
    const lined = typeof text === "string" ? linedText(text) : text;
    await this.prepare(uri, lined.text, isOver);
    return isOver() ? undefined : this.of(uri, lined);
  }

  /** Does the slow part of a report ahead of it, letting others in between. */
  prepare(uri: string, text: string, isOver: () => boolean): Promise<void> {
    return inTurns(this.#session.service.prepare(uri, text), isOver);
  }

  forget(uri: string): void {
    this.#kept.delete(uri);
  }

  /** Changes with everything but the text that a report depends on. */
  get surroundings(): string {
    const { service } = this.#session;
    return `${this.#number(service.settings)}.${this.#number(service.knowledge.snapshot())}`;
  }

  #make(uri: string, text: LinedText, resultId: string): Report {
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

  #resultId(text: string): string {
    return `${hashOf(text)}.${this.surroundings}`;
  }

  #number(of: object): number {
    let number = this.#numbers.get(of);
    if (number === undefined) {
      number = ++this.#last;
      this.#numbers.set(of, number);
    }
    return number;
  }
}

export const orNothing = (report: Report | undefined): Report => report ?? NOTHING;

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

const isServed = (uri: string, text: string): boolean =>
  knowledgeKind(uri) !== undefined || (isMarkdown(uri) && isLog(text));

/** Two 32-bit sums of the UTF-16 code units and the length: enough to tell the versions of one file apart. */
function hashOf(text: string): string {
  let a = 0x811c9dc5;
  let b = 0x9e3779b9;
  for (let i = 0; i < text.length; i++) {
    const unit = text.charCodeAt(i);
    a = Math.imul(a ^ unit, 0x01000193);
    b = Math.imul(b + unit, 0x85ebca6b) ^ (b >>> 13);
  }
  return `${text.length.toString(36)}-${(a >>> 0).toString(36)}-${(b >>> 0).toString(36)}`;
}

import { completes } from "../base/cancellation";
import { nextTurn } from "../base/turns";
import { report } from "./answer";
import type { OpenDocument } from "./documents";
import { orNothing, type Reports } from "./reports";
import type { Session } from "./session";

/** Milliseconds after which changes that keep coming no longer put off an answer. */
const PATIENCE = 50;

/** Sends diagnostics of open documents to clients that do not ask for them. */
export class Publisher {
  readonly #session: Session;
  readonly #reports: Reports;
  readonly #dirty = new Set<string>();
  #arrivals = 0;
  #running = false;
  #arrived = (): void => {};

  constructor(session: Session, reports: Reports) {
    this.#session = session;
    this.#reports = reports;
  }

  /** The document is sent in the next turn, together with all changes that are waiting by then. */
  changed(uri: string): void {
    this.#dirty.delete(uri);
    this.#dirty.add(uri);
    this.#arrivals++;
    this.#arrived();
    this.#arrived = () => {};
    if (!this.#running) void this.#run();
  }

  closed({ clientUri, uri }: OpenDocument): void {
    this.#dirty.delete(uri);
    this.#reports.forget(uri);
    void this.#session.connection.sendDiagnostics({ uri: clientUri, diagnostics: [] });
  }

  async #run(): Promise<void> {
    this.#running = true;
    try {
      await this.#session.ready;
      while (this.#dirty.size > 0) {
        await this.#settled();
        // What was edited last is what is looked at.
        const uri = [...this.#dirty].at(-1);
        if (uri === undefined) break;
        this.#dirty.delete(uri);
        const document = this.#session.documents.at(uri);
        // What is being read of one log, by another thread say, keeps no other waiting.
        if (document) await Promise.race([this.#send(document), this.#arrival()]);
      }
    } catch (error) {
      report(this.#session.connection, "Sending diagnostics", error);
    } finally {
      this.#running = false;
    }
  }

  /**
   * Resolves when no further change is waiting. Messages are handled one a turn, so two turns without one mean
   * that the queue is empty.
   */
  async #settled(): Promise<void> {
    const began = Date.now();
    let seen: number;
    do {
      seen = this.#arrivals;
      await nextTurn();
      await nextTurn();
    } while (seen !== this.#arrivals && Date.now() - began < PATIENCE);
  }

  #arrival(): Promise<void> {
    return new Promise((resolve) => {
      this.#arrived = resolve;
    });
  }

  async #send(document: OpenDocument): Promise<void> {
    const { clientUri, uri, version } = document;
    // An edit or a close meanwhile makes this report worthless; the edit has asked for its own.
    const superseded = this.#session.documents.superseded(document);
    try {
      if (!(await completes(this.#reports.prepare(uri, document.text, superseded)))) return;
      const diagnostics = [...orNothing(this.#reports.of(uri, document)).items];
      await this.#session.connection.sendDiagnostics({ uri: clientUri, version, diagnostics });
    } catch (error) {
      report(this.#session.connection, "Sending diagnostics", error);
    }
  }
}

import {
  type Disposable,
  DocumentFormattingRequest,
  DocumentRangeFormattingRequest,
} from "vscode-languageserver";
import { report } from "./answer";
import type { OpenDocument } from "./documents";
import type { Session } from "./session";

/**
 * Tells the client, log by log, that there is a formatter. Told of all Markdown at once, an editor would ask at every
 * plain document which of two formatters it is to take, and format nothing on saving until somebody has answered.
 */
export class Formatters {
  readonly #session: Pick<Session, "connection" | "can" | "service">;
  /** Undefined until the client has taken it. */
  readonly #told = new Map<string, Promise<readonly Disposable[]>>();

  constructor(session: Pick<Session, "connection" | "can" | "service">) {
    this.#session = session;
  }

  /** After every change, which may make a document a log or end its being one. */
  look({ clientUri, uri, text }: OpenDocument): void {
    if (!this.#session.can.registerFormatting) return;
    if (this.#session.service.isLog(uri, text)) {
      if (!this.#told.has(clientUri)) this.#told.set(clientUri, this.#tell(clientUri));
    } else this.forget({ clientUri });
  }

  forget({ clientUri }: Pick<OpenDocument, "clientUri">): void {
    const told = this.#told.get(clientUri);
    this.#told.delete(clientUri);
    void told?.then((all) => {
      for (const one of all) one.dispose();
    });
  }

  async #tell(clientUri: string): Promise<readonly Disposable[]> {
    const { connection } = this.#session;
    const { client } = connection;
    const options = { documentSelector: [selectorOf(clientUri)] };
    try {
      return await Promise.all([
        client.register(DocumentFormattingRequest.type, options),
        client.register(
          DocumentRangeFormattingRequest.type,
          this.#session.can.formatRanges ? { ...options, rangesSupport: true } : options,
        ),
      ]);
    } catch (error) {
      report(connection, "Telling of the formatter", error);
      return [];
    }
  }
}

/**
 * Just this document. A pattern is held against the path as the client's system writes it, with strokes of either kind
 * and any case of a drive letter, so the drive is left out; a sign that means something in patterns stands there as any
 * one character.
 */
export function selectorOf(clientUri: string) {
  const [, scheme = "file", path = ""] = /^([a-z][\w+.-]*):(?:\/\/[^/]*)?([^?#]*)/i.exec(clientUri) ?? [];
  const tail = decoded(path).replace(/^\/?(?:[a-z]:\/)?/i, "");
  return { language: "markdown", scheme, pattern: `**/${tail.replace(/[[\]{}*?,!\\]/g, "?")}` };
}

function decoded(path: string): string {
  try {
    return decodeURIComponent(path);
  } catch {
    return path;
  }
}

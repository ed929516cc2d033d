import type {
  DidChangeTextDocumentParams,
  DidCloseTextDocumentParams,
  DidOpenTextDocumentParams,
} from "vscode-languageserver";
import { type CancellationToken, cancelledWhen } from "../base/cancellation";
import type { Service } from "../service";
import { isMarkdown, knowledgeKind } from "../workspace/host";
import { canonicalUri } from "../workspace/uri";
import { type LinedText, linedText, spanOf } from "./convert";
import { emitter } from "./emitter";

/** One text as the editor has it now. */
export interface OpenDocument extends LinedText {
  /** As the core knows it. */
  readonly uri: string;
  /** As the client wrote it, and must have it back. */
  readonly clientUri: string;
  readonly version: number;
}

/** The documents being edited, kept in step with the service's copy of them. */
export class Documents {
  readonly #service: Service;
  readonly #byClientUri = new Map<string, OpenDocument>();
  readonly #byUri = new Map<string, OpenDocument>();
  /** Texts of files that are known but not open, so that places in them can be shown. */
  readonly #known = new Map<string, LinedText>();
  /** A document is being closed, for those who keep something of each. */
  readonly closing = emitter<OpenDocument>();

  constructor(service: Service) {
    this.#service = service;
  }

  /** Undefined for a document that can never be of use here; it costs nothing from then on. */
  open({ textDocument }: DidOpenTextDocumentParams): OpenDocument | undefined {
    const { uri: clientUri, languageId, version, text } = textDocument;
    const uri = canonicalUri(clientUri);
    // Never saved, or named otherwise, it may be Markdown because the editor says so.
    const markdown = languageId === "markdown" || isMarkdown(uri);
    if (!markdown && !knowledgeKind(uri)) return undefined;
    this.#service.open(uri, text, markdown);
    return this.#keep(uri, clientUri, version);
  }

  /** Changes are applied one after another, each to the text the one before it left. */
  change({ textDocument, contentChanges }: DidChangeTextDocumentParams): OpenDocument | undefined {
    const before = this.#byClientUri.get(textDocument.uri);
    if (!before) return undefined;
    const { uri, clientUri } = before;
    let now: LinedText = before;
    for (const change of contentChanges) {
      if ("range" in change) {
        this.#service.edit(uri, [{ span: spanOf(now.lines, change.range), newText: change.text }]);
      } else {
        this.#service.open(uri, change.text);
      }
      now = linedText(this.#service.text(uri) ?? "");
    }
    return this.#keep(uri, clientUri, textDocument.version);
  }

  async close({ textDocument }: DidCloseTextDocumentParams): Promise<OpenDocument | undefined> {
    const document = this.#byClientUri.get(textDocument.uri);
    if (!document) return undefined;
    this.#byClientUri.delete(textDocument.uri);
    this.#byUri.delete(document.uri);
    this.closing.fire(document);
    await this.#service.close(document.uri);
    this.forgetGone();
    return document;
  }

  /** Cancelled when the document is edited or closed: what is being made of it is of no use then. */
  superseded(document: OpenDocument): CancellationToken {
    return cancelledWhen(() => this.#byUri.get(document.uri) !== document);
  }

  /** Lets go of the texts of files that there are no longer; to be called after files were removed. */
  forgetGone(): void {
    for (const uri of this.#known.keys()) if (this.#service.text(uri) === undefined) this.#known.delete(uri);
  }

  /** By the client's uri. */
  get(clientUri: string): OpenDocument | undefined {
    return this.#byClientUri.get(clientUri);
  }

  /** By the core's uri. */
  at(uri: string): OpenDocument | undefined {
    return this.#byUri.get(uri);
  }

  all(): readonly OpenDocument[] {
    return [...this.#byUri.values()];
  }

  clientUri(uri: string): string {
    return this.#byUri.get(uri)?.clientUri ?? uri;
  }

  /** An open document, or a knowledge file as it was read; undefined for anything else. */
  text(uri: string): LinedText | undefined {
    const open = this.#byUri.get(uri);
    if (open) return open;
    const text = this.#service.text(uri);
    const known = this.#known.get(uri);
    if (text === undefined || known?.text === text) return text === undefined ? undefined : known;
    const lined = linedText(text);
    this.#known.set(uri, lined);
    return lined;
  }

  #keep(uri: string, clientUri: string, version: number): OpenDocument {
    const lined = linedText(this.#service.text(uri) ?? "");
    const document: OpenDocument = {
      uri,
      clientUri,
      version,
      text: lined.text,
      get lines() {
        return lined.lines;
      },
    };
    this.#byClientUri.set(clientUri, document);
    this.#byUri.set(uri, document);
    this.#known.delete(uri);
    return document;
  }
}

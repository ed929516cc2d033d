// The editor-free facade: everything a front end needs, in offsets and plain values. The language server, the
// command line and the tests all use it, so they cannot disagree.
import type { Knowledge, LogContext } from "./analysis/context";
import type { Finding, Fix, KnowledgeInput } from "./checks/check";
import { checkOf } from "./checks/registry";
import { type CheckSettings, checkKnowledgeFile, checkLog, DEFAULT_SETTINGS } from "./checks/run";
import type { KnowledgeFile } from "./features/knowledge/file";
import type { LogView } from "./features/view";
import { LogReader } from "./log/document";
import { isLog } from "./log/sniff";
import { applyEdits, type TextEdit } from "./text/edits";
import { contextFor } from "./workspace/context";
import { type Host, isMarkdown, knowledgeKind } from "./workspace/host";
import { KnowledgeStore } from "./workspace/knowledge-store";

interface OpenLog {
  readonly reader: LogReader;
  text: string;
  view?: LogView;
}

export class Service {
  readonly knowledge = new KnowledgeStore();
  readonly #host: Host;
  readonly #logs = new Map<string, OpenLog>();
  /** Knowledge files as the editor has them; they win over what is on disk. */
  readonly #edited = new Set<string>();
  #settings: CheckSettings = DEFAULT_SETTINGS;
  /** A text that is not open, read ahead for the findings that will be asked for next. */
  #prepared: { readonly uri: string; readonly text: string; readonly reader: LogReader } | undefined;

  constructor(host: Host) {
    this.#host = host;
  }

  /** Reads the workspace's knowledge files. Logs are read when they are opened or asked for. */
  async load(): Promise<void> {
    const uris = (await this.#host.list()).filter(knowledgeKind);
    await Promise.all(uris.map((uri) => this.fileChanged(uri)));
  }

  get settings(): CheckSettings {
    return this.#settings;
  }

  set settings(settings: CheckSettings) {
    this.#settings = settings;
  }

  /** Takes over the text of a document being edited, whole. */
  open(uri: string, text: string): void {
    if (knowledgeKind(uri)) {
      this.#edited.add(uri);
      this.knowledge.set(uri, text);
      return;
    }
    const log = this.#logs.get(uri);
    if (log) log.text = text;
    else this.#logs.set(uri, { reader: new LogReader(uri), text });
  }

  /** Edits an open document; the edits are of its present text. */
  edit(uri: string, edits: readonly TextEdit[]): void {
    const text = this.text(uri);
    if (text !== undefined) this.open(uri, applyEdits(text, edits));
  }

  /** The editor let go of a document; a knowledge file goes back to what is on disk. */
  async close(uri: string): Promise<void> {
    this.#logs.delete(uri);
    if (this.#edited.delete(uri)) await this.fileChanged(uri);
  }

  /** A file on disk was made, changed or deleted. Returns true where that changes what logs are judged by. */
  async fileChanged(uri: string): Promise<boolean> {
    if (!knowledgeKind(uri) || this.#edited.has(uri)) return false;
    const text = await this.#host.read(uri);
    if (this.#edited.has(uri)) return false;
    return text === undefined ? this.knowledge.remove(uri) : this.knowledge.set(uri, text);
  }

  text(uri: string): string | undefined {
    return this.#logs.get(uri)?.text ?? this.knowledge.text(uri);
  }

  /** Uris of every log being edited. */
  openLogs(): readonly string[] {
    return [...this.#logs.keys()];
  }

  /** Any file's text: as edited, else from disk. */
  async read(uri: string): Promise<string | undefined> {
    return this.text(uri) ?? this.#host.read(uri);
  }

  files(): Promise<readonly string[]> {
    return this.#host.list();
  }

  /** The log as it stands now with what it is judged against; undefined for anything that is not a log. */
  view(uri: string): LogView | undefined {
    const log = this.#logs.get(uri);
    if (!log || !isMarkdown(uri) || !isLog(log.text)) return undefined;
    const knowledge = this.knowledge.snapshot();
    if (log.view?.doc.text !== log.text || log.view.ctx.knowledge !== knowledge) {
      log.view = makeView(log.reader, log.text, knowledge, log.view?.ctx);
    }
    return log.view;
  }

  /** A board, device, procedure or shop file as it stands now; undefined for any other file. */
  knowledgeFile(uri: string): KnowledgeFile | undefined {
    const kind = knowledgeKind(uri);
    const text = this.knowledge.text(uri);
    const loaded = this.knowledge.loaded(uri);
    if (!kind || text === undefined || !loaded) return undefined;
    return { uri, kind, text, tree: loaded.tree, knowledge: this.knowledge.snapshot() };
  }

  /**
   * The slow part of a log's findings in small steps, for callers that have to let edits and cancellations in
   * between: when it has run to its end, the call for the same text that follows costs little.
   */
  *prepare(uri: string, text: string): Generator<void, void> {
    if (knowledgeKind(uri) || !isMarkdown(uri) || !isLog(text)) return;
    const open = this.#logs.get(uri);
    if (!open) this.#prepared = { uri, text, reader: new LogReader(uri) };
    yield* (open?.reader ?? this.#prepared?.reader)?.prepare(text) ?? [];
  }

  /** All findings of a document being edited or of a knowledge file, by place. */
  findings(uri: string): readonly Finding[] {
    const kind = knowledgeKind(uri);
    if (!kind) {
      const view = this.view(uri);
      return view ? checkLog(view.doc, view.ctx, this.#settings) : [];
    }
    const input = this.#knowledgeInput(uri, kind);
    return input ? checkKnowledgeFile(input, this.#settings) : [];
  }

  /** Findings of a text that is not open, without keeping anything of it. */
  findingsOf(uri: string, text: string): readonly Finding[] {
    if (knowledgeKind(uri) || this.#logs.has(uri) || !isMarkdown(uri) || !isLog(text))
      return this.findings(uri);
    const ready =
      this.#prepared?.uri === uri && this.#prepared.text === text ? this.#prepared.reader : undefined;
    this.#prepared = undefined;
    const { doc, ctx } = makeView(ready ?? new LogReader(uri), text, this.knowledge.snapshot(), undefined);
    return checkLog(doc, ctx, this.#settings);
  }

  /** What can be done about a finding of the document as it stands. */
  fixes(uri: string, finding: Finding): readonly Fix[] {
    const text = this.text(uri);
    const ctx = this.view(uri)?.ctx;
    if (text === undefined) return [];
    return checkOf(finding.code)?.fixes?.(finding, ctx ? { text, ctx } : { text }) ?? [];
  }

  #knowledgeInput(uri: string, kind: KnowledgeInput["kind"]): KnowledgeInput | undefined {
    const text = this.knowledge.text(uri);
    const loaded = this.knowledge.loaded(uri);
    if (text === undefined || !loaded) return undefined;
    const file = loaded.value === undefined ? undefined : { uri, text, loaded, value: loaded.value };
    return { uri, text, kind, file, problems: loaded.problems, knowledge: this.knowledge.snapshot() };
  }
}

function makeView(
  reader: LogReader,
  text: string,
  knowledge: Knowledge,
  last: LogContext | undefined,
): LogView {
  const doc = reader.read(text, knowledge.library);
  const front = doc.frontMatter.value ?? {};
  return { doc, front, ctx: contextFor(doc.uri, front, knowledge, last) };
}

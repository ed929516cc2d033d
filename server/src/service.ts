// The editor-free facade: everything a front end needs, in offsets and plain values. The language server, the
// command line and the tests all use it, so they cannot disagree. Long, because it is all wiring and one thing to read.
import type { BoardHistory } from "./analysis/baseline/history";
import { type RelatedJobs, relatedJobs } from "./analysis/comeback";
import type { Known, LogContext } from "./analysis/context";
import type { Images } from "./analysis/memory/image-file";
import { imagePaths } from "./analysis/memory/rom-from-log";
import type { Finding, Fix, KnowledgeInput } from "./checks/check";
import { checkOf } from "./checks/registry";
import { type CheckSettings, checkKnowledgeFile, checkLog, DEFAULT_SETTINGS } from "./checks/run";
import type { KnowledgeFile } from "./features/knowledge/file";
import type { Subject } from "./features/mentions";
import type { Move } from "./features/moves";
import { type FileEdits, searchMoves } from "./features/moves/search";
import { type FileMentions, searchMentions } from "./features/references/search";
import type { LogView } from "./features/view";
import type { Board } from "./knowledge/types";
import { LogReader } from "./log/document";
import { type JobLog, peekLog } from "./log/peek";
import { isLog } from "./log/sniff";
import { stretchesOf } from "./log/stretches";
import { type LogSummary, summarise } from "./log/summary";
import { type ReadImage, type ReportFormat, writeOwnerReport } from "./report/owner";
import { applyEdits, type TextEdit } from "./text/edits";
import { contextFor } from "./workspace/context";
import { Histories } from "./workspace/histories";
import { type Host, isMarkdown, knowledgeKind } from "./workspace/host";
import { ImageStore } from "./workspace/image-store";
import { imagePathFrom } from "./workspace/image-uri";
import { KnowledgeStore } from "./workspace/knowledge-store";
import { LONGEST_REMEMBERED, LogIndex, type Memory } from "./workspace/log-index";
import { type Settings, settingsOf } from "./workspace/settings";
import { fileBeside } from "./workspace/uri";

interface OpenLog {
  readonly reader: LogReader;
  text: string;
  view?: LogView;
  /** What the view was made with. */
  memory?: Memory;
}

/** A text of a log and the reader that has read it. */
interface ReadText {
  readonly uri: string;
  readonly text: string;
  readonly reader: LogReader;
  /** The images it names, where they were read. */
  readonly images?: Images;
}

/** How far the memory has come, in files. */
export interface IndexStep {
  readonly done: number;
  readonly total: number;
}

export class Service {
  readonly knowledge = new KnowledgeStore();
  readonly #host: Host;
  readonly #logs = new Map<string, OpenLog>();
  /** Knowledge files as the editor has them; they win over what is on disk. */
  readonly #edited = new Set<string>();
  #settings: Settings = { otherwise: DEFAULT_SETTINGS, folders: [] };
  readonly #index = new LogIndex();
  readonly #histories = new Histories();
  readonly #images: ImageStore;
  readonly #relatedKept = new Map<string, { readonly asked: string; readonly jobs: RelatedJobs }>();
  /** A text that is not open, read ahead for the findings that will be asked for next. */
  #prepared: ReadText | undefined;
  /** Logs that were read for the memory and may be asked for soon, so that none is read twice. */
  readonly #warm = new Map<string, ReadText>();

  /** Looked through while nothing is remembered yet. */
  #peeked: Promise<ReadonlyMap<string, JobLog>> | undefined;

  constructor(host: Host) {
    this.#host = host;
    this.#images = new ImageStore(host);
  }

  /** Reads the workspace's knowledge files. Logs are read when they are opened or asked for. */
  async load(): Promise<void> {
    const uris = (await this.#host.list()).filter(knowledgeKind);
    await Promise.all(uris.map((uri) => this.fileChanged(uri)));
  }

  set settings(settings: Settings) {
    this.#settings = settings;
  }

  /** How a file's findings weigh: by the innermost folder it lies in that has settings of its own. */
  settingsOf(uri: string): CheckSettings {
    return settingsOf(this.#settings, uri);
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
    else this.#logs.set(uri, { reader: this.#takeWarm(uri, text) ?? new LogReader(uri), text });
  }

  /** Edits an open document; the edits are of its present text. */
  edit(uri: string, edits: readonly TextEdit[]): void {
    const text = this.text(uri);
    if (text !== undefined) this.open(uri, applyEdits(text, edits));
  }

  /** The editor let go of a document; a knowledge file goes back to what is on disk. */
  async close(uri: string): Promise<void> {
    this.#logs.delete(uri);
    this.#images.closed(uri);
    this.#index.changed(uri);
    if (this.#edited.delete(uri)) await this.fileChanged(uri);
  }

  /**
   * A file on disk was made, changed or deleted, or an edited one saved. Returns true where that changes what logs are
   * judged by; a log does so only when `index` has read it again, an image when `prepareImages` has.
   */
  async fileChanged(uri: string): Promise<boolean> {
    this.#index.changed(uri);
    const isImage = this.#images.changed(uri);
    if (!knowledgeKind(uri) || this.#edited.has(uri)) return isImage;
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
    const memory = this.memory();
    const { view } = log;
    if (
      view?.doc.text !== log.text ||
      view.ctx.knowledge !== knowledge ||
      log.memory !== memory ||
      view.ctx.images !== this.#images.of(uri)
    ) {
      log.memory = memory;
      log.view = this.#makeView(log.reader, log.text, log.view?.ctx, this.#images.of(uri));
    }
    return log.view;
  }

  /** What is remembered of the workspace's logs as they stand on disk; as it was when `index` last came to its end. */
  memory(): Memory {
    return this.#index.memory;
  }

  /**
   * Which job each log on disk is of, by its uri: what is remembered, and before anything is, what the logs' front
   * matter says. A file that cannot be read is left out.
   */
  async jobLogs(): Promise<ReadonlyMap<string, JobLog>> {
    if (this.memory().version > 0) {
      this.#peeked = undefined;
      return this.memory().logs;
    }
    this.#peeked ??= this.#peek();
    return this.#peeked;
  }

  async #peek(): Promise<ReadonlyMap<string, JobLog>> {
    const logs = new Map<string, JobLog>();
    for (const uri of (await this.#host.list()).filter(isMarkdown)) {
      const text = await this.#host.read(uri);
      if (text !== undefined && isLog(text)) logs.set(uri, peekLog(uri, text));
    }
    return logs;
  }

  /** Every log of the workspace, summed up: as they stand in the editor where they are open, else on disk. */
  jobs(): readonly LogSummary[] {
    const jobs = new Map(this.memory().logs);
    for (const uri of this.#logs.keys()) {
      const view = this.view(uri);
      if (view) jobs.set(uri, summarise(view.doc));
      else jobs.delete(uri);
    }
    return [...jobs.values()];
  }

  /**
   * Reads the logs that may have changed since they were last read, in small steps for callers that have to let
   * others in between; it may be left at any of them and begun again later, one at a time. What it found is
   * seen in `memory()` when it has come to its end. Markdown that is no log costs a look at its first line.
   * @param keep characters of logs whose parse is kept for the findings that will be asked for next
   */
  async *index({ keep = 0 } = {}): AsyncGenerator<IndexStep, void> {
    const index = this.#index;
    index.list(await this.#host.list());
    for (let done = 0; ; done++) {
      const uri = index.next(this.knowledge.snapshot().library);
      if (uri === undefined) break;
      let read = false;
      try {
        const text = await this.#host.read(uri);
        const step = { done, total: done + 1 + index.waiting };
        if (text === undefined) index.forget(uri);
        else for (const _ of this.#remember(uri, text, keep)) yield step;
        read = true;
        yield step;
      } finally {
        if (!read) index.changed(uri);
      }
    }
    index.finish();
  }

  *#remember(uri: string, text: string, keep: number): Generator<void, void> {
    const { library } = this.knowledge.snapshot();
    if (text.length > LONGEST_REMEMBERED || !isLog(text)) {
      this.#index.skip(uri, library);
      return;
    }
    if (this.#index.knows(uri, text, library)) return;
    const open = this.#logs.get(uri);
    const isOpen = () => open !== undefined && open.text === text;
    let reader = open && isOpen() ? open.reader : new LogReader(uri);
    for (let steps = reader.prepare(text); !steps.next().done; ) {
      yield;
      // Typed in meanwhile: the reader has another text to keep in mind now.
      if (reader !== open?.reader || isOpen()) continue;
      reader = new LogReader(uri);
      steps = reader.prepare(text);
    }
    const doc = reader.read(text, library);
    this.#index.put(uri, text, library, summarise(doc), stretchesOf(doc));
    if (!this.#logs.has(uri)) this.#keepWarm({ uri, text, reader }, keep);
  }

  #keepWarm(read: ReadText, keep: number): void {
    let held = read.text.length;
    for (const { text } of this.#warm.values()) held += text.length;
    if (held <= keep) this.#warm.set(read.uri, read);
  }

  /** Hands a reader over that has read this text; it is kept no longer. */
  #takeWarm(uri: string, text: string): LogReader | undefined {
    const warm = this.#warm.get(uri);
    this.#warm.delete(uri);
    return warm?.text === text ? warm.reader : undefined;
  }

  /**
   * Stands for the earlier jobs that a log's readings are held against: another object where they changed,
   * undefined where there are too few of them.
   */
  earlierJobs(uri: string): object | undefined {
    const open = this.view(uri);
    if (open) return open.ctx.baselines?.history;
    const board = this.memory().logs.get(uri)?.board;
    const known = board === undefined ? undefined : this.knowledge.snapshot().boards.get(board);
    return known && this.#historyOf(known);
  }

  /**
   * What the other logs say of the board of this one; the same object for as long as they say the same. Undefined until
   * the workspace was read.
   */
  relatedJobs(uri: string): RelatedJobs | undefined {
    const view = this.view(uri);
    if (view) return this.#relatedTo(view);
    const summary = this.memory().logs.get(uri);
    return summary && this.#related(summary);
  }

  readonly #relatedTo = ({ doc, front }: LogView): RelatedJobs | undefined =>
    this.#related({ ...front, uri: doc.uri });

  #related(own: Parameters<typeof relatedJobs>[0]): RelatedJobs | undefined {
    const memory = this.memory();
    if (memory.version === 0) return undefined;
    const { uri, board, serial, received, comebackOf } = own;
    const asked = JSON.stringify([memory.version, board, serial, received, comebackOf]);
    const kept = this.#relatedKept.get(uri);
    if (kept?.asked === asked) return kept.jobs;
    const found = relatedJobs(own, memory.logs.values());
    const jobs = kept && JSON.stringify(kept.jobs) === JSON.stringify(found) ? kept.jobs : found;
    this.#relatedKept.set(uri, { asked, jobs });
    return jobs;
  }

  /** Changes with the numbers, boards and days of the workspace's jobs. */
  jobsStamp(): string {
    return JSON.stringify(
      [...this.memory().logs.values()].map(
        ({ uri, job, board, serial, stage, received, returned, comebackOf }) => [
          uri,
          job,
          board,
          serial,
          stage,
          received,
          returned,
          comebackOf,
        ],
      ),
    );
  }

  /** The same for every board of the workspace, in one order for as long as its board files stay the same. */
  earlierJobsOfAll(): readonly (object | undefined)[] {
    return [...this.knowledge.snapshot().boards.values()].map(this.#historyOf);
  }

  readonly #historyOf = (board: Known<Board>): BoardHistory | undefined =>
    this.#histories.of(board, this.knowledge.snapshot(), this.memory());

  /** A board, device, procedure or shop file as it stands now; undefined for any other file. */
  knowledgeFile(uri: string): KnowledgeFile | undefined {
    const kind = knowledgeKind(uri);
    const text = this.knowledge.text(uri);
    const loaded = this.knowledge.loaded(uri);
    if (!kind || text === undefined || !loaded) return undefined;
    return { uri, kind, text, tree: loaded.tree, knowledge: this.knowledge.snapshot() };
  }

  /** All of them, by uri. */
  knowledgeFiles(): readonly KnowledgeFile[] {
    return this.knowledge.uris().flatMap((uri) => this.knowledgeFile(uri) ?? []);
  }

  /**
   * The slow part of a log's findings in small steps, for callers that have to let edits and cancellations in
   * between: when it has run to its end, the call for the same text that follows costs little.
   */
  *prepare(uri: string, text: string): Generator<void, void> {
    if (knowledgeKind(uri) || !isMarkdown(uri) || !isLog(text)) return;
    const open = this.#logs.get(uri);
    if (!open) this.#prepared = { uri, text, reader: this.#takeWarm(uri, text) ?? new LogReader(uri) };
    yield* (open?.reader ?? this.#prepared?.reader)?.prepare(text) ?? [];
  }

  /**
   * Reads the image files that a log names, so that the findings which follow know them; nothing is read again that
   * did not change. Findings made without it are without the images.
   */
  async prepareImages(uri: string, text = this.text(uri)): Promise<void> {
    if (text === undefined || knowledgeKind(uri) || !isMarkdown(uri) || !isLog(text)) return;
    const open = this.#logs.get(uri);
    const prepared = this.#prepared;
    const isPrepared = prepared?.uri === uri && prepared.text === text;
    const reader = open?.text === text ? open.reader : !open && isPrepared ? prepared.reader : undefined;
    if (!reader) return;
    const { blocks } = reader.read(text, this.knowledge.snapshot().library);
    const paths = new Set(blocks.flatMap(({ block }) => imagePaths(block)));
    const images = await this.#images.prepare(uri, [...paths], open !== undefined);
    if (!open && images && this.#prepared === prepared && isPrepared)
      this.#prepared = { ...prepared, images };
  }

  /** The workspace's memory images by their paths from a log, as they are now. */
  async imagePathsFor(log: string): Promise<readonly string[]> {
    const files = (await this.#host.listImages?.()) ?? [];
    return files.flatMap((file) => imagePathFrom(log, file) ?? []);
  }

  /** True for a file that lies in the workspace's folders, links followed, and can be read. */
  async exists(uri: string): Promise<boolean> {
    // No byte is asked for: a file that has any is there, and too large.
    const file = await this.#host.readBytes?.(uri, 0);
    return file !== undefined && (file.ok || file.reason === "too-large");
  }

  /** Stands for the images that a log names: another object where they changed, undefined where it names none. */
  imagesOf(uri: string): object | undefined {
    return this.#images.stamp(uri);
  }

  /** Other folders are open: which images lie outside of them has to be found out again. */
  foldersChanged(): void {
    this.#images.allChanged();
  }

  /** A log that is not open with all that is known around it, without keeping anything of it. */
  viewOf(uri: string, text: string): LogView | undefined {
    if (!isMarkdown(uri) || !isLog(text)) return undefined;
    const ready = this.#prepared?.uri === uri && this.#prepared.text === text ? this.#prepared : undefined;
    return this.#makeView(ready?.reader ?? new LogReader(uri), text, undefined, ready?.images);
  }

  /** All findings of a document being edited or of a knowledge file, by place. */
  findings(uri: string): readonly Finding[] {
    const kind = knowledgeKind(uri);
    if (!kind) {
      const view = this.view(uri);
      return view ? checkLog(view.doc, view.ctx, this.settingsOf(uri), this.#relatedTo(view)) : [];
    }
    const input = this.#knowledgeInput(uri, kind);
    return input ? checkKnowledgeFile(input, this.settingsOf(uri)) : [];
  }

  /** Findings of a text that is not open, without keeping anything of it. */
  findingsOf(uri: string, text: string): readonly Finding[] {
    if (knowledgeKind(uri) || this.#logs.has(uri) || !isMarkdown(uri) || !isLog(text))
      return this.findings(uri);
    const ready = this.#prepared?.uri === uri && this.#prepared.text === text ? this.#prepared : undefined;
    this.#prepared = undefined;
    const reader = ready?.reader ?? this.#takeWarm(uri, text) ?? new LogReader(uri);
    const view = this.#makeView(reader, text, undefined, ready?.images);
    return checkLog(view.doc, view.ctx, this.settingsOf(uri), this.#relatedTo(view));
  }

  /** What can be done about a finding of the document as it stands. */
  fixes(uri: string, finding: Finding): readonly Fix[] {
    const text = this.text(uri);
    const ctx = this.view(uri)?.ctx;
    if (text === undefined) return [];
    return checkOf(finding.code)?.fixes?.(finding, ctx ? { text, ctx } : { text }) ?? [];
  }

  /**
   * Every file that names a thing, as its text stands now, one at a time. Between two of them, and within a long one,
   * undefined comes, for callers that have to let others in between.
   */
  mentionsOf(subject: Subject): AsyncGenerator<FileMentions | undefined, void> {
    return searchMentions(subject, {
      knowledge: this.knowledge.snapshot(),
      knowledgeFiles: () => this.knowledgeFiles(),
      openLogs: () => this.#openViews(),
      closedLogs: async (board) => {
        const closed = await this.#closedMarkdown();
        return closed.filter((uri) => this.#index.mayBeOf(uri, board));
      },
      read: (uri) => this.#host.read(uri),
      remember: (doc) => {
        const { library } = this.knowledge.snapshot();
        this.#index.put(doc.uri, doc.text, library, summarise(doc), stretchesOf(doc));
      },
      stretches: (uri, text, library) => this.#index.stretches(uri, text, library),
    });
  }

  /**
   * The edits that keep paths right when files are moved, file by file, like `mentionsOf`.
   * @param markdown false where somebody else sees to Markdown's own links
   */
  moveEdits(moves: readonly Move[], markdown: boolean): AsyncGenerator<FileEdits | undefined, void> {
    return searchMoves(moves, markdown, {
      library: this.knowledge.snapshot().library,
      knowledgeFiles: () => this.knowledgeFiles(),
      openLogs: () => this.#openViews(),
      closedLogs: () => this.#closedMarkdown(),
      read: (uri) => this.#host.read(uri),
      exists: (uri) => this.exists(uri),
    });
  }

  #openViews(): readonly LogView[] {
    return this.openLogs().flatMap((uri) => this.view(uri) ?? []);
  }

  async #closedMarkdown(): Promise<readonly string[]> {
    return (await this.#host.list()).filter((uri) => isMarkdown(uri) && !this.#logs.has(uri));
  }

  /**
   * The owner's report of a log being edited, as it stands; undefined for anything that is not a log.
   * @param isOver says that nobody waits for it any longer: no further picture is read then
   */
  async report(
    uri: string,
    format: ReportFormat,
    isOver: () => boolean = () => false,
  ): Promise<string | undefined> {
    const view = this.view(uri);
    return view && writeOwnerReport(view, format, this.#imagesOf(uri, isOver));
  }

  /** Pictures by their path from the log; the host keeps to the workspace. */
  #imagesOf(log: string, isOver: () => boolean): ReadImage {
    return async (path, most) => {
      const uri = isOver() ? undefined : fileBeside(log, path);
      const got = uri === undefined ? undefined : await this.#host.readBytes?.(uri, most);
      return got ?? { ok: false, reason: "outside" };
    };
  }

  #knowledgeInput(uri: string, kind: KnowledgeInput["kind"]): KnowledgeInput | undefined {
    const text = this.knowledge.text(uri);
    const loaded = this.knowledge.loaded(uri);
    if (text === undefined || !loaded) return undefined;
    const file = loaded.value === undefined ? undefined : { uri, text, loaded, value: loaded.value };
    return { uri, text, kind, file, problems: loaded.problems, knowledge: this.knowledge.snapshot() };
  }

  #makeView(
    reader: LogReader,
    text: string,
    last: LogContext | undefined,
    images: Images | undefined,
  ): LogView {
    const knowledge = this.knowledge.snapshot();
    const doc = reader.read(text, knowledge.library);
    const front = doc.frontMatter.value ?? {};
    const ctx = contextFor(doc.uri, front, knowledge, last, this.#historyOf, images);
    return { doc, front, ctx, earlier: this.memory().logs };
  }
}

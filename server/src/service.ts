// Long, because it names in one place all that a front end can ask for.
// The editor-free facade: everything a front end needs, in offsets and plain values. The language server, the
// command line and the tests all use it, so they cannot disagree. What is kept lies in workspace/; here is the wiring.

import { type CancellationToken, NEVER_CANCELLED } from "./base/cancellation";
import type { AsyncSteps, Steps, Waiting } from "./base/steps";
import type { Finding, Fix, OfferFixes } from "./checks/check";
import { checkOf } from "./checks/registry";
import {
  type CheckSettings,
  checkBlocks,
  checkKnowledgeFile,
  checkLog,
  DEFAULT_SETTINGS,
} from "./checks/run";
import { logsOfBoard } from "./features/board-file/logs";
import { blankHead, blankLog } from "./features/board-sheet";
import { othersOfJob } from "./features/jobs/others";
import type { FileMove } from "./features/moves";
import { type FileEdits, searchMoves } from "./features/moves/search";
import { type Proposed, proposeInto } from "./features/reference-job/propose";
import { type FileMentions, searchMentions } from "./features/references/search";
import type { KnowledgeFile } from "./features/shared/knowledge-file";
import type { RenameTarget } from "./features/shared/mentions";
import { boardsOf, type LogView } from "./features/view";
import type { Board } from "./knowledge/types";
import type { JobLog } from "./log/peek";
import type { LogSummary } from "./log/summary";
import type { ReportFormat } from "./report/owner";
import { type Paper, writePaper } from "./report/paper";
import { writeStats } from "./report/stats";
import type { DraftLog } from "./review/board-draft";
import type { RelatedJobs } from "./review/comeback";
import type { ShopNumbers } from "./review/numbers";
import { applyEdits, type TextEdit } from "./text/edits";
import type { PrintedPage as PaperText } from "./text/printable";
import { boardByBoard } from "./workspace/board-order";
import { ClosedLogs } from "./workspace/closed-logs";
import { nearestShop } from "./workspace/context";
import { exists, imagePathsFor, picturesOf } from "./workspace/files-beside";
import { boardsNamedIn } from "./workspace/finding-stamps";
import { type FindingTold, fileName, type Host, isMarkdown, knowledgeKind } from "./workspace/host";
import { JobsAround } from "./workspace/jobs-around";
import { JobsMemory } from "./workspace/jobs-memory";
import { KnowledgeFiles } from "./workspace/knowledge-files";
import type { KnowledgeStore } from "./workspace/knowledge-store";
import type { JobsSnapshot } from "./workspace/log-index";
import { LogViews } from "./workspace/log-views";
import { type IndexStep, remembered } from "./workspace/read-index";
import type { Remembered } from "./workspace/remembered";
import { type Searched, searched } from "./workspace/searched";
import { NO_CHECKS, type Settings, settingsOf, withShop } from "./workspace/settings";

export type { IndexStep } from "./workspace/read-index";

/** All that Mendlog can do with a workspace, for an editor, the command line and tests alike. It knows no protocol. */
export class Service {
  readonly knowledge: KnowledgeStore;
  readonly #host: Host;
  readonly #files: KnowledgeFiles;
  readonly #memory: JobsMemory;
  readonly #views: LogViews;
  readonly #jobs: JobsAround;
  readonly #searched: Searched;
  readonly #closed: ClosedLogs;
  #settings: Settings = { otherwise: DEFAULT_SETTINGS, folders: [] };

  constructor(host: Host) {
    this.#host = host;
    this.#files = new KnowledgeFiles(host);
    this.knowledge = this.#files.store;
    this.#memory = new JobsMemory(host);
    this.#views = new LogViews(host, this.knowledge, this.#memory);
    this.#jobs = new JobsAround(this.#memory, this.#views, this.knowledge);
    this.#closed = new ClosedLogs(host, this.#files, this.#memory, this.#views);
    this.#searched = searched(host, this.#views, this.#memory.index, () => this.knowledge.snapshot());
  }

  /** Reads the workspace's knowledge files. Logs are read when they are opened or asked for. */
  load = (): Promise<void> => this.#files.load();

  set settings(settings: Settings) {
    this.#settings = settings;
  }

  /**
   * How a file's findings weigh: by the innermost folder it lies in that has settings of its own, then by the shop file. The
   * same object for as long as neither changes.
   */
  settingsOf = (uri: string): CheckSettings =>
    withShop(
      settingsOf(this.#settings, uri),
      nearestShop(uri, this.knowledge.snapshot().shops)?.value.checks ?? NO_CHECKS,
    );

  // What changes: texts in the editor, files on disk, folders.

  /**
   * Takes over the text of a document being edited, whole.
   * @param markdown whether it is Markdown, where the end of its name does not tell; heard when it is opened
   */
  open(uri: string, text: string, markdown = isMarkdown(uri)): void {
    if (knowledgeKind(uri)) this.#files.edited(uri, text);
    else this.#views.edited(uri, text, markdown);
  }

  /** Edits an open document; the edits are of its present text. */
  edit(uri: string, edits: readonly TextEdit[]): void {
    const text = this.text(uri);
    if (text !== undefined) this.open(uri, applyEdits(text, edits));
  }

  /** The editor let go of a document; a knowledge file goes back to what is on disk. */
  async close(uri: string): Promise<void> {
    this.#views.closed(uri);
    this.#memory.index.changed(uri);
    await this.#files.closed(uri);
  }

  /**
   * A file on disk was made, changed or deleted, or an edited one saved. Returns true where that changes what logs are
   * judged by; a log does so only when `index` has read it again, an image when `prepareImages` has.
   */
  async fileChanged(uri: string): Promise<boolean> {
    this.#memory.index.changed(uri);
    const isImage = this.#views.images.changed(uri);
    return knowledgeKind(uri) ? this.#files.changed(uri) : isImage;
  }

  /** Other folders are open: which images lie outside of them has to be found out again. */
  foldersChanged = (): void => this.#views.images.allChanged();

  // Files as they stand.

  text = (uri: string): string | undefined => this.#views.open.text(uri) ?? this.knowledge.text(uri);

  /** Uris of every Markdown document being edited. */
  openLogs = (): readonly string[] => this.#views.open.uris();

  /** Any file's text: as edited, else from disk. */
  read = async (uri: string): Promise<string | undefined> => this.text(uri) ?? this.#host.read(uri);

  files = (): Promise<readonly string[]> => this.#host.list();

  /** These files in the order in which it costs least to look at all of them. */
  inOrder = (uris: Iterable<string>): readonly string[] =>
    boardByBoard(uris, (uri) => boardsNamedIn(this.memory().logs.get(uri)));

  /** True for a file that lies in the workspace's folders, links followed, and can be read. */
  exists = (uri: string): Promise<boolean> => exists(this.#host, uri);

  /** The workspace's memory images by their paths from a log, as they are now. */
  imagePathsFor = (log: string): Promise<readonly string[]> => imagePathsFor(this.#host, log);

  /** True where this text, standing at that uri, is a log. */
  isLog = (uri: string, text: string): boolean => this.#views.isLog(uri, text);

  /**
   * The log as it stands now with what it is judged against; undefined for anything that is not a log.
   * @param at in a log about several boards, where in it is asked: in a board's section the view is of that board
   */
  view = (uri: string, at?: number): LogView | undefined =>
    at === undefined ? this.#views.of(uri) : this.#views.at(uri, at);

  /** A log that is not open with all that is known around it, without keeping anything of it. */
  viewOf = (uri: string, text: string): LogView | undefined => this.#views.ofText(uri, text);

  /** See `LogViews.judgedBy`. */
  judgedBy = (uri: string): readonly unknown[] => this.#views.judgedBy(uri);

  /** A board, device, procedure or shop file as it stands now; undefined for any other file. */
  knowledgeFile = (uri: string): KnowledgeFile | undefined => this.#files.file(uri);

  /** All of them, by uri. */
  knowledgeFiles = (): readonly KnowledgeFile[] =>
    this.knowledge.uris().flatMap((uri) => this.knowledgeFile(uri) ?? []);

  // The memory across jobs.

  /** What is remembered of the workspace's logs as they stand on disk; as it was when `index` last came to its end. */
  memory = (): JobsSnapshot => this.#memory.memory;

  /**
   * Reads the logs that may have changed since they were last read; see `readIndex`.
   * @param keep characters of logs whose parse is kept for the findings that will be asked for next
   */
  index({ keep = 0 } = {}): AsyncSteps<never, IndexStep> {
    const library = () => this.knowledge.library();
    const files = () => this.#files.ofLibrary();
    return this.#memory.read({ open: this.#views.open, ahead: this.#views.ahead, library, files, keep });
  }

  /** What is remembered of a closed log with this text, to be handed to `recall`. */
  sum = (uri: string, text: string): Remembered => remembered(uri, text, this.knowledge.library());

  /** What is remembered, by uri, to be handed to `recall`. */
  remembered = (): ReadonlyMap<string, Remembered> => this.#memory.index.all();

  /**
   * Takes over what is remembered of files of the workspace, in place of reading them with `index`.
   * @param gone uris of files that are to be forgotten
   */
  recall(all: Iterable<Remembered>, gone: Iterable<string> = []): void {
    const library = this.knowledge.library();
    for (const uri of gone) this.#memory.index.forget(uri);
    for (const one of all) this.#memory.index.recall(one, library);
    this.#memory.index.finish();
  }

  /** Which job each log on disk is of, by its uri, also before `index` has run. What cannot be read is left out. */
  jobLogs = (): Promise<ReadonlyMap<string, JobLog>> => this.#memory.jobLogs();

  /** Every log of the workspace, summed up: as they stand in the editor where they are open, else on disk. */
  jobs = (): readonly LogSummary[] => [...this.#jobs.all().values()];

  /** What is known of a board by its id, its file and all logs together; undefined where nothing is. */
  boardOf = (id: string): Board | undefined => this.#jobs.boardOf(id);

  /**
   * What the workspace's jobs add up to, as they stand in the editor where they are open, else on disk.
   * @param counts whether a log counts; by default all do
   */
  numbers = (counts?: (uri: string) => boolean): ShopNumbers => this.#jobs.numbers(counts);

  /** The page of what the workspace's jobs add up to, HTML, as they stand on disk; of many it is made by another thread. */
  shopPage = async (): Promise<string> =>
    (await this.#closed.shopPage(this.#settings)) ?? this.shopPageHere();

  /** The same, made here. */
  shopPageHere(): string {
    const { boards, shops, library } = this.knowledge.snapshot();
    return writeStats(
      {
        numbers: this.#jobs.numbers(undefined, this.memory().logs),
        boardTitle: (id) => boards.get(id)?.value.title ?? id,
        procedureTitle: (id) => library.procedures.find((it) => it.id === id)?.title ?? id,
        shop: shops[0]?.value.name,
      },
      "html",
    );
  }

  /** Stands for the text of a log as it was on disk when `index` last read it; undefined where it did not. */
  textStamp = (uri: string): string | undefined => this.#memory.index.hash(uri);

  /** Changes with the numbers, boards and days of the workspace's jobs. */
  jobsStamp = (): string => this.#memory.stamp();

  /**
   * Stands for the earlier jobs that a log's readings are held against, those returned and the reference jobs: another
   * object where they changed, undefined where there are too few of them.
   */
  earlierJobs = (uri: string): readonly (object | undefined)[] => this.#jobs.heldAgainst(uri);

  /** The same for every board of the workspace, in one order for as long as its board files stay the same. */
  earlierJobsOfAll = (): Steps<readonly (object | undefined)[]> => this.#jobs.allHeldAgainst();

  /** Limits for a board's file from what its logs read, as edits of it; undefined where no file describes the board. */
  proposeLimits(board: string): (Proposed & { readonly uri: string }) | undefined {
    const read = this.#jobs.readBefore(board);
    return read && { uri: read.file.uri, ...proposeInto(read.file, read, this.knowledge.snapshot().library) };
  }

  /**
   * What the other logs say of the board of this one; the same object for as long as they say the same. Undefined until
   * the workspace was read.
   */
  relatedJobs = (uri: string): RelatedJobs | undefined => this.#jobs.related(uri);

  // Findings.

  /** The slow part of a log's findings: when it has run to its end, the call for the same text that follows costs little. */
  prepare = (uri: string, text: string): Steps<void, Waiting> => this.#views.prepare(uri, text);

  /** The same of an open log that was read: it is judged and checked, a section at a time. */
  *prepareFindings(uri: string): Steps<void> {
    const view = this.view(uri);
    if (view) yield* checkBlocks(view, this.settingsOf(uri));
  }

  /**
   * Reads the image files that a log names, so that the findings which follow know them; nothing is read again that
   * did not change. Findings made without it are without the images.
   * @throws Cancelled where nobody waits for it any longer
   */
  async prepareImages(uri: string, text = this.text(uri), token?: CancellationToken): Promise<void> {
    if (text !== undefined) await this.#views.prepareImages(uri, text, token);
  }

  /** Stands for the images that a log names: another object where they changed, undefined where it names none. */
  imagesOf = (uri: string): object | undefined => this.#views.images.stamp(uri);

  /** All findings of a document being edited or of a knowledge file, by place. */
  findings(uri: string): readonly Finding[] {
    const input = this.#files.input(uri);
    return input ? checkKnowledgeFile(input, this.settingsOf(uri)) : this.#findings(this.view(uri));
  }

  /** Findings of a text that is not open, without keeping anything of it. */
  findingsOf(uri: string, text: string): readonly Finding[] {
    if (this.#views.open.has(uri) || !this.isLog(uri, text)) return this.findings(uri);
    const view = this.viewOf(uri, text);
    this.#views.ahead.done();
    return this.#findings(view);
  }

  /** What is found in a log that is not open, by another thread; undefined where it is to be found here, by `findingsOf`. */
  findElsewhere = (uri: string, text: string): Promise<readonly FindingTold[] | undefined> =>
    this.#closed.check(uri, text, this.#settings);

  /** Logs that are worth being asked for at a time with `findElsewhere`. */
  get mostElsewhere(): number {
    return this.#closed.most;
  }

  /** All closed logs were asked for with `findElsewhere`: what was found in them is kept. Never fails. */
  allChecked = (): Promise<void> => this.#closed.allChecked();

  /** Uris of the images and pictures that a log names, where they were looked at. */
  imagesNamedBy = (uri: string): readonly string[] => this.#views.images.namedBy(uri);

  #findings(view: LogView | undefined): readonly Finding[] {
    if (!view) return [];
    return checkLog(view, this.settingsOf(view.doc.uri), (of) => this.#jobs.relatedTo(of));
  }

  /** What can be done about a finding of the document as it stands. */
  fixes = (uri: string, finding: Finding): readonly Fix[] => this.#offers(uri, finding, () => true);

  /** The one that leaves no doubt; undefined where there is none. */
  preferredFix = (uri: string, finding: Finding): Fix | undefined =>
    this.#offers(uri, finding, ({ asks }) => !asks).find(({ preferred }) => preferred);

  #offers(uri: string, finding: Finding, wanted: (offer: OfferFixes) => boolean): readonly Fix[] {
    const text = this.text(uri);
    const log = this.view(uri, finding.span.start);
    if (text === undefined) return [];
    const input = log ? { text, ctx: log.ctx, log } : { text };
    return Object.values(checkOf(finding.code)?.fixes ?? {})
      .filter(wanted)
      .flatMap((offer) => offer(finding, input));
  }

  // What looks through all files.

  /** Every file that names a thing, as its text stands now, one at a time. */
  mentionsOf(subject: RenameTarget): AsyncSteps<FileMentions> {
    const knowledge = this.knowledge.snapshot();
    const { knowledgeFiles } = this;
    return searchMentions(subject, { ...this.#searched, knowledge, knowledgeFiles });
  }

  /** Every log of a board, one at a time. */
  logsOfBoard = (board: string): AsyncSteps<DraftLog> =>
    logsOfBoard(board, this.#searched, this.knowledge.snapshot().library);

  /**
   * The edits that keep paths right when files are moved, file by file.
   * @param markdown false where somebody else sees to Markdown's own links
   */
  moveEdits(moves: readonly FileMove[], markdown: boolean): AsyncSteps<FileEdits> {
    const { library } = this.knowledge.snapshot();
    const { knowledgeFiles, exists } = this;
    const closedLogs = this.#searched.closedMarkdown;
    return searchMoves(moves, markdown, { ...this.#searched, closedLogs, library, knowledgeFiles, exists });
  }

  /**
   * The owner's report of a log being edited, as it stands; undefined for anything that is not a log.
   * @throws Cancelled where nobody waits for it any longer: no further picture is read then
   */
  async report(uri: string, format: ReportFormat, token = NEVER_CANCELLED): Promise<PaperText | undefined> {
    return this.paper("report", uri, format, token);
  }

  /** A log of a board that nobody has typed in, where the uri is that of the board's file. */
  #blankLog(uri: string) {
    const board = [...this.knowledge.snapshot().boards.values()].find((one) => one.uri === uri)?.value;
    const log = `${uri}.md`;
    const head = board && this.viewOf(log, blankHead(board.id));
    const view = head && this.viewOf(log, blankLog(head));
    return view && { ...view, ofBoard: fileName(uri) };
  }

  /** The same of the bill or the bench sheet; the sheet also of a board, by its file. */
  async paper(
    paper: Paper,
    uri: string,
    format: ReportFormat,
    token = NEVER_CANCELLED,
    personal?: boolean,
  ): Promise<PaperText | undefined> {
    const blank = paper === "sheet" ? this.#blankLog(uri) : undefined;
    if (blank) return writePaper(paper, blank, format, picturesOf(this.#host, uri, token), personal);
    const view = this.view(uri);
    if (!view) return undefined;
    const [first = view, ...more] = boardsOf(view);
    const others = [...more, ...(paper === "sheet" ? [] : await othersOfJob(view, this))];
    const source = others.length === 0 ? first : { ...first, others };
    return writePaper(paper, source, format, picturesOf(this.#host, uri, token), personal);
  }
}

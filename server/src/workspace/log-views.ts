import type { CancellationToken } from "../base/cancellation";
import type { Steps, Waiting } from "../base/steps";
import type { Images } from "../compute/memory/image-file";
import type { Known } from "../judge/context";
import type { Board } from "../knowledge/types";
import { boardAt } from "../log/boards-of-set";
import type { LogDocument, LogReader } from "../log/document";
import { photographsIn } from "../log/photographs";
import { isLog } from "../log/sniff";
import { imagePaths } from "../review/memory/rom-from-log";
import type { Elsewhere } from "../syntax/elsewhere";
import { boardNames, type Contextual, contextFor, limitsNamedBy, nearestShop } from "./context";
import { type Host, isMarkdown, knowledgeKind } from "./host";
import { ImageStore } from "./image-store";
import type { JobsMemory } from "./jobs-memory";
import type { KnowledgeStore } from "./knowledge-store";
import type { SharedWords } from "./log-board";
import type { JobsSnapshot } from "./log-index";
import { boardViews, wholeContext } from "./log-set";
import { OpenLogs, type Viewed, type ViewInputs } from "./open-logs";
import { ReadAhead } from "./read-ahead";

/** Logs as they stand with all that is known around them: those being edited, and any other for as long as it is asked for. */
export class LogViews {
  readonly open = new OpenLogs((reader, text, around, last) => this.#view(reader, text, around, last));
  readonly ahead = new ReadAhead();
  readonly images: ImageStore;
  readonly #elsewhere: Elsewhere | undefined;
  readonly #knowledge: KnowledgeStore;
  readonly #jobs: JobsMemory;
  readonly #seen = new Map<string, { memory: JobsSnapshot; text: string; isEdited: boolean }>();

  constructor(host: Host, knowledge: KnowledgeStore, jobs: JobsMemory) {
    this.images = new ImageStore(host);
    this.#elsewhere = host.elsewhere;
    this.#knowledge = knowledge;
    this.#jobs = jobs;
  }

  edited(uri: string, text: string, markdown: boolean): void {
    this.open.set(uri, text, markdown, () => this.ahead.take(uri, text));
  }

  closed(uri: string): void {
    this.open.delete(uri);
    this.#seen.delete(uri);
    this.images.closed(uri);
  }

  /** True where this text, standing at that uri, is a log. */
  isLog(uri: string, text: string): boolean {
    return !knowledgeKind(uri) && (this.open.isMarkdown(uri) ?? isMarkdown(uri)) && isLog(text);
  }

  /** A log being edited; undefined for anything else. */
  of(uri: string): Viewed | undefined {
    return this.open.has(uri) ? this.open.view(uri, this.#around(this.images.of(uri))) : undefined;
  }

  /** The same of the board whose section stands at an offset; the whole log in the front matter. */
  at(uri: string, offset: number): Viewed | undefined {
    const view = this.of(uri);
    return view && boardAt(view, offset);
  }

  all(): readonly Viewed[] {
    return this.open.uris().flatMap((uri) => this.of(uri) ?? []);
  }

  /** A log that is not open, as it was prepared where it was; undefined for what is none. */
  ofText(uri: string, text: string): Viewed | undefined {
    if (!this.isLog(uri, text)) return undefined;
    const ready = this.ahead.prepared(uri, text);
    const reader = ready?.reader ?? this.ahead.take(uri, text);
    return this.#view(reader, text, this.#around(ready?.images), undefined);
  }

  /** Reads a text in small steps: when they have run to their end, the view of it costs little. */
  *prepare(uri: string, text: string): Steps<void, Waiting> {
    if (!this.isLog(uri, text)) return;
    yield* (this.open.reader(uri) ?? this.ahead.prepare(uri, text)).prepare(text, this.#elsewhere);
  }

  /**
   * Reads the images that a log names, of a closed one only where it was prepared.
   * @throws Cancelled where nobody waits for it any longer
   */
  async prepareImages(uri: string, text: string, token?: CancellationToken): Promise<void> {
    if (!this.isLog(uri, text)) return;
    const isOpen = this.open.has(uri);
    const prepared = isOpen ? undefined : this.ahead.prepared(uri, text);
    const reader = this.open.text(uri) === text ? this.open.reader(uri) : prepared?.reader;
    if (!reader) return;
    const { blocks } = reader.read(text, this.#knowledge.snapshot().library);
    const paths = new Set(blocks.flatMap(({ block }) => imagePaths(block)));
    const photographs = new Set(blocks.flatMap(({ block }) => photographsIn(block).map(({ path }) => path)));
    const images = await this.images.prepare(uri, [...paths], isOpen, [...photographs], token);
    if (prepared && images) this.ahead.withImages(prepared, images);
  }

  /**
   * Stands for all of the knowledge files that a file's findings hang on: the same objects and texts, one by one, for as
   * long as none of that changed.
   */
  judgedBy(uri: string): readonly unknown[] {
    const knowledge = this.#knowledge.snapshot();
    const front = this.of(uri)?.front;
    const summary = this.#jobs.memory.logs.get(uri);
    if (knowledgeKind(uri) || !(front ?? summary)) return [knowledge];
    const { library, boards, shops, limits } = knowledge;
    const shop = nearestShop(uri, shops);
    const ids = front
      ? (front.boards?.map(({ board }) => board) ?? [front.board])
      : (summary?.boards ?? [summary?.board]);
    const stand = ids.flatMap((id) => {
      const board = id === undefined ? undefined : boards.get(id);
      return [board, board || !id ? undefined : this.#sharedBy(uri, id).others];
    });
    return [library, ...stand, shop, limitsNamedBy(shop, limits), boardNames(knowledge)];
  }

  /** A log that is edited speaks for itself, as it stands now; one that stands as on disk is among the others. */
  #sharedBy(uri: string, board: string): SharedWords {
    const { library } = this.#knowledge.snapshot();
    const all = this.#jobs.sharedOf(board, library, undefined);
    return { all, others: this.#isEdited(uri) ? this.#jobs.sharedOf(board, library, uri) : all };
  }

  /** Looked at once for each memory: what was typed in since then is another text. */
  #isEdited(uri: string): boolean {
    const text = this.open.text(uri);
    if (text === undefined) return false;
    const { memory, index } = this.#jobs;
    const seen = this.#seen.get(uri);
    if (seen?.memory === memory && seen.text === text) return seen.isEdited;
    const { library } = this.#knowledge.snapshot();
    const isEdited = seen?.memory === memory || !index.knows(uri, text, library);
    this.#seen.set(uri, { memory, text, isEdited });
    return isEdited;
  }

  #around(images: Images | undefined): ViewInputs {
    return { knowledge: this.#knowledge.snapshot(), memory: this.#jobs.memory, images };
  }

  #view(
    reader: LogReader,
    text: string,
    { knowledge, memory, images }: ViewInputs,
    last: Viewed | undefined,
  ): Viewed {
    const doc = reader.read(text, knowledge.library);
    const front = doc.frontMatter.value ?? {};
    const historyOf = (board: Known<Board>) => this.#jobs.historyOf(board, knowledge);
    const referencesOf = (board: Known<Board>) => this.#jobs.referencesOf(board, knowledge);
    const shared = (board: string) => this.#sharedBy(doc.uri, board);
    const around = { knowledge, historyOf, referencesOf, shared, images };
    const seen = { doc, front, knowledge, earlier: memory.logs };
    const contextOf = (of: LogDocument, own: Viewed["front"], before: Contextual | undefined) =>
      contextFor(of, own, around, before);
    const set = boardViews(seen, contextOf, last?.set);
    if (set) return { ...seen, ...wholeContext(set, last), set };
    // What was kept of a set is of several boards, and says nothing of the one that is left.
    return { ...seen, ...contextOf(doc, front, last?.set ? undefined : last) };
  }
}

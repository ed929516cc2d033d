import type { Images } from "../compute/memory/image-file";
import type { Knowledge, LogContext } from "../judge/context";
import type { FrontMatter } from "../knowledge/load-front-matter";
import type { LogDocument, LogReader } from "../log/document";
import type { LogBlock } from "../log/model";
import { isLog } from "../log/sniff";
import type { LogSummary } from "../log/summary";
import type { Contextual } from "./context";
import type { JobsSnapshot } from "./log-index";

/** A log as it stands with all that is known around it. */
export interface Viewed extends Contextual {
  readonly doc: LogDocument;
  readonly front: Partial<FrontMatter>;
  readonly knowledge: Knowledge;
  readonly earlier: ReadonlyMap<string, LogSummary>;
  /** One view a board, where the log is about several; see `boardViews`. */
  readonly set?: readonly Viewed[];
  /** Which context stands at a block of such a log, kept for the next view. */
  readonly blocks?: { now: ReadonlyMap<LogBlock, LogContext> };
}

/** What a view is of besides the text. */
export interface ViewInputs {
  readonly knowledge: Knowledge;
  readonly memory: JobsSnapshot;
  readonly images: Images | undefined;
}

interface OpenLog {
  readonly reader: LogReader;
  /** By the end of its name, or because the editor says so. */
  readonly markdown: boolean;
  text: string;
  view?: Viewed;
  around?: ViewInputs;
}

/** The Markdown documents being edited, each with its reader and its last view. */
export class OpenLogs {
  readonly #logs = new Map<string, OpenLog>();
  readonly #view: (reader: LogReader, text: string, around: ViewInputs, last: Viewed | undefined) => Viewed;

  /** @param view makes a view of a text */
  constructor(
    view: (reader: LogReader, text: string, around: ViewInputs, last: Viewed | undefined) => Viewed,
  ) {
    this.#view = view;
  }

  /** @param reader makes one for a document that was not open */
  set(uri: string, text: string, markdown: boolean, reader: () => LogReader): void {
    const log = this.#logs.get(uri);
    if (log) log.text = text;
    else this.#logs.set(uri, { reader: reader(), markdown, text });
  }

  delete(uri: string): void {
    this.#logs.delete(uri);
  }

  has(uri: string): boolean {
    return this.#logs.has(uri);
  }

  uris(): readonly string[] {
    return [...this.#logs.keys()];
  }

  text(uri: string): string | undefined {
    return this.#logs.get(uri)?.text;
  }

  /** Undefined for what is not open. */
  isMarkdown(uri: string): boolean | undefined {
    return this.#logs.get(uri)?.markdown;
  }

  reader(uri: string): LogReader | undefined {
    return this.#logs.get(uri)?.reader;
  }

  /** The same view for as long as neither the text nor anything around it changes; undefined for what is no log. */
  view(uri: string, around: ViewInputs): Viewed | undefined {
    const log = this.#logs.get(uri);
    if (!log?.markdown || !isLog(log.text)) return undefined;
    const { view, around: last } = log;
    if (
      view?.doc.text !== log.text ||
      last?.knowledge !== around.knowledge ||
      last.memory !== around.memory ||
      last.images !== around.images
    ) {
      log.around = around;
      log.view = this.#view(log.reader, log.text, around, view);
    }
    return log.view;
  }
}

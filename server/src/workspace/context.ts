import { defined } from "../base/defined";
import { memo } from "../base/memo";
import type { Images } from "../compute/memory/image-file";
import { baselinesFor } from "../judge/baseline";
import type { BoardHistory } from "../judge/baseline/types";
import type { Knowledge, Known, LogContext } from "../judge/context";
import { pooledFor } from "../judge/pooled";
import type { Pooled } from "../judge/pooled/types";
import { type ReferenceJobs, referencesFor } from "../judge/reference-job";
import type { FrontMatter } from "../knowledge/load-front-matter";
import type { Board, PooledLimits, Shop } from "../knowledge/types";
import type { LogDocument } from "../log/document";
import type { LogBlock } from "../log/model";
import { folderOf } from "./host";
import { boardOfLog, commonBoard, type LogBoard, type SharedWords } from "./log-board";
import { type Refits, refitsIn } from "./refits";
import { fileBeside } from "./uri";

/** A log's context with what it was made from, so that the next one can tell whether anything changed. */
export interface Contextual {
  readonly ctx: LogContext;
  readonly logBoard: LogBoard | undefined;
  readonly refits?: Refits;
  /**
   * Which of the refitted boards stands at a block. No memo: nothing here follows from the block, and what an edit has
   * shifted is written over while the boards, and with them the contexts, stay the same.
   */
  readonly phases?: WeakMap<LogBlock, number>;
}

export interface AroundLog {
  readonly knowledge: Knowledge;
  readonly historyOf?: (board: Known<Board>) => BoardHistory | undefined;
  readonly referencesOf?: (board: Known<Board>) => ReferenceJobs | undefined;
  /** What the logs say of a board that no file describes. */
  readonly shared?: (board: string) => SharedWords;
  readonly images?: Images | undefined;
}

const NOTHING: SharedWords = { others: undefined, all: undefined };

/**
 * What a log is judged against: the board it names with what it says of it itself, the nearest shop file at or above its
 * folder (the only one of the workspace where there is just one), the meter it names there and what earlier boards of the
 * type read. Gives the last context back where none of these changed, whatever else did in the workspace, so that all
 * that was computed with it stays.
 */
export function contextFor(
  doc: LogDocument,
  front: Partial<FrontMatter>,
  {
    knowledge,
    historyOf = () => undefined,
    referencesOf = () => undefined,
    shared = () => NOTHING,
    images,
  }: AroundLog,
  last: Contextual | undefined,
): Contextual {
  const file = front.board === undefined ? undefined : knowledge.boards.get(front.board);
  const words = file || !front.board ? NOTHING : shared(front.board);
  const logBoard = boardOfLog(doc, front.board, file, words, last?.logBoard);
  const shop = nearestShop(doc.uri, knowledge.shops);
  const meter = front.meter === undefined ? undefined : shop?.value.meters.get(front.meter);
  // Places are compared by their names, also where no log says what stands there.
  const common = logBoard?.common ?? commonBoard(front.board, file, words.all, knowledge.library);
  const history = common && historyOf(common);
  const baselines = history && baselinesFor(history, doc.uri, front.revision, last?.ctx.baselines);
  const jobs = common && referencesOf(common);
  const references = jobs && referencesFor(jobs, doc.uri, front.revision, last?.ctx.references);
  const pooled = pooledOf(shop, front, knowledge);
  const was = last?.ctx;
  const refitted =
    logBoard && refitsIn(doc, logBoard.board, last?.logBoard === logBoard ? last.refits : undefined);
  if (
    last &&
    was?.library === knowledge.library &&
    last.logBoard === logBoard &&
    last.refits === refitted?.refits &&
    was.shop === shop &&
    was.meter === meter &&
    was.baselines === baselines &&
    was.references === references &&
    was.pooled === pooled &&
    was.images === images
  ) {
    for (const { block } of last.phases ? doc.blocks : []) {
      const phase = refitted?.at.get(block);
      if (phase === undefined) last.phases?.delete(block);
      else last.phases?.set(block, phase);
    }
    const { ctx, refits, phases } = last;
    return defined({
      ctx,
      logBoard,
      refits: refits && phases ? refits : undefined,
      phases: refits && phases ? phases : undefined,
    });
  }
  const phases = refitted && new WeakMap(refitted.at);
  const ctx: LogContext = defined({
    library: knowledge.library,
    board: logBoard?.board,
    stated: logBoard?.stated ? logBoard.stated : undefined,
    shop,
    meter,
    baselines,
    references,
    pooled,
    images,
  });
  if (!refitted || !phases) return { ctx, logBoard };
  const { refits } = refitted;
  const later = refits.boards.map((board): LogContext => ({ ...ctx, board }));
  return {
    ctx: { ...ctx, later: (block) => later[phases.get(block) ?? -1] },
    logBoard,
    refits,
    phases,
  };
}

/** What the file of pooled limits that the shop file names has of the board; undefined where there is none. */
function pooledOf(
  shop: Known<Shop> | undefined,
  { board, revision }: Partial<FrontMatter>,
  { limits }: Knowledge,
): Pooled | undefined {
  const file = board === undefined ? undefined : limitsNamedBy(shop, limits);
  return file && board !== undefined ? pooledFor(file, board, revision) : undefined;
}

/** The file of pooled limits that a shop file names; undefined where it names none or there is none of that name. */
export function limitsNamedBy(
  shop: Known<Shop> | undefined,
  limits: Knowledge["limits"],
): Known<PooledLimits> | undefined {
  const path = shop?.value.limitsFrom;
  const uri = shop && path !== undefined ? fileBeside(shop.uri, path) : undefined;
  return uri === undefined ? undefined : limits.find((known) => known.uri === uri);
}

/**
 * The shop file of the innermost folder above a log. Where none is above it, the only one of the workspace, if it has
 * one.
 */
export function nearestShop(uri: string, shops: readonly Known<Shop>[]): Known<Shop> | undefined {
  const above = shops
    .filter((shop) => uri.startsWith(folderOf(shop.uri)))
    .sort((a, b) => b.uri.length - a.uri.length);
  return above[0] ?? (shops.length === 1 ? shops[0] : undefined);
}

/** Ids, titles and symptoms of all boards: what a log's findings may say of a board that is not its own. */
export const boardNames = memo(({ boards }: Knowledge): string =>
  JSON.stringify([...boards.values()].map(({ value }) => [value.id, value.title, ...value.symptoms.keys()])),
);

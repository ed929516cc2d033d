import { defined } from "../base/defined";
import { comesBack, memo } from "../base/memo";
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
  /** Views that it has stood for, one after another. */
  readonly stood?: number;
  /** Those that stood before it and may come back, the last of them first. */
  readonly before?: readonly Contextual[];
}

/** Contexts kept besides the one that stands, with all that was worked out by them. */
const BEFORE = 2;

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
 * that was computed with it stays; and so one of those before it, where a field is taken back.
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
  newest: Contextual | undefined,
): Contextual {
  const file = front.board === undefined ? undefined : knowledge.boards.get(front.board);
  const words = file || !front.board ? NOTHING : shared(front.board);
  const kept = newest ? [newest, ...(newest.before ?? [])] : [];
  const logBoard = boardOfLog(
    doc,
    front.board,
    file,
    words,
    kept.flatMap((one) => one.logBoard ?? []),
  );
  const shop = nearestShop(doc.uri, knowledge.shops);
  const meter = front.meter === undefined ? undefined : shop?.value.meters.get(front.meter);
  const pooled = pooledOf(shop, front, knowledge);
  const ofSame = kept.filter((one) => isSameBoard(one.logBoard, logBoard));
  const fittedBefore = ofSame.flatMap(({ refits }) => refits ?? []);
  const refitted = logBoard && refitsIn(doc, logBoard.board, fittedBefore);
  const last =
    ofSame.find(
      (one) =>
        one.refits === refitted?.refits &&
        one.ctx.library === knowledge.library &&
        one.ctx.shop === shop &&
        one.ctx.meter === meter &&
        one.ctx.pooled === pooled &&
        one.ctx.images === images,
    ) ?? newest;
  // Places are compared by their names, also where no log says what stands there.
  const common = logBoard?.common ?? commonBoard(front.board, file, words.all, knowledge.library);
  const history = common && historyOf(common);
  const baselines = history && baselinesFor(history, doc.uri, front.revision, last?.ctx.baselines);
  const jobs = common && referencesOf(common);
  const references = jobs && referencesFor(jobs, doc.uri, front.revision, last?.ctx.references);
  const was = last?.ctx;
  if (
    last &&
    isSameBoard(last.logBoard, logBoard) &&
    was?.library === knowledge.library &&
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
      stood: last === newest ? (last.stood ?? 1) + 1 : 1,
      before: last === newest ? last.before : worthKeeping(kept, last),
    });
  }
  const before = worthKeeping(kept);
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
  if (!refitted || !phases) return { ctx: returning(ctx), logBoard, before };
  const { refits } = refitted;
  const later = refits.boards.map((board): LogContext => returning({ ...ctx, board }));
  return {
    ctx: returning({ ...ctx, later: (block) => later[phases.get(block) ?? -1] }),
    logBoard,
    refits,
    phases,
    before,
  };
}

const isSameBoard = (a: LogBoard | undefined, b: LogBoard | undefined): boolean =>
  a?.board === b?.board && a?.stated === b?.stated;

/** Of the contexts that stood those to be kept: of one that came and went while something was typed the later ones need nothing. */
function worthKeeping(kept: readonly Contextual[], now?: Contextual): readonly Contextual[] {
  const others = kept.filter((one) => one !== now).map(({ before: _before, ...one }): Contextual => one);
  const [first, ...older] = others;
  if (!first || others.length <= BEFORE) return others;
  return [first, ...older.sort((a, b) => (b.stood ?? 1) - (a.stood ?? 1)).slice(0, BEFORE - 1)];
}

/** What is kept by the context or its board stays for as long as the context is kept. */
function returning(ctx: LogContext): LogContext {
  comesBack(ctx);
  if (ctx.board) {
    comesBack(ctx.board);
    comesBack(ctx.board.value);
    for (const matrix of ctx.board.value.matrices.values()) comesBack(matrix);
  }
  return ctx;
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

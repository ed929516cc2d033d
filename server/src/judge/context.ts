import type { Images } from "../compute/memory/image-file";
import type { Library } from "../knowledge/library";
import type { Loaded } from "../knowledge/loaded";
import type { Board, Device, Meter, PooledLimits, Procedure, Shop } from "../knowledge/types";
import type { LogBlock } from "../log/model";
import type { Baselines } from "./baseline/types";
import type { Pooled } from "./pooled/types";
import type { References } from "./reference-job/types";
import type { Stated } from "./stated/types";

/** A knowledge file that was read, with where it came from. */
export interface Known<T> {
  readonly uri: string;
  readonly text: string;
  readonly loaded: Loaded<T>;
  readonly value: T;
}

/** All that the workspace's knowledge files say, as one immutable snapshot. */
export interface Knowledge {
  /** The built-in library with the workspace's own devices and procedures over it. */
  readonly library: Library;
  readonly boards: ReadonlyMap<string, Known<Board>>;
  readonly shops: readonly Known<Shop>[];
  /** Limits pooled from several shops; a shop file names the one that it goes by. */
  readonly limits: readonly Known<PooledLimits>[];
  readonly devices: readonly Known<Device>[];
  readonly procedures: readonly Known<Procedure>[];
}

/**
 * What one log's readings are judged against. A new object whenever any of it changes, and only then: what is worked out
 * of a log is kept by it, so nothing of other boards belongs in here.
 */
export interface LogContext {
  readonly library: Library;
  /** The board file with what the log says of the board laid over it; without a file what the logs say. */
  readonly board?: Known<Board>;
  /** What of the board is no board file's word; absent where all of it is. */
  readonly stated?: Stated;
  /**
   * The context of a block behind which the log fitted another part than was there: from then on the new one stands in
   * the place. Undefined for blocks before it; absent where nothing else was fitted.
   */
  readonly later?: (block: LogBlock) => LogContext | undefined;
  readonly shop?: Known<Shop>;
  readonly meter?: Meter;
  /** What this shop's earlier boards of the type read, where there were enough of them. */
  readonly baselines?: Baselines;
  /** What boards of the type that somebody says work read, where there is a log of one. */
  readonly references?: References;
  /** What boards of the type read in several shops, where the shop file names a file that says so. */
  readonly pooled?: Pooled;
  /** The image files the log names, once they were read; absent where it names none. */
  readonly images?: Images;
}

/** What a block's readings are judged against: see `LogContext.later`. */
export const contextAt = (block: LogBlock, ctx: LogContext): LogContext => ctx.later?.(block) ?? ctx;

/**
 * What the log's board is called: its file's title, else the name that the log has for it. A board without a file does not
 * know that name itself, so that nothing that is known of it changes while the name is typed. Undefined where it has none.
 * @param front of the log
 */
export function boardTitle(
  { board }: LogContext,
  front: { readonly board?: string | undefined },
): string | undefined {
  if (!board || board.value.id === "") return front.board || board?.value.title;
  return board.value.title;
}

/** True where a board file stands behind the log's board, which then knows what the board has and what it has not. */
export const hasBoardFile = ({ board, stated }: LogContext): boolean =>
  board !== undefined && (stated?.hasFile ?? true);

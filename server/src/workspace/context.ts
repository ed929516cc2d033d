import { baselinesFor } from "../analysis/baseline";
import type { BoardHistory } from "../analysis/baseline/history";
import type { Knowledge, Known, LogContext } from "../analysis/context";
import type { Images } from "../analysis/memory/image-file";
import type { FrontMatter } from "../knowledge/load-front-matter";
import type { Board, Shop } from "../knowledge/types";
import { folderOf } from "./host";

/**
 * What a log is judged against: the board it names, the nearest shop file at or above its folder (the only
 * one of the workspace where there is just one), the meter it names there and what earlier boards of the type
 * read. Gives the last context back where none of these changed, whatever else did in the workspace, so that all that
 * was computed with it stays.
 */
export function contextFor(
  uri: string,
  front: Partial<FrontMatter>,
  knowledge: Knowledge,
  last: LogContext | undefined,
  historyOf: (board: Known<Board>) => BoardHistory | undefined = () => undefined,
  images?: Images,
): LogContext {
  const board = front.board === undefined ? undefined : knowledge.boards.get(front.board);
  const shop = nearestShop(uri, knowledge.shops);
  const meter = front.meter === undefined ? undefined : shop?.value.meters.get(front.meter);
  const history = board && historyOf(board);
  const baselines = history && baselinesFor(history, uri, front.revision, last?.baselines);
  if (
    last?.library === knowledge.library &&
    last.board === board &&
    last.shop === shop &&
    last.meter === meter &&
    last.baselines === baselines &&
    last.images === images
  ) {
    return last;
  }
  return {
    library: knowledge.library,
    ...(board ? { board } : {}),
    ...(shop ? { shop } : {}),
    ...(meter ? { meter } : {}),
    ...(baselines ? { baselines } : {}),
    ...(images ? { images } : {}),
  };
}

export function nearestShop(uri: string, shops: readonly Known<Shop>[]): Known<Shop> | undefined {
  const above = shops
    .filter((shop) => uri.startsWith(folderOf(shop.uri)))
    .sort((a, b) => b.uri.length - a.uri.length);
  return above[0] ?? (shops.length === 1 ? shops[0] : undefined);
}

const names = new WeakMap<Knowledge, string>();

/** Ids, titles and symptoms of all boards: what a log's findings may say of a board that is not its own. */
export function boardNames(knowledge: Knowledge): string {
  let known = names.get(knowledge);
  if (known === undefined) {
    known = JSON.stringify(
      [...knowledge.boards.values()].map(({ value }) => [value.id, value.title, ...value.symptoms.keys()]),
    );
    names.set(knowledge, known);
  }
  return known;
}

// The commands that list parts: of each log, and of all open jobs against the stock.
import { resolve } from "node:path";
import { defined } from "../base/defined";
import { boardsOf, type LogView } from "../features/view";
import { type JobParts, partsCsv, partsJson, partsText } from "../report/parts/list";
import { orderCsv, orderJson, orderText, type ShopOrder } from "../report/parts/order";
import { partsList } from "../review/parts/list";
import { orderList } from "../review/parts/order";
import { shelfOf } from "../review/parts/shelf";
import type { Printable } from "../text/printable";
import { openDesk, relativeToCwd } from "./desk";
import type { Io } from "./io";
import type { ListOptions } from "./options";
import { findTargets } from "./targets";
import { tell, tellOf } from "./tell";
import { writeOutput } from "./write-output";

const PARTS = { human: partsText, json: partsJson, csv: partsCsv } as const;
const ORDER = { human: orderText, json: orderJson, csv: orderCsv } as const;

export async function runParts(options: ListOptions, io: Io): Promise<number> {
  const jobs: JobParts[] = [];
  const read = await readLogs(options.paths, io, ({ views }) => {
    for (const { path, view } of views) {
      // The boards of one job take from one shelf.
      const shelf = view.set && shelfOf(view.ctx.shop?.value, view.ctx.library);
      for (const one of boardsOf(view))
        jobs.push(defined({ path, list: partsList(one, shelf), inSet: one.doc.ofSet?.name }));
    }
  });
  return finish(PARTS[options.format](jobs), read, options, io);
}

export async function runOrder(options: ListOptions, io: Io): Promise<number> {
  const shops: ShopOrder[] = [];
  const read = await readLogs(options.paths, io, ({ folder, views }) => {
    const ctx = views[0]?.view.ctx;
    if (!ctx) return;
    const paths = new Map(views.map(({ path, view }) => [view.doc.uri, path]));
    const list = orderList(
      views.flatMap(({ view }) => boardsOf(view)),
      ctx.shop?.value,
      ctx.library,
      ({ front, doc }) => front.job ?? paths.get(doc.uri) ?? doc.uri,
    );
    shops.push({ folder, list });
  });
  return finish(ORDER[options.format](shops), read, options, io);
}

interface Logs {
  readonly folder: string;
  readonly views: readonly { readonly path: string; readonly view: LogView }[];
}

/** Hands over the logs of each shop's folder. Returns what could not be read, or was no log though it was named. */
async function readLogs(paths: readonly string[], io: Io, take: (logs: Logs) => void): Promise<string[]> {
  const { groups, problems } = await findTargets(io.disk, paths, io.cwd);
  const unread = new Map(problems.map(({ path, message }) => [path, message]));
  const named = new Set(paths.map((path) => resolve(io.cwd, path)));
  for (const group of groups) {
    const desk = await openDesk(io.disk, group, { severity: new Map() }, io.cwd);
    for await (const _ of desk.remember()) {
      // Nobody waits for a step in between.
    }
    const views: { path: string; view: LogView }[] = [];
    for (const file of group.files) {
      const text = await desk.text(file);
      if (!text.ok) {
        unread.set(file.path, text.reason);
        continue;
      }
      const view = await desk.view(file, text.value);
      if (view) views.push({ path: relativeToCwd(io.cwd, file.path), view });
      else if (named.has(file.path))
        unread.set(file.path, "is no log: its front matter does not hold `mendlog: 1`");
    }
    for (const { path, message } of desk.unread()) unread.set(path, message);
    take({ folder: relativeToCwd(io.cwd, group.root), views });
  }
  return [...unread].map(([path, message]) => `${relativeToCwd(io.cwd, path)} ${message}`);
}

async function finish(
  text: Printable,
  unread: readonly string[],
  options: ListOptions,
  io: Io,
): Promise<number> {
  for (const line of unread) tell(io, `${line}.`);
  if (options.output === undefined) io.out.write(text);
  else {
    const written = await writeOutput(options.output, text, { force: options.force }, io);
    if (!written.ok) {
      tellOf(io, options.output, written.reason);
      return 2;
    }
  }
  return unread.length > 0 ? 2 : 0;
}

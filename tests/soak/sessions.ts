// Days at the bench: a workspace, and a person who opens, types, saves, moves and deletes. After every few deeds what is
// found must be what a program finds that was begun just now.
import { isMarkdown, knowledgeKind } from "../../server/src/workspace/host";
import type { Texts } from "./sources";
import { type Draw, nat, oneOf, spoilt, typed } from "./texts";
import { begin, type Deed, differs, lost, perform, type World } from "./world";

export interface Session {
  readonly files: Texts;
  readonly deeds: readonly Deed[];
}

/** Deeds in one session, at least; at most twice as many. */
const DEEDS = 40;
/** Deeds between two comparisons with a fresh start, which costs as much as twenty of them. */
const COMPARED = 4;

const NAMES: readonly string[] = [
  "a.md",
  "new/b.md",
  "c.board.yaml",
  "d.device.yaml",
  "mendlog.shop.yaml",
  "e.limits.yaml",
];

function nextDeed({ disk, open }: World, draw: Draw, others: readonly string[]): Deed {
  const there = [...disk.keys()].filter((path) => isMarkdown(path) || knowledgeKind(path));
  const edited = [...open.keys()];
  const kind = draw();
  if (edited.length === 0 || kind < 0.08) {
    if (there.length === 0) return { does: "write", path: oneOf(draw, NAMES), text: oneOf(draw, others) };
    return { does: "open", path: oneOf(draw, there) };
  }
  if (kind < 0.72) {
    const path = oneOf(draw, edited);
    return { does: "type", path, ...typed(open.get(path) ?? "", draw, oneOf(draw, others)) };
  }
  if (kind < 0.82) return { does: "save", path: oneOf(draw, edited) };
  if (kind < 0.85) return { does: "close", path: oneOf(draw, edited) };
  if (kind < 0.87 || there.length === 0) return { does: "remember", path: "" };
  if (kind < 0.9) return { does: "delete", path: oneOf(draw, there) };
  if (kind < 0.93) return { does: "rename", path: oneOf(draw, there), to: oneOf(draw, NAMES) };
  const path = oneOf(draw, [...there, ...NAMES]);
  return {
    does: "write",
    path,
    text: spoilt(disk.get(path) ?? oneOf(draw, others), draw, oneOf(draw, others)),
  };
}

/** What went wrong, and after how many deeds; `edits` counts those of texts that are open. */
export type Outcome =
  | { readonly ok: true; readonly edits: number; readonly deeds: readonly Deed[] }
  | { readonly ok: false; readonly problem: string; readonly deeds: readonly Deed[] };

/** @param next gives the next deed, undefined at the end */
async function run(files: Texts, next: (world: World, done: number) => Deed | undefined): Promise<Outcome> {
  const world = await begin(files);
  const deeds: Deed[] = [];
  let edits = 0;
  try {
    for (let deed = next(world, 0); deed; ) {
      deeds.push(deed);
      await perform(world, deed);
      if (deed.does === "type") edits++;
      deed = next(world, deeds.length);
      if (deed && deeds.length % COMPARED > 0) continue;
      const disk = new Map(world.disk);
      const wrong = (await differs(world)) ?? lost(world, disk);
      if (wrong !== undefined) return { ok: false, problem: wrong, deeds };
      if (world.outside.length > 0) return { ok: false, problem: `read outside: ${world.outside[0]}`, deeds };
    }
  } catch (error) {
    return {
      ok: false,
      problem: error instanceof Error ? (error.stack ?? error.message) : String(error),
      deeds,
    };
  }
  return { ok: true, edits, deeds };
}

export const repeated = ({ files, deeds }: Session): Promise<Outcome> => run(files, (_, done) => deeds[done]);

export function session(all: readonly Texts[], draw: Draw): Promise<Outcome & { readonly files?: Texts }> {
  const files: Record<string, string> = { ...oneOf(draw, all) };
  // A second job of the same shop, so that the logs bear on each other.
  for (const [path, text] of Object.entries(oneOf(draw, all)))
    if (isMarkdown(path)) files[`second/${path}`] = text;
  const others = [...Object.values(files), ...Object.values(oneOf(draw, all))];
  const opened = Object.keys(files).filter((path) => isMarkdown(path) || draw() < 0.2);
  const first: Deed[] = opened.map((path) => ({ does: "open", path }));
  const length = first.length + DEEDS + nat(draw, DEEDS);
  return run(files, (world, done) =>
    done < first.length ? first[done] : done < length ? nextDeed(world, draw, others) : undefined,
  ).then((outcome) => ({ ...outcome, files }));
}

/** Most tries at leaving deeds out of a session that failed. */
const TRIES = 150;

/** The same with as few deeds as it still fails with. */
export async function shorter({ files, deeds }: Session): Promise<Session> {
  let kept = [...deeds];
  let tries = 0;
  for (let size = kept.length >> 1; size >= 1; size >>= 1) {
    for (let at = kept.length - size; at >= 0 && tries < TRIES; at -= size, tries++) {
      const without = [...kept.slice(0, at), ...kept.slice(at + size)];
      const outcome = await repeated({ files, deeds: without });
      if (!outcome.ok) kept = [...outcome.deeds];
    }
  }
  return { files, deeds: kept };
}

// The stories of faults, each diagnosed in a workspace of its own, so that none is another's history, and held against its answer.
// As a thread it judges its part of them and sends what came of it.
import { createHash } from "node:crypto";
import { fileURLToPath } from "node:url";
import { isMainThread, parentPort, workerData } from "node:worker_threads";
import { load } from "./sources.js";

/** Suspects that are asked for. */
const TOP = "8";
const root = fileURLToPath(new URL("../../", import.meta.url));
const { run, stories, boards, knowledge, judge, ...names } = await load(
  `export { run } from "../cli/memory"; export * from "./read"; export * from "./judge";`,
  new URL("../stories/", import.meta.url),
);
export const { SPLITS, CLASSES } = names;

/** Of each three stories one, whatever is added to them. */
const isOfThird = ({ name }) => createHash("sha256").update(name).digest()[0] % 3 === 0;

/**
 * @param {object} part
 * @param {readonly string[]} part.wanted names of stories; all of them where it is empty
 * @param {boolean} part.isThird of all only a third
 * @param {number} part.first the number of the first that is judged, from 0
 * @param {number} part.every and every so many-th after it
 */
export async function judged({ wanted, isThird, first, every }) {
  const byId = boards(root);
  const chosen = stories(root).filter((one) =>
    wanted.length === 0 ? !isThird || isOfThird(one) : wanted.includes(one.name),
  );
  const results = [];
  for (let at = first; at < chosen.length; at += every) {
    const story = chosen[at];
    const files = { ...knowledge(root), "logs/story.md": story.log };
    const { out, err } = await run(["diagnose", "logs/story.md", "--format", "json", "--top", TOP], files);
    if (out === "") throw new Error(`${story.name}: ${err}`);
    const said = JSON.parse(out);
    results.push({ at, ...story, said, ...judge(said, story.answer, byId.get(story.board)) });
  }
  return results;
}

if (!isMainThread) parentPort.postMessage(await judged(workerData));

// The files of one folder checked: what is kept of them is taken over, what is not is read and checked, on all threads where
// it is worth to start them.
import { defined } from "../base/defined";
import { boardByBoard } from "../workspace/board-order";
import { knowledgeKind } from "../workspace/host";
import type { Remembered } from "../workspace/remembered";
import { packSums, type Sums, unpackSums } from "../workspace/shared-sums";
import { type Checked, type CheckedFiles, checkedBy, type Desk, distinctFiles } from "./desk";
import type { FoundFile } from "./find-files";
import type { KeptCheck, KeptLog } from "./kept/file";
import { asItWas, type Keeper } from "./kept/keeper";
import type { FileProblem } from "./targets";
import type { Opening, Threads } from "./threads/messages";
import { FEWEST_FOR_THREADS, Team } from "./threads/share-out";

export interface Helped {
  readonly threads: Threads | undefined;
  readonly keeper: Keeper | undefined;
}

type Counted = (files?: number) => void;

/** @param counted told how many files were done */
export async function checkGroup(
  desk: Desk,
  opening: Opening,
  { threads, keeper }: Helped,
  counted: Counted,
): Promise<CheckedFiles> {
  const { files } = opening.group;
  const markdown = desk.markdown();
  const kept = keeper?.logs ?? new Map<string, KeptLog>();
  let team: Team | undefined;
  const started = (of: Threads): Team => {
    team ??= new Team(of, opening);
    return team;
  };
  try {
    const known = markdown.map((file) => asItWas(kept, file)?.remembered);
    const sums: Sums[] = [];
    const missing = known.flatMap((one, at) => (one ? [] : [at]));
    if (threads && missing.length >= FEWEST_FOR_THREADS) {
      sums.push(...(await started(threads).sum(missing, counted)));
      const found = sums.flatMap(unpackSums);
      const byUri = new Map(found.map((one) => [one.uri, one]));
      desk.recall(
        markdown.map((file, at) => known[at] ?? byUri.get(desk.uri(file)) ?? { uri: desk.uri(file) }),
      );
    } else if (missing.length === markdown.length) {
      for await (const _ of desk.remember()) counted();
    } else {
      const all: Remembered[] = [];
      for (const [at, file] of markdown.entries()) all.push(known[at] ?? (await desk.sum(file)));
      desk.recall(all);
    }
    const stamps = files.map((file) => keeper?.stamp(desk.uri(file)));
    const checked = files.map((file, at): Checked | undefined => {
      const before = asItWas(kept, file)?.checked;
      return before && before.stamp === stamps[at] && before.isWhole() ? before.result : undefined;
    });
    const left = checked.flatMap((one, at) => (one ? [] : [at]));
    counted(files.length - left.length);
    const unread: FileProblem[] = [];
    if (threads && left.length >= FEWEST_FOR_THREADS) {
      const told = new Set(sums.flatMap(({ all }) => all.map(({ uri }) => uri)));
      sums.push(packSums([...desk.remembered().values()].filter(({ uri }) => !told.has(uri))));
      const places = boardByBoard(left, (at) => desk.boardsNamed(desk.uri(files[at]!)));
      const found = await started(threads).check(sums, places, counted);
      for (const [i, at] of places.entries()) checked[at] = found.files[i]!;
      unread.push(...found.unread);
      // What they hold in memory is not needed to the end.
      await team?.end();
      team = undefined;
    } else {
      for (const at of left) {
        checked[at] = await checkedBy(desk, files[at]!);
        counted(1);
      }
      unread.push(...desk.unread());
    }
    const whole = checked as Checked[];
    const changed = missing.length + left.length;
    if (keeper && changed > 0)
      await keeper.save(keptOf(desk, opening, whole, stamps, keeper), changed, unread.length === 0);
    return { files: whole, unread };
  } finally {
    await team?.end();
  }
}

/** What is to be kept: of each file as it was looked at, also where it was written since. */
function keptOf(
  desk: Desk,
  { group }: Opening,
  checked: readonly Checked[],
  stamps: readonly (string | undefined)[],
  keeper: Keeper,
): ReadonlyMap<string, KeptLog> {
  const remembered = desk.remembered();
  const places = new Map(group.files.map(({ real }, at) => [real, at]));
  return new Map(
    distinctFiles(group).flatMap((file): [string, KeptLog][] => {
      const uri = desk.uri(file);
      const { real, size, changed } = file;
      const one = remembered.get(uri) ?? (knowledgeKind(uri) ? { uri } : undefined);
      if (!one || changed === undefined) return [];
      const at = places.get(real);
      const found =
        at === undefined
          ? before(keeper, file)
          : isKeepable(checked[at]!) && keptCheck(checked[at]!, stamps[at], uri);
      return [[real, defined({ size, changed, remembered: one, checked: found || undefined })]];
    }),
  );
}

/** A knowledge file hangs on more than is told by a stamp: what was found in it holds where nothing changed. */
const keptCheck = (result: Checked, stamp: string | undefined, uri: string): KeptCheck | undefined =>
  stamp === undefined && !knowledgeKind(uri)
    ? undefined
    : { stamp: stamp ?? "", inWorld: true, result, isWhole: () => true };

/** What was found in a file that was not asked for this time. */
function before(keeper: Keeper, file: FoundFile): KeptCheck | undefined {
  const last = asItWas(keeper.logs, file)?.checked;
  return last?.isWhole() ? { ...last, inWorld: keeper.holdsInWorld(last) } : undefined;
}

/** Whether it hangs on nothing but what it was judged by. A file that could not be read may be readable the next time, and a picture may change without its log. */
export const isKeepable = (result: Checked): boolean =>
  result.is === "no log" || (result.is === "checked" && result.alone);

import { bareEntries, patched } from "./complete";
import type { BoardEntry } from "./entry";
import { entryFaults } from "./faults";
import { type BoardText, entriesOf } from "./open";
import type { Plan } from "./planning";

/** Takes out what no board file can hold, and finds the bare entries that the rest needs. */
export function settle(file: BoardText, plan: Plan): { bare: BoardEntry[]; left: Map<BoardEntry, string> } {
  const left = new Map<BoardEntry, string>();
  for (;;) {
    const fresh = plan.fresh.filter((entry) => !left.has(entry));
    const bare = bareEntries(file, { ...plan, fresh });
    const named = new Map(plan.patches.map((patch) => [patched(patch), patch]));
    const rails = new Set([
      ...entriesOf(file, "rails").keys(),
      ...fresh.flatMap(({ section, key, guess }) => (section === "rails" && !guess ? [key] : [])),
    ]);
    const all = [...fresh, ...bare.map(({ entry }) => entry), ...named.keys()];
    const faults = entryFaults(all, rails);
    if (faults.size === 0) {
      const needed = new Set(bare.map(({ entry: { section, key } }) => `${section} ${key}`));
      // What was a guess is needed now, so it is written out once.
      const twice = fresh.filter(
        ({ guess, section, key }) => guess && section === "circuits" && needed.has(`${section} ${key}`),
      );
      for (const entry of twice) plan.fresh.splice(plan.fresh.indexOf(entry), 1);
      return { bare: bare.map(({ entry }) => entry), left };
    }
    for (const [entry, reason] of faults) {
      const patch = named.get(entry);
      const because = bare.find((one) => one.entry === entry)?.because;
      if (patch) plan.patches.splice(plan.patches.indexOf(patch), 1);
      if (patch) plan.leftOut.push({ section: entry.section, key: entry.key, reason });
      else for (const one of because ?? [entry]) leaveOut(one, reason);
    }
  }

  function leaveOut(entry: BoardEntry, reason: string): void {
    if (plan.fresh.includes(entry)) left.set(entry, reason);
    else {
      const at = plan.patches.findIndex(({ section, key }) => section === entry.section && key === entry.key);
      if (at >= 0) plan.patches.splice(at, 1);
      plan.leftOut.push({ section: entry.section, key: entry.key, reason });
    }
  }
}

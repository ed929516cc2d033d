// What the tables of an item's procedure show of it, by what their kind can show all of: rails, coils, memory, program images,
// option switches, soak. Matrices are counted by their own plan, in `matrix-coverage`.

import { defined } from "../../base/defined";
import { plainHex } from "../../compute/memory/hex";
import { compareChecks } from "../../compute/memory/rom-match";
import { railAt } from "../../judge/rail-name";
import { boardIndex } from "../../knowledge/board-index";
import type { Board, ProvingItem, RomSet } from "../../knowledge/types";
import type { Covers } from "../../log/kinds/kind";
import type { Reading } from "../../log/model";
import { coilName, coilOf } from "./fired";
import { lengthOfTime, sayLength } from "./length-of-time";
import type { Coverage, Judged } from "./types";

export interface Covered extends Coverage {
  /** What to do about `missing`, as a sentence. */
  readonly wants: string;
  /** Readings that contradict what the board file says. */
  readonly wrong?: readonly { readonly reading: Reading; readonly text: string }[];
}

type Cover = (
  all: readonly Judged[],
  item: ProvingItem,
  board: Board,
  romSet?: string,
) => Covered | undefined;

export const COVERS: Readonly<Record<Exclude<Covers, "matrix">, Cover>> = {
  coils: coverCoils,
  rails: coverRails,
  resets: coverResets,
  memory: coverMemory,
  images: coverImages,
  settings: coverSettings,
  soak: coverSoak,
};

/** Counts `wanted` against what was shown; undefined where nothing is wanted, since then nothing can be counted. */
function count(
  wanted: readonly string[],
  shown: ReadonlySet<string>,
  what: string,
  wants: (missing: string) => string,
): Covered | undefined {
  if (wanted.length === 0) return undefined;
  const missing = wanted.filter((name) => !shown.has(name));
  return {
    done: wanted.length - missing.length,
    total: wanted.length,
    what,
    missing,
    wants: missing.length > 0 ? wants(missing.join(", ")) : "",
  };
}

function coverCoils(all: readonly Judged[], _: ProvingItem, board: Board): Covered | undefined {
  const shown = new Set<string>();
  for (const { reading, ok } of all) {
    const coil = ok === true && reading.table.kind.fires ? coilOf(reading, board) : undefined;
    if (coil) shown.add(coilName(coil));
  }
  return count(
    board.coils.map(coilName),
    shown,
    "coils fired",
    (missing) => `Fire one by one, and write under "Coils and lamps fired after repair": ${missing}.`,
  );
}

/** Rails that feed only a regulator are seen through the rail behind it. */
function coverRails(all: readonly Judged[], item: ProvingItem, board: Board): Covered | undefined {
  const inputs = new Set([...board.rails.values()].map(({ input }) => input));
  const rails = [...board.rails.keys()].filter((name) => !inputs.has(name));
  const loads: readonly ("loaded" | "unloaded")[] = /\bunloaded\b/i.test(item.title)
    ? /(?<!un)\bloaded\b/i.test(item.title)
      ? ["unloaded", "loaded"]
      : ["unloaded"]
    : ["loaded"];
  const name = (rail: string, load: string): string => (loads.length > 1 ? `${rail} ${load}` : rail);
  const shown = new Set<string>();
  for (const { reading, ok } of all) {
    if (ok !== true || reading.measure !== "dc") continue;
    const rail = railAt(reading.subject, board);
    const { load } = reading.table.section.qualifiers;
    // A heading that says nothing of the load is of the board as it runs.
    if (rail) shown.add(name(rail.name, load ?? "loaded"));
  }
  return count(
    rails.flatMap((rail) => loads.map((load) => name(rail, load))),
    shown,
    "rails within limits",
    (missing) =>
      `Measure under ${loads.map((load) => `"Supply rails, ${load}, after repair"`).join(" and ")}: ${missing}.`,
  );
}

function coverResets(all: readonly Judged[], _: ProvingItem, board: Board): Covered | undefined {
  const shown = new Set(
    all.flatMap(({ reading: { subject, measure }, ok }) =>
      ok === true && measure === "delay" && subject.ref ? [subject.ref.text.toUpperCase()] : [],
    ),
  );
  return count(
    [...new Set(board.resets.map(({ ref }) => ref.toUpperCase()))],
    shown,
    "resets timed within limits",
    (missing) => `Time the reset at ${missing} from power-up, under "Reset timing after repair".`,
  );
}

function coverMemory(all: readonly Judged[], _: ProvingItem, board: Board): Covered | undefined {
  const shown = new Set(
    all.flatMap(({ reading, ok }) =>
      ok === true && reading.subject.ref ? [reading.subject.ref.text.toUpperCase()] : [],
    ),
  );
  return count(
    board.memory.map(({ ref }) => ref.toUpperCase()),
    shown,
    "memory chips tested",
    (missing) => `Run the memory test on ${missing} and note the result of each.`,
  );
}

/** Rows whose sums are those of the log's ROM set, or of any one set where the log names none. */
function coverImages(
  all: readonly Judged[],
  _: ProvingItem,
  board: Board,
  romSet?: string,
): Covered | undefined {
  const named = romSet === undefined ? undefined : board.romSets.get(romSet);
  const sets = named ? [named] : [...board.romSets.values()];
  const byRef = new Map<string, Map<string, Reading>>();
  for (const { reading } of all) {
    const ref = reading.subject.ref?.text.toUpperCase();
    if (!ref || reading.value.kind === "empty") continue;
    byRef.set(ref, (byRef.get(ref) ?? new Map()).set(reading.measure, reading));
  }
  const against = (set: RomSet) => {
    const shown = new Set<string>();
    const wrong: { reading: Reading; text: string }[] = [];
    for (const image of set.images) {
      const ref = image.ref.toUpperCase();
      const row = byRef.get(ref);
      if (!row) continue;
      const { agree, differ } = compareChecks(checksIn(row), image);
      const bad = differ.map((name) => row.get(name)).find((reading) => reading !== undefined);
      if (bad)
        wrong.push({ reading: bad, text: `${ref} reads ${bad.value.typed}, which is not ${set.title}` });
      // A sum is blind to swapped bytes, but is all that some sets have.
      else if (agree.some((name) => name !== "size")) shown.add(ref);
    }
    return { set, shown, wrong };
  };
  const [best] = sets
    .map(against)
    .sort((a, b) => b.shown.size - a.shown.size || a.wrong.length - b.wrong.length);
  if (!best) return undefined;
  const covered = count(
    best.set.images.map(({ ref }) => ref.toUpperCase()),
    best.shown,
    `program images identified as ${best.set.title}`,
    (missing) => `Read ${missing} and write the CRC-32 or SHA-1 down under "ROM check".`,
  );
  return covered && { ...covered, wrong: named ? best.wrong : [] };
}

function checksIn(row: ReadonlyMap<string, Reading>) {
  const hex = (measure: string, digits: number): string | undefined => {
    const typed = row.get(measure)?.value.typed;
    return typed === undefined ? undefined : plainHex(typed, digits);
  };
  const sum16 = hex("sum16", 4);
  const crc32 = hex("crc32", 8);
  const sha1 = hex("sha1", 40);
  return defined({ sum16: sum16 || undefined, crc32: crc32 || undefined, sha1: sha1 || undefined });
}

function coverSettings(all: readonly Judged[], _: ProvingItem, board: Board): Covered | undefined {
  const index = boardIndex(board);
  const shown = new Set<string>();
  for (const { reading } of all) {
    const { ref, switch: at } = reading.subject;
    if (reading.value.kind === "empty" || !ref || !at) continue;
    shown.add(
      `${index.part(ref.text)?.ref ?? ref.text.toUpperCase()} ${Number(at.text.replace(/\D+/g, ""))}`,
    );
  }
  const wanted = [...board.switchBanks.values()].flatMap(({ ref, settings }) =>
    [...new Set(settings.flatMap(({ switches }) => switches))]
      .sort((a, b) => a - b)
      .map((at) => `${ref} ${at}`),
  );
  return count(
    wanted,
    shown,
    "option switches noted",
    (missing) => `Note how these option switches are set: ${missing}.`,
  );
}

function coverSoak(all: readonly Judged[], item: ProvingItem): Covered | undefined {
  const wanted = lengthOfTime(item.title);
  if (wanted === undefined) return undefined;
  // A row counts where it says that the board still ran.
  const ran = all.flatMap(({ reading, ok }) =>
    reading.spec.role === "result" && ok === true ? [reading] : [],
  );
  const times = all.flatMap(({ reading: { measure, value, table, row } }) =>
    measure === "elapsed" &&
    value.kind === "quantity" &&
    ran.some((result) => result.table === table && result.row === row)
      ? [value.quantity.value]
      : [],
  );
  const longest = Math.max(0, ...times);
  const left = wanted - longest;
  return {
    done: Math.round(Math.min(longest, wanted) / 60),
    total: Math.round(wanted / 60),
    what: "minutes of soak",
    missing: left > 0 ? [sayLength(left)] : [],
    wants:
      left > 0
        ? `Let it run for ${sayLength(wanted)} and check on it: ${longest > 0 ? `the longest row is ${sayLength(longest)}` : "no row says that it ran"}.`
        : "",
  };
}

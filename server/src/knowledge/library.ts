import * as builtin from "virtual:mendlog-library";
import { type HeadingMatch, headingMatcher } from "./heading-match";
import { type Doubt, type MayBe, numberLookup } from "./number-lookup";
import { normalPart } from "./part-number";
import { partOrder } from "./part-rank";
import { present, record } from "./shape";
import { shapeDevice, shapeFamily, shapeProcedure } from "./shape-library";
import { shapeMaker } from "./shape-maker";
import type { Device, Family, Procedure } from "./types";
import type { Maker } from "./types-maker";

export type { HeadingMatch, HeadingQualifiers } from "./heading-match";
export type { Doubt, MayBe } from "./number-lookup";

/** What the library knows of a part number: the device that it names, and the logic family it is made in. */
export interface DeviceMatch {
  readonly device: Device;
  /** The family that the number names, else the device's first; undefined where the library has neither. */
  readonly family: Family | undefined;
  /** The part number as given. */
  readonly typed: string;
}

/** Devices, families and procedures with the look-ups made ready. Immutable. */
export interface Library {
  readonly devices: readonly Device[];
  readonly families: readonly Family[];
  readonly procedures: readonly Procedure[];
  readonly makers: readonly Maker[];
  /**
   * The device behind a part number as printed or typed: "7404", "SN74LS04N 8134", "mc6802p", "CD4011BE". Undefined where
   * it is not certain which one that is.
   */
  device(partNumber: string): DeviceMatch | undefined;
  /** What a number may be that is not certain; undefined for one that is, and for one of which nothing is known. */
  doubt(partNumber: string): Doubt | undefined;
  /** What a number without letters is behind those of makers: 4016 is a RAM as TMS4016. */
  others(number: string): readonly MayBe[];
  /**
   * Part numbers that begin with `prefix`, 74xx with each of their families, its 74 left out or not; the very number first,
   * then as `partOrder` has it.
   */
  devicesMatching(prefix: string): readonly DeviceMatch[];
  /** Procedure by id. */
  procedure(id: string): Procedure | undefined;
  /** The procedure that a heading names, with the circumstances it tells. */
  procedureFor(headingText: string): HeadingMatch | undefined;
}

/** Where two entries have the same id the later one counts. */
export function buildLibrary(
  devices: readonly Device[],
  families: readonly Family[],
  procedures: readonly Procedure[],
  makers: readonly Maker[] = [],
): Library {
  const deviceById = byId(devices);
  const familyById = byId(families);
  const procedureById = byId(procedures);
  const names = new Map<string, Device>();
  for (const device of deviceById.values()) {
    for (const alias of device.aliases) names.set(normalPart(alias), device);
  }
  // An id beats another's alias.
  for (const device of deviceById.values()) names.set(normalPart(device.id), device);
  const lookup = numberLookup(names, [...familyById.values()], makers);

  const cache = new Map<string, { readonly match?: DeviceMatch; readonly doubt?: Doubt }>();
  const meaning = (typed: string) => {
    const before = cache.get(typed);
    if (before) return before;
    const found = lookup.meaning(typed);
    const told =
      found?.kind === "known"
        ? { match: { ...found.found, typed } }
        : found
          ? { doubt: { ...found.doubt, typed } }
          : {};
    if (cache.size >= 5_000) cache.clear();
    cache.set(typed, told);
    return told;
  };
  let labels: readonly Label[] | undefined;
  return {
    devices: [...deviceById.values()],
    families: [...familyById.values()],
    procedures: [...procedureById.values()],
    procedure: (id) => procedureById.get(id),
    procedureFor: headingMatcher([...procedureById.values()]),
    makers,
    device: (typed) => meaning(typed).match,
    doubt: (typed) => meaning(typed).doubt,
    others: (number) => lookup.others(normalPart(number)),
    devicesMatching(prefix) {
      labels ??= allLabels([...deviceById.values()], familyById);
      const start = normalPart(prefix);
      const own = labels.filter((label) => label.key.startsWith(start));
      // LS13 is the beginning of 74LS138 where nothing begins with it stands.
      const begun =
        own.length === 0 && /^[A-Z]{1,4}\d*$/.test(start)
          ? labels.filter((label) => label.key.startsWith(`74${start}`))
          : own;
      return begun
        .sort((a, b) => Number(b.key === start) - Number(a.key === start))
        .map(({ match }) => match);
    },
  };
}

interface Label {
  readonly key: string;
  readonly match: DeviceMatch;
}

function allLabels(devices: readonly Device[], families: ReadonlyMap<string, Family>): Label[] {
  const labels = new Map<string, DeviceMatch>();
  const add = (typed: string, device: Device, family: Family | undefined) => {
    const key = normalPart(typed);
    if (!labels.has(key)) labels.set(key, { device, family, typed });
  };
  for (const device of devices) add(device.id, device, families.get(device.families[0] ?? ""));
  for (const device of devices) {
    for (const id of device.families) {
      const family = families.get(id);
      if (family?.letters === undefined || !/^74\d/.test(device.id)) continue;
      add(`74${family.letters}${device.id.slice(2)}`, device, family);
    }
    for (const alias of device.aliases) add(alias, device, families.get(device.families[0] ?? ""));
  }
  const order = partOrder(devices, families);
  return [...labels].map(([key, match]) => ({ key, match })).sort((a, b) => order(a.key, b.key));
}

function byId<T extends { readonly id: string }>(items: readonly T[]): Map<string, T> {
  const found = new Map<string, T>();
  for (const item of items) found.set(item.id, item);
  return found;
}

/** `library` with a workspace's own entries over it. */
export const extend = (
  library: Library,
  own: { readonly devices?: readonly Device[]; readonly procedures?: readonly Procedure[] },
): Library =>
  buildLibrary(
    [...library.devices, ...(own.devices ?? [])],
    library.families,
    [...library.procedures, ...(own.procedures ?? [])],
    library.makers,
  );

let shipped: Library | undefined;

/**
 * The library that comes with the program. Its files are held against their schemas by the tests, so here
 * they are only brought into shape, once, when first asked for.
 */
export function builtinLibrary(): Library {
  const read = <T>(
    files: readonly unknown[],
    shape: (data: ReturnType<typeof record>) => T | undefined,
  ): T[] => files.map((data) => shape(record(data))).filter(present);
  shipped ??= buildLibrary(
    read(builtin.devices(), shapeDevice),
    read(builtin.families(), shapeFamily),
    read(builtin.procedures(), shapeProcedure),
    read(builtin.makers(), shapeMaker),
  );
  return shipped;
}

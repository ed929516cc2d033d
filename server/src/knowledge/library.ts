import * as builtin from "virtual:mendlog-library";
import { type HeadingMatch, headingMatcher } from "./heading-match";
import { as74, candidates, inFull, normalPart } from "./part-number";
import { partOrder } from "./part-rank";
import { present, record } from "./shape";
import { shapeDevice, shapeFamily, shapeProcedure } from "./shape-library";
import type { Device, Family, Procedure } from "./types";

export type { HeadingMatch, HeadingQualifiers } from "./heading-match";

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
  /** The device behind a part number as printed or typed: "7404", "SN74LS04N", "mc6802p", "CD4011BE". */
  device(partNumber: string): DeviceMatch | undefined;
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
  const familyByLetters = new Map<string, Family>();
  for (const family of familyById.values()) {
    if (family.letters !== undefined) familyByLetters.set(family.letters.toUpperCase(), family);
  }

  const own = (device: Device): Family | undefined => familyById.get(device.families[0] ?? "");

  function lookUp(part: string): Omit<DeviceMatch, "typed"> | undefined {
    const exact = names.get(part);
    const seventyFour = as74(part);
    if (exact) {
      const named = seventyFour?.letters ? familyByLetters.get(seventyFour.letters) : undefined;
      return { device: exact, family: named && exact.families.includes(named.id) ? named : own(exact) };
    }
    if (seventyFour) {
      const found = in74(seventyFour);
      if (found) return found;
    }
    for (const candidate of candidates(part)) {
      const device = names.get(candidate);
      if (device) return { device, family: own(device) };
    }
    return undefined;
  }

  function in74({ id, number, letters }: { id: string; number: string; letters: string }) {
    const family = familyByLetters.get(letters);
    const listed = (device: Device) => family !== undefined && device.families.includes(family.id);
    // A family with pins of its own has an entry of its own: 74LS54 is not a 7454 in LS.
    const device = names.get(`74${letters}${number}`) ?? names.get(id);
    if (device) {
      // Several parts of the old low-power 74L series have pins of their own (from memory: 74L71, 74L78,
      // 74L85, 74L86, 74L95), so there the device must say that it covers the family.
      return letters !== "L" || listed(device) ? { device, family } : undefined;
    }
    // 74HC4051 and its like are 4000 series parts remade; only where the entry says so.
    const remade = /^4\d{3}$/.test(number) ? names.get(number) : undefined;
    return remade && listed(remade) ? { device: remade, family } : undefined;
  }

  const cache = new Map<string, DeviceMatch | undefined>();
  let labels: readonly Label[] | undefined;
  return {
    devices: [...deviceById.values()],
    families: [...familyById.values()],
    procedures: [...procedureById.values()],
    procedure: (id) => procedureById.get(id),
    procedureFor: headingMatcher([...procedureById.values()]),
    device(typed) {
      if (cache.has(typed)) return cache.get(typed);
      const part = normalPart(typed);
      const found = part === "" || part.length > 40 ? undefined : (lookUp(part) ?? lookUp(inFull(part)));
      const match = found && { ...found, typed };
      if (cache.size >= 5_000) cache.clear();
      cache.set(typed, match);
      return match;
    },
    devicesMatching(prefix) {
      labels ??= allLabels([...deviceById.values()], familyById);
      const start = normalPart(prefix);
      const own = labels.filter((label) => label.key.startsWith(start));
      // LS13 is the beginning of 74LS138 where nothing begins with it as it stands.
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
  buildLibrary([...library.devices, ...(own.devices ?? [])], library.families, [
    ...library.procedures,
    ...(own.procedures ?? []),
  ]);

let shipped: Library | undefined;

/**
 * The library that comes with the program. Its files are held against their schemas by the tests, so here
 * they are only brought into shape, once, when first asked for.
 */
export function builtinLibrary(): Library {
  const read = <T>(
    files: readonly { readonly data: unknown }[],
    shape: (data: ReturnType<typeof record>) => T | undefined,
  ): T[] => files.map((file) => shape(record(file.data))).filter(present);
  shipped ??= buildLibrary(
    read(builtin.devices, shapeDevice),
    read(builtin.families, shapeFamily),
    read(builtin.procedures, shapeProcedure),
  );
  return shipped;
}

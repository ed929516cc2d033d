// Values for places whose schema takes any text, but where something in the file or the library suggests itself.
import { unitsOf } from "../../shared/cell-values";
import { byRef } from "../../shared/describe";
import { derivedOf } from "../derived";
import { nodeOf, scalarTextAt } from "../place";
import { currencies } from "./currencies";
import { devices } from "./devices";
import { expectedPins } from "./pins";
import type { Provider, Value } from "./provider";

/** By kind of file and pattern of the path. */
export const EXTRAS: Readonly<Record<string, Provider>> = {
  "board:clocks/*/pin": expectedPins,
  "board:expected/*/pin": expectedPins,
  "board:parts/*/package": ({ file, path }) => {
    const device = scalarTextAt(file, [...path.slice(0, -1), "device"]);
    const known = device === undefined ? undefined : file.knowledge.library.device(device)?.device;
    const used = [...(derivedOf(file).board?.parts.values() ?? [])].flatMap((part) => part.package ?? []);
    return distinct([
      ...(known ? [{ label: known.package.name, description: `the usual one of ${device}` }] : []),
      ...used.sort(byRef).map((label) => ({ label, description: "used on this board" })),
    ]);
  },
  "board:resets/*/pin": expectedPins,
  "board:rails/*/test-point": ({ file }) =>
    [...(derivedOf(file).board?.parts.values() ?? [])]
      .filter((part) => /^TP/i.test(part.ref))
      .map((part) => ({ label: part.ref, kind: "part", description: part.note ?? part.value ?? "" })),
  "device:package/name": ({ file }) =>
    distinct(
      file.knowledge.library.devices
        .map(({ package: { name, pins } }) => ({ label: name, description: `${pins} pins` }))
        .sort((a, b) => byRef(a.label, b.label)),
    ),
  "device:gates/*/function": ({ file }) =>
    distinct(
      file.knowledge.library.devices
        .flatMap((device) => device.gates.map((gate) => ({ label: gate.function })))
        .sort((a, b) => byRef(a.label, b.label)),
    ),
  "procedure:columns/*/unit": ({ file, path }) =>
    unitsOf(scalarTextAt(file, [...path.slice(0, -1), "quantity"]) ?? "").map((label) => ({
      label,
      kind: "unit",
    })),
  "procedure:wide/cells": measures,
  "shop:currency": currencies,
  "shop:stock/*/part": devices,
};

/** What a wide table's cells may be: a reading's measure, or the role of a column of states or results. */
function measures({ file }: Parameters<Provider>[0]): readonly Value[] {
  const columns = nodeOf(file, ["columns"]);
  if (columns?.kind !== "list") return [];
  return distinct(
    columns.items.flatMap((_, index): Value[] => {
      const role = scalarTextAt(file, ["columns", index, "role"]);
      const measure = scalarTextAt(file, ["columns", index, "measure"]);
      if (measure !== undefined) return [{ label: measure, description: "measured" }];
      return role === "state" || role === "result" ? [{ label: role, description: "a column's role" }] : [];
    }),
  );
}

function distinct(values: readonly Value[]): readonly Value[] {
  const seen = new Set<string>();
  return values.filter(({ label }) => label !== "" && !seen.has(label) && seen.add(label));
}

import { defined } from "../../../base/defined";
import { railText } from "../../../knowledge/tolerance";
import type { Net } from "../../../knowledge/types";
import { md } from "../../../text/markdown";
import { byRef, directionWords, pinsInOrder } from "../../shared/describe";
import { procedureDocumentation, railDocumentation } from "../../shared/documentation";
import { derivedOf } from "../derived";
import { nodeOf } from "../place";
import { devices } from "./devices";
import { netEntries, parts } from "./pins";
import type { Provider, Value } from "./provider";

/** Names that may stand where the schema says what they refer to. */
export const REFERENCES: Readonly<Record<string, Provider>> = {
  device: devices,
  pin: netEntries,
  parts,
  nets: (query) => {
    const { board } = derivedOf(query.file);
    return [...(board?.nets.values() ?? [])].map((net) => ({ label: net.name, description: members(net) }));
  },
  circuits: ({ file }) =>
    [...(derivedOf(file).board?.circuits.values() ?? [])].map(({ id, title, note }) =>
      defined({
        label: id,
        description: title,
        documentation: note === undefined ? undefined : md(note),
        words: title,
      }),
    ),
  rails: ({ file }) =>
    [...(derivedOf(file).board?.rails.values() ?? [])].map((rail) => ({
      label: rail.name,
      description: [railText(rail), rail.testPoint].filter(Boolean).join(" · "),
      documentation: railDocumentation(rail),
    })),
  revisions: ({ file }) =>
    [...(derivedOf(file).board?.revisions ?? [])].map(([label, description]) => ({ label, description })),
  matrices: ({ file }) =>
    [...(derivedOf(file).board?.matrices.values() ?? [])].map(({ id, title, kind }) => ({
      label: id,
      description: `${title} · ${kind} matrix`,
    })),
  // A modification neither requires nor excludes itself.
  modifications: ({ file, path }) =>
    [...(derivedOf(file).board?.modifications.values() ?? [])]
      .filter(({ id }) => id !== path[1])
      .map(({ id, title }) => ({ label: id, description: title })),
  procedure: ({ file }) => {
    const { ctx } = derivedOf(file);
    return file.knowledge.library.procedures.map((procedure) => ({
      label: procedure.id,
      description: procedure.title,
      documentation: procedureDocumentation(procedure, ctx),
      words: procedure.title,
    }));
  },
  family: ({ file }) =>
    file.knowledge.library.families.map(({ id, title }) => ({ label: id, description: title })),
  pins: gatePins,
};

function members({ pins }: Net): string {
  const shown = pins.slice(0, 6).map(({ ref, pin }) => `${ref}.${pin}`);
  return [...shown, ...(pins.length > 6 ? [`and ${pins.length - 6} more`] : [])].join(" ");
}

/** Pins of the device being described; inputs first where inputs are listed, used ones last. */
function gatePins({ file, path }: Parameters<Provider>[0]): readonly Value[] {
  const { device } = derivedOf(file);
  if (!device) return [];
  const output = path.includes("outputs");
  const used = new Set<string>();
  const gates = nodeOf(file, ["gates"]);
  for (const [index, gate] of device.gates.entries()) {
    if (gates?.kind === "list" && index === path[1]) continue;
    for (const pin of [...gate.inputs, ...gate.outputs]) used.add(pin);
  }
  const rank = (number: string, direction: string): number =>
    Number(used.has(number)) * 2 + Number((direction === "input") === output);
  return pinsInOrder(device)
    .filter(({ direction }) => !["supply", "ground", "not-connected"].includes(direction))
    .sort((a, b) => rank(a.number, a.direction) - rank(b.number, b.direction) || byRef(a.number, b.number))
    .map((pin) => ({
      label: pin.number,
      kind: "pin",
      description: `${pin.name} ${directionWords(pin)}${used.has(pin.number) ? " · in another gate" : ""}`,
      words: pin.name,
    }));
}

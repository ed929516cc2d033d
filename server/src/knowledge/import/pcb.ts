// The S-expression board layout of the suite whose demos Debian packages as kicad-demos: `(kicad_pcb (version ...) ...)`.
// Held against the demos of version 6; files of version 5 and before call a footprint `module`, later ones keep the
// designator as a property (from memory).

import { defined } from "../../base/defined";
import type { PartFacts } from "./builder";
import { type BoardBuilder, boardBuilder } from "./builder";
import { sayEnd } from "./end-of-lists";
import type { ImportedBoard, Importing } from "./imported";
import { listsIn, readLists, type SList, valuesIn } from "./s-expression";

const WANTED = {
  records: new Set(["kicad_pcb/net", "kicad_pcb/footprint", "kicad_pcb/module"]),
  keep: new Set(["fp_text", "property", "pad", "net", "attr"]),
};

/** Reads a board layout: each footprint with its pads, and the nets. Copper between the pads is not looked at. */
export function* readPcb(text: string): Importing<ImportedBoard> {
  const builder = boardBuilder("pcb", true);
  /** Name by number, for pads that only give the number. */
  const names = new Map<string, string>();
  const end = yield* readLists(text, WANTED, (list, whole) => {
    if (list.head === "net") {
      const [number = "", name = ""] = valuesIn(list);
      names.set(number, name);
      // Net 0 is what is not connected.
      if (name !== "") builder.net(name, list.line);
    } else footprint(list, whole, names, builder);
    return !builder.full;
  });
  if (!builder.full) sayEnd(end, builder);
  return builder.build();
}

function footprint(
  list: SList,
  whole: boolean,
  names: ReadonlyMap<string, string>,
  builder: BoardBuilder,
): void {
  const ref = textOf(list, "reference");
  const pads = listsIn(list, "pad")
    .map((pad) => ({ pad, number: valuesIn(pad)[0] ?? "" }))
    // Holes and paste openings have no number.
    .filter(({ number }) => number.trim() !== "");
  if (ref === undefined) {
    builder.problem(
      "lost",
      `A footprint of ${pads.length} pads without a designator; it is left out. Name it in the layout.`,
      list.line,
    );
    return;
  }
  const value = textOf(list, "value");
  const [name] = valuesIn(list);
  const unfitted = listsIn(list, "attr").some((attr) => valuesIn(attr).includes("dnp"));
  const facts = defined<PartFacts>({
    value: value !== undefined && value !== "~" ? value : undefined,
    package: name !== undefined && name !== "" ? name : undefined,
    unfitted: unfitted ? (true as const) : undefined,
    allPins: whole,
  });
  builder.part(ref, facts, list.line);
  for (const { pad, number } of pads) builder.pin(ref, number, netOf(pad, names), pad.line);
}

/** `(fp_text reference "R5" ...)`, or `(property "Reference" "R5" ...)`. */
function textOf(footprint: SList, kind: "reference" | "value"): string | undefined {
  for (const list of [...listsIn(footprint, "fp_text"), ...listsIn(footprint, "property")]) {
    const [named = "", text = ""] = valuesIn(list);
    if (named.toLowerCase() === kind && text.trim() !== "") return text;
  }
  return undefined;
}

function netOf(pad: SList, names: ReadonlyMap<string, string>): string | undefined {
  const [net] = listsIn(pad, "net");
  if (!net) return undefined;
  const [first = "", name = names.get(first) ?? (/^\d+$/.test(first) ? "" : first)] = valuesIn(net);
  return name === "" ? undefined : name;
}

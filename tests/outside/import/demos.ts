// Boards that others drew: the demos of an EDA suite (Debian package kicad-demos 6.0.11), read at test time; nothing of them
// is kept here. MENDLOG_KICAD_DEMOS names another folder, MENDLOG_REQUIRE_OUTSIDE=1 makes its absence a failure.
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { childrenOf, parseSExpr, type SExpr } from "../kicad/sexpr";

const FOLDER = process.env.MENDLOG_KICAD_DEMOS ?? "/usr/share/kicad/demos";
export const DEMOS_ABSENT = `demo boards not found in ${FOLDER}: install kicad-demos or set MENDLOG_KICAD_DEMOS`;

/** Paths below the folder of all board layouts. */
export const LAYOUTS: readonly string[] = existsSync(FOLDER)
  ? readdirSync(FOLDER, { recursive: true })
      .map(String)
      .filter((name) => name.endsWith(".kicad_pcb"))
      .toSorted()
  : [];
export const DEMOS_PRESENT = LAYOUTS.length > 0;

export const layoutText = (path: string): string => readFileSync(join(FOLDER, path), "utf8");

/** What a layout holds by another reader than the one tested: the whole file as a tree. */
export interface Drawn {
  /** Value by designator. Where a designator stands several times, that of the first. */
  readonly parts: ReadonlyMap<string, string>;
  /** Names of all nets. */
  readonly nets: ReadonlySet<string>;
  /** Net by pin, "" where the pin is on none: "U1.14". */
  readonly pins: ReadonlyMap<string, string>;
}

export function drawnIn(text: string): Drawn {
  const root = parseSExpr(text);
  const nets = new Set(childrenOf(root, "net").map((net) => String(net[2])));
  nets.delete("");
  const parts = new Map<string, string>();
  const pins = new Map<string, string>();
  for (const footprint of [...childrenOf(root, "footprint"), ...childrenOf(root, "module")]) {
    const texts = childrenOf(footprint, "fp_text");
    const named = (kind: string) => String(texts.find((list) => list[1] === kind)?.[2] ?? "");
    const ref = named("reference");
    if (!parts.has(ref)) parts.set(ref, named("value"));
    for (const pad of childrenOf(footprint, "pad")) {
      const number = String(pad[1]);
      if (number !== "") pins.set(`${ref}.${number}`, netOf(pad) ?? pins.get(`${ref}.${number}`) ?? "");
    }
  }
  return { parts, nets, pins };
}

const netOf = (pad: SExpr): string | undefined => {
  const [net] = childrenOf(pad, "net");
  return net && String(net[2]);
};

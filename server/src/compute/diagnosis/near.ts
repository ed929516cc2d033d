// Where a reading has something to do with what was found.
import type { BoardModel } from "./board-model";
import type { Conflict } from "./conflict";
import type { PossibleReading } from "./possible-readings";
import type { Suspect } from "./suspects";

/** Suspects whose own nets are near, likeliest first. */
export const NEAR_SUSPECTS = 5;

/** Nets at which something was found, or that the likeliest suspects are of. */
export function netsNear(
  model: BoardModel,
  conflicts: readonly Conflict[],
  ranked: readonly { readonly suspect: Suspect }[],
): ReadonlySet<string> {
  const near = new Set<string>();
  for (const { findings } of conflicts) {
    for (const finding of findings) {
      const at =
        finding.kind === "pin" || (finding.kind === "sign" && finding.pin !== undefined)
          ? model.netAt(finding.ref ?? "", finding.pin ?? "")
          : undefined;
      if (at) near.add(at.name);
      if (finding.kind === "sign") for (const net of finding.nets ?? []) near.add(net);
      if (finding.kind === "net" || finding.kind === "matrix-line") near.add(finding.net);
      if (finding.kind === "gate")
        for (const pin of finding.pins) {
          const net = model.netAt(finding.ref, pin);
          if (net) near.add(net.name);
        }
    }
  }
  for (const { suspect } of ranked.slice(0, NEAR_SUSPECTS)) {
    if (suspect.kind === "track") near.add(suspect.net);
    if (suspect.kind === "bridge") for (const net of suspect.nets) near.add(net);
    const net = suspect.kind === "joint" ? model.netAt(suspect.ref, suspect.pin) : undefined;
    if (net) near.add(net.name);
  }
  return near;
}

export function nearGate(
  model: BoardModel,
  reading: Extract<PossibleReading, { kind: "gate-states" }>,
  near: ReadonlySet<string>,
): boolean {
  const { part, device } = reading.part;
  const gate = device?.gates.find(({ name }) => name === reading.gate);
  return [...(gate?.inputs ?? []), ...(gate?.outputs ?? [])].some((pin) =>
    near.has(model.netAt(part.ref, pin)?.name ?? ""),
  );
}

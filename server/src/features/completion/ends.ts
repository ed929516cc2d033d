// The ends of a connection that is buzzed out: a pin, a rail, a net.
import type { CellPosition } from "../../log/position";
import { linkEnd } from "../../log/stated/links";
import { span } from "../../text/span";
import { byRef, isNameless, partLine } from "../shared/describe";
import type { Completion } from "../types";
import type { LogView } from "../view";
import { namedIn } from "./named";
import { namedOnly, pinCompletions } from "./refs";

/** "U5-4" as far as it is typed: the designator with what parts it from its pin. */
const PIN_BEGUN = /^((?:[A-Za-z]{1,4}\d{1,4}[A-Za-z]?|\d{1,2}[A-Za-z]\d?)\s*[-.:]\s*)\w*$/;

/** Parts come first, whose pins are offered once one is taken; then ground, the rails and the nets. */
export function connectionEnds(view: LogView, at: CellPosition): readonly Completion[] {
  const before = PIN_BEGUN.exec(at.cell.text.trim())?.[1];
  if (before !== undefined) return pinCompletions(view, before.replace(/\s*[-.:]\s*$/, ""), at.edit, before);
  const board = view.ctx.board?.value;
  const parts = [...(board?.parts.values() ?? [])]
    .sort((a, b) => byRef(a.ref, b.ref))
    .map((part) => ({ ref: part.ref, description: board ? partLine(part, board, view.ctx) : "" }));
  const named = namedOnly(view, at).map(({ label }) => ({ ref: label, description: "named in this log" }));
  const items = [...parts, ...named].map(
    ({ ref, description }): Completion => ({
      label: `${ref}-`,
      kind: "part",
      description,
      span: at.edit,
      newText: `${ref}-`,
      thenSuggest: true,
    }),
  );
  return [...items, ...nets(view, at)];
}

/** Nets by name, those that nobody has found joined to anything yet among them. */
function nets(view: LogView, at: CellPosition): Completion[] {
  const board = view.ctx.board?.value;
  const known = new Map<string, string>([["GND", "ground"]]);
  for (const { name, nominal } of board?.rails.values() ?? []) known.set(name, nominal);
  for (const net of board?.nets.values() ?? []) {
    if (!known.has(net.name) && !isNameless(net))
      known.set(net.name, net.pins.map((pin) => `${pin.ref}.${pin.pin}`).join(" "));
  }
  for (const typed of namedIn(view, ["signal", "from", "to"], at)) {
    const name = netNamed(view, typed);
    if (name !== undefined && !known.has(name)) known.set(name, "named in this log");
  }
  return [...known].map(([label, description]) => ({
    label,
    kind: "value",
    description,
    span: at.edit,
    newText: label,
  }));
}

/** Undefined for a pin. */
function netNamed({ ctx }: LogView, typed: string): string | undefined {
  const end = linkEnd({ text: typed, span: span(0, typed.length) }, ctx.library);
  return end && "net" in end ? end.net : undefined;
}

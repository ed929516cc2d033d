import type { Part, Substitute } from "../../knowledge/types";
import type { CellPosition } from "../../log/position";
import { partAt } from "../describe";
import { cautionLines } from "../documentation";
import type { Completion } from "../types";
import type { LogView } from "../view";

/** Parts that fit the row's position: what the board names first, then substitutes with their caution. */
export function partsThatFit(view: LogView, at: CellPosition): readonly Completion[] {
  const ref = at.table.rows[at.row]?.cells.ref?.text;
  const part = ref === undefined ? undefined : partAt(ref, view.ctx);
  const seen = new Set<string>();
  const items: Completion[] = [];
  // A caution belongs to the part, whoever says that it fits.
  const substitutes = part ? substitutesFor(view, part) : [];
  const cautionOf = new Map(substitutes.map((each) => [each.part.toUpperCase(), each.caution]));
  const offer = (name: string, why: string, fromMaker = false) => {
    if (seen.has(name.toUpperCase())) return;
    seen.add(name.toUpperCase());
    const caution = fromMaker ? undefined : cautionOf.get(name.toUpperCase());
    const stock = stockOf(view, name);
    items.push({
      label: name,
      kind: "device",
      description: [why, stock].filter(Boolean).join(" · "),
      ...(caution === undefined ? {} : { documentation: cautionLines([caution]).join("") }),
      span: at.edit,
      newText: name,
    });
  };
  if (part) {
    if (part.device !== undefined) offer(part.device, "as fitted by the maker", true);
    else if (part.value !== undefined) offer(part.value, "as fitted by the maker", true);
    for (const fit of part.fits) offer(fit, "fits, by the board file");
    for (const { part: name } of substitutes) offer(name, "substitute");
  } else {
    for (const item of view.ctx.shop?.value.stock ?? []) offer(item.part, "");
  }
  return items;
}

function substitutesFor(view: LogView, part: Part): readonly Substitute[] {
  const device = part.device === undefined ? undefined : view.ctx.library.device(part.device)?.device;
  return device?.substitutes ?? [];
}

function stockOf(view: LogView, name: string): string | undefined {
  const item = view.ctx.shop?.value.stock.find((s) => s.part.toUpperCase() === name.toUpperCase());
  if (!item) return undefined;
  return [`${item.quantity} in stock`, item.location].filter(Boolean).join(", ");
}

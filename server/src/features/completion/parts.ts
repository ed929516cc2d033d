import { defined } from "../../base/defined";
import { partAt } from "../../judge/board-parts";
import { originOfPart } from "../../judge/stated/origin";
import type { Part, Substitute } from "../../knowledge/types";
import { isOfWork } from "../../log/kinds";
import type { CellPosition } from "../../log/position";
import { joined } from "../../text/markdown";
import { cautionLines } from "../shared/documentation";
import { doubtMarkdown } from "../shared/part-text";
import type { Completion } from "../types";
import type { LogView } from "../view";
import { certainFor, devicesFor, withMore } from "./devices";

/** Of a part column: what may be fitted, or what may stand at the designator as it was found. */
export function numbers(view: LogView, at: CellPosition): readonly Completion[] {
  const { kind } = at.table;
  // What stands in the machine, a coil, is in no library.
  if (kind.inMachine) return partsThatFit(view, at);
  // The part column is then what was put in, not what stands there.
  const fitted = isOfWork(kind);
  const ref = at.table.rows[at.row]?.cells.ref?.text ?? "";
  const known = fitted ? partsThatFit(view, at) : asKnown(view, ref, at);
  const typed = at.cell.text.trim();
  const isKnown = partAt(ref, view.ctx)?.device !== undefined || (typed === "" && known.length > 0);
  if (fitted && isKnown) return known;
  const seen = new Set(known.map(({ label }) => label.toUpperCase()));
  const listed = devicesFor(ref, typed, view.ctx.library);
  const library = withMore(listed, ({ typed: name, device }) => ({
    label: name,
    kind: "device",
    description: device.title,
    span: at.edit,
    newText: name,
  }));
  // What may be meant, to be taken by whoever has read the part again.
  const meant = certainFor(ref, typed, view.ctx.library).map(({ number, device }) =>
    defined<Completion>({
      label: number,
      kind: "device",
      description: `if it is that: ${device.title}`,
      documentation: doubtMarkdown(typed, view.ctx.library),
      span: at.edit,
      newText: number,
      filterText: typed,
    }),
  );
  return [...known, ...[...library, ...meant].filter(({ label }) => !seen.has(label.toUpperCase()))];
}

/** The number that is known of a designator, for a row that says it again; not the one that is being typed. */
function asKnown(view: LogView, ref: string, at: CellPosition): Completion[] {
  const { device } = partAt(ref, view.ctx) ?? {};
  if (device === undefined || device === at.cell.text.trim()) return [];
  const words = originOfPart(ref, view.doc, view.ctx)?.words ?? "as the board file says";
  return [
    { label: device, kind: "device", description: words, span: at.edit, newText: device, preselect: true },
  ];
}

/** Parts that fit the row's position: what the board names first, then substitutes with their caution. */
function partsThatFit(view: LogView, at: CellPosition): readonly Completion[] {
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
    items.push(
      defined({
        label: name,
        kind: "device",
        description: [why, stock].filter(Boolean).join(" · "),
        documentation: caution === undefined ? undefined : joined(cautionLines([caution]), ""),
        span: at.edit,
        newText: name,
      }),
    );
  };
  if (part) {
    const known = part.device ?? part.value;
    const words = originOfPart(part.ref, view.doc, view.ctx)?.words ?? "as fitted by the maker";
    if (known !== undefined) offer(known, words, true);
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

// What notes and headings may say of parts off their net: shared by completion and hover.

import { memberNames, someOf } from "../../compute/nets/net-text";
import { isolationOf } from "../../judge/nets/isolation";
import { pinName, type TestPoint, testPointOf } from "../../judge/test-point";
import type { Net } from "../../knowledge/types";
import { disconnectionsIn } from "../../log/disconnections";
import type { Section } from "../../log/model";
import type { CellPosition } from "../../log/position";
import { joined, type Markdown, markdown, md } from "../../text/markdown";
import type { LogView } from "../view";

/** The net of the pin a row's reading was taken at; undefined where the row names no pin on a net. */
export function netOfRow(view: LogView, at: CellPosition): { place: TestPoint; net: Net } | undefined {
  if (!at.table.readings.some(({ row }) => row === at.row)) return undefined;
  const place = testPointOf(at.table.rows[at.row]?.cells ?? {}, view.ctx);
  return place?.net && place.pin ? { place, net: place.net } : undefined;
}

/** What a note says of the net, as it is taken; undefined for a note that speaks of nothing being off. */
export function noteMarkdown(view: LogView, at: CellPosition): Markdown | undefined {
  if (at.role !== "note" || disconnectionsIn(at.cell.text).length === 0) return undefined;
  const reading = at.table.readings.find(({ row }) => row === at.row);
  const place = testPointOf(at.table.rows[at.row]?.cells ?? {}, view.ctx);
  if (!reading || !place || place.pinTyped === undefined) return undefined;
  const pin = markdown`${md(place.ref)} pin ${md(pinName(place) ?? place.pinTyped)}`;
  const isolation = isolationOf(reading, place, view.ctx.board?.value);
  if (!isolation) {
    return place.net
      ? markdown`Nothing of this is on **${md(place.net.name)}**, the net of ${pin}: the reading counts as one of the whole net.`
      : markdown`Nobody has said which net ${pin} is on, so nothing follows from this.`;
  }
  const { alone, off, cut, words } = isolation;
  const net = md(place.net?.name ?? "");
  if (alone) {
    return markdown`Taken **${md(words)}**: the reading is of ${pin} alone, and is not compared with the rest of its net. Out of limits it accuses ${md(place.ref)} and nothing else; within them it speaks for ${md(place.ref)} where **${net}** reads low.`;
  }
  if (cut && off.length === 0) {
    return markdown`Taken **${md(words)}**: nobody can tell what of **${net}** is on this side, so the reading is compared with no other. Say where it was cut: \`track cut at ${md(place.ref)}.${md(pinName(place) ?? "")}\`.`;
  }
  const gone = new Set(off.map((ref) => ref.toUpperCase()));
  const left = place.net
    ? memberNames({ ...place.net, pins: place.net.pins.filter(({ ref }) => !gone.has(ref.toUpperCase())) })
    : [];
  const whom = md(off.join(" or "));
  return markdown`Taken **${md(words)}**: the reading is of what is left on **${net}** (${md(someOf(left, 12))}). Where the whole net reads low, a reading within limits speaks against ${whom}, and one that stays low for ${off.length > 1 ? markdown`them` : markdown`it`}.`;
}

/** A line for the hover of a heading that says what was off. */
export function headingApart({ apart = [] }: Section): Markdown | undefined {
  if (apart.length === 0) return undefined;
  const names = apart.map(({ ref, pin, how }) =>
    ref === undefined
      ? pin === undefined
        ? markdown`a cut track`
        : markdown`pin ${md(pin)} ${how === "cut" ? markdown`cut off` : markdown`lifted`}`
      : pin === undefined
        ? markdown`${md(ref)} out`
        : markdown`${md(ref)} pin ${md(pin)} ${how === "cut" ? markdown`cut off` : markdown`lifted`}`,
  );
  return markdown`All readings below are taken **with ${joined(names, " and ")}**: pins on a net of theirs are read as what is left of it.`;
}

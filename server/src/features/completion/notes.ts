import { partAt } from "../../judge/board-parts";
import type { Net } from "../../knowledge/types";
import type { CellPosition } from "../../log/position";
import { span } from "../../text/span";
import { netOfRow } from "../shared/apart";
import { byRef, partLine } from "../shared/describe";
import type { Completion } from "../types";
import type { LogView } from "../view";

/** Parts of a net offered at most; a bus has more than anyone would pull. */
const MOST = 12;

/** What may have been off the net of the row's pin, in words the diagnosis reads. */
export function notes(view: LogView, at: CellPosition, offset: number): readonly Completion[] {
  const found = netOfRow(view, at);
  if (!found || found.place.tiedTo) return [];
  const { place, net } = found;
  // A note may say something else besides: only the remark at the cursor is written.
  const { text } = view.doc;
  const start = at.edit.start + (/^.*[,;][ \t]*/.exec(text.slice(at.edit.start, offset))?.[0].length ?? 0);
  const end = offset + (/^[^,;]*/.exec(text.slice(offset, at.edit.end))?.[0].trimEnd().length ?? 0);
  const one = (label: string, description: string): Completion => ({
    label,
    kind: "keyword",
    description,
    span: span(start, end),
    newText: label,
  });
  return [
    ...offWords(view, net, place.ref).map(({ words, what }) => one(words, what)),
    one("pin lifted", `the leg of ${place.ref} was read by itself`),
    one("pin lifted, at the pad", `${net.name} was read without ${place.ref}`),
    one("track cut", `${net.name} was cut: say where, "track cut at ${place.ref}.${place.pin?.number}"`),
  ];
}

/** What comes off easily first: plugs, chips in sockets, then single pins of soldered parts. */
function offWords(view: LogView, net: Net, own: string): { words: string; what: string }[] {
  const board = view.ctx.board?.value;
  if (!board) return [];
  const rank = (ref: string): number => (isPlug(ref) ? 0 : partAt(ref, view.ctx)?.socketed ? 1 : 2);
  const pins = new Map(net.pins.map(({ ref, pin }) => [ref, pin]));
  return [...pins]
    .filter(([ref]) => !/^TP/i.test(ref) && (ref !== own || rank(ref) < 2))
    .sort(([a], [b]) => rank(a) - rank(b) || byRef(a, b))
    .slice(0, MOST)
    .map(([ref, pin]) => {
      const part = partAt(ref, view.ctx);
      const what = part ? partLine(part, board, view.ctx) : `on ${net.name}`;
      const words = isPlug(ref)
        ? `${ref} unplugged`
        : rank(ref) === 1
          ? `${ref} out`
          : `${ref} pin ${pin} lifted`;
      return { words, what };
    });
}

const isPlug = (ref: string): boolean => /^(?:J|P|CN|X)\d/i.test(ref);

/** Behind "with" in a heading: what comes out without an iron. */
export function headingNotes(view: LogView, offset: number, before: string): Completion[] {
  const board = view.ctx.board?.value;
  const word = /\b(?:with|without)\s+([A-Za-z]*\d*)$/i.exec(before)?.[1];
  if (!board || word === undefined) return [];
  return [...board.parts.values()]
    .filter(({ ref, socketed }) => socketed || isPlug(ref))
    .sort((a, b) => byRef(a.ref, b.ref))
    .map((part) => {
      const words = `${part.ref} ${isPlug(part.ref) ? "unplugged" : "out of its socket"}`;
      return {
        label: words,
        kind: "part" as const,
        description: partLine(part, board, view.ctx),
        span: span(offset - word.length, offset),
        newText: words,
      };
    });
}

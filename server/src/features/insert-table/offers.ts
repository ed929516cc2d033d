// What tables the log's board has: one for each chip, circuit, set of rails and matrix.
import type { Procedure } from "../../knowledge/types";
import { KINDS, kindOf } from "../../log/kinds";
import type { Section } from "../../log/model";
import { byRef, partTitle } from "../shared/describe";
import {
  byPins,
  chipLayout,
  chipsOf,
  circuitLayout,
  FEWEST_PINS,
  gridLayout,
  type TableLayout,
  tablesToFill,
  UNNAMED,
} from "../shared/tables/layouts";
import type { LogView } from "../view";

export type OfferKind = "rails" | "matrix" | "circuit" | "chip" | "device";

/** A table that can be put into the log, as it is offered in a list. */
export interface TableOffer {
  /** Stays the same for as long as the board has it. */
  readonly id: string;
  readonly kind: OfferKind;
  readonly label: string;
  readonly description: string;
  /** The heading's words, where the table needs one of its own. */
  readonly heading: string;
  /** True where the section's heading says already what the table is about. */
  readonly fits: (section: Section) => boolean;
  /** Laid out for the procedure of the heading it is put under. */
  readonly layout: (procedure: Procedure | undefined) => TableLayout | undefined;
  /** Readings are taken down the columns. */
  readonly down?: boolean;
}

/** Chips without a circuit of their own, and those of only one chip, have no table by circuit. */
const FEWEST_CHIPS = 2;

/** In the order of the bench: rails before matrices, before circuits, before single chips. */
export function tableOffers(view: LogView): readonly TableOffer[] {
  return [...railOffers(view), ...matrixOffers(view), ...circuitOffers(view), ...chipOffers(view)];
}

/** Every chip that the library knows, by the numbers that may be printed on it, the classic ones first. */
export function deviceOffers(view: LogView): readonly TableOffer[] {
  const procedure = firstOfChip(view);
  if (!procedure) return [];
  return view.ctx.library.devicesMatching("").flatMap(({ typed, device }): TableOffer[] => {
    if (device.pins.size < FEWEST_PINS) return [];
    return [
      {
        id: `device:${typed}`,
        kind: "device",
        label: typed,
        description: `${device.title} · ${device.pins.size} pins`,
        heading: procedure.title,
        fits: (section) => section.procedure !== undefined && byPins(section.procedure),
        layout: (own) => chipLayout(own ?? procedure, { ref: UNNAMED, device }, view, typed),
      },
    ];
  });
}

function railOffers(view: LogView): TableOffer[] {
  return KINDS.filter(({ place }) => place === "rail").flatMap(({ id }): TableOffer[] => {
    const procedure = view.ctx.library.procedure(id);
    const [layout] = procedure ? tablesToFill(procedure, view) : [];
    if (!procedure || !layout) return [];
    return [
      {
        id: `rails:${id}`,
        kind: "rails",
        label: procedure.title,
        description: layout.rows.map(([name]) => name).join(", "),
        heading: procedure.title,
        fits: (section) => section.procedure?.id === id,
        layout: (own) => tablesToFill(own ?? procedure, view)[0],
      },
    ];
  });
}

function matrixOffers(view: LogView): TableOffer[] {
  const board = view.ctx.board?.value;
  if (!board) return [];
  const all = [...board.matrices];
  return all.flatMap(([id, matrix]): TableOffer[] => {
    const procedure = view.ctx.library.procedures.find(({ id }) => kindOf(id).matrix === matrix.kind);
    if (!procedure) return [];
    const alone = all.filter(([, other]) => other.kind === matrix.kind).length === 1;
    return [
      {
        id: `matrix:${id}`,
        kind: "matrix",
        label: matrix.title,
        description: `${matrix.rows.length} rows, ${matrix.columns.length} columns`,
        heading: alone ? procedure.title : `${procedure.title}, ${matrix.title}`,
        // Of several the heading has to name the one.
        fits: ({ procedure: own, heading }) =>
          own !== undefined &&
          kindOf(own.id).matrix === matrix.kind &&
          (alone || (heading?.text.toLowerCase().includes(matrix.title.toLowerCase()) ?? false)),
        layout: () => gridLayout(matrix),
      },
    ];
  });
}

/** What is done to a chip first, for tables of pins that no heading says more of. */
const firstOfChip = ({ ctx }: LogView): Procedure | undefined =>
  ctx.library.procedures.find(({ id }) => kindOf(id).firstOfChip);

function circuitOffers(view: LogView): TableOffer[] {
  const board = view.ctx.board?.value;
  const heading = firstOfChip(view)?.title;
  if (!board || heading === undefined) return [];
  const chips = chipsOf(view).filter(({ part }) => part?.ref.startsWith("U"));
  return [...board.circuits].flatMap(([id, circuit]): TableOffer[] => {
    const own = chips.filter(({ part }) => part?.circuit === id);
    if (own.length < FEWEST_CHIPS) return [];
    return [
      {
        id: `circuit:${id}`,
        kind: "circuit",
        label: circuit.title,
        description: own.map(({ ref }) => ref).join(", "),
        heading,
        fits: ({ procedure }) => procedure?.wide?.rows === "pin" && procedure.wide.columns === "ref",
        layout: (procedure) => circuitLayout(circuit.title, own, procedure ?? firstOfChip(view)),
        down: true,
      },
    ];
  });
}

function chipOffers(view: LogView): TableOffer[] {
  const procedure = firstOfChip(view);
  const board = view.ctx.board?.value;
  if (!procedure || !board) return [];
  return [...chipsOf(view)]
    .sort((a, b) => byRef(a.ref, b.ref))
    .flatMap((place): TableOffer[] =>
      place.part
        ? [
            {
              id: `chip:${place.ref}`,
              kind: "chip",
              label: place.ref,
              description: `${partTitle(place.part, place.device)} · ${place.device.pins.size} pins`,
              heading: procedure.title,
              fits: (section) => section.procedure !== undefined && byPins(section.procedure),
              layout: (own) => chipLayout(own ?? procedure, place, view),
            },
          ]
        : [],
    );
}

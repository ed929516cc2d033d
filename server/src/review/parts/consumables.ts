// What is used up besides the parts, and what the shop's shelf has of it. What is needed for which work, and the words
// that name it in a shop file, are common practice, no source.
import { defined } from "../../base/defined";
import type { LogDocument } from "../../log/document";
import type { Action } from "../../log/timeline/actions";
import { corrosionIn } from "./corrosion";
import type { StockShelf } from "./shelf";

/** Something that the work uses up, such as solder, and the work that needs it. */
export interface Consumable {
  readonly what: string;
  readonly why: string;
  /** The entry of the shop's stock, with what there is of it: reels, bottles, tubes. Absent where none is listed. */
  readonly stock?: { readonly part: string; readonly quantity: number; readonly location?: string };
  /** 1 where the stock lists it and has none left: nobody counts how much of a reel a job takes. */
  readonly order: number;
  /** Of one of what the stock lists, in the shop's currency, as decimal text. */
  readonly price?: string;
}

interface Need {
  readonly what: string;
  readonly why: string;
  /** Words that a shop file may have for it. */
  readonly names: RegExp;
}

const POWER_PACKAGE = /^TO-?(?:3|126|220|247)\b/i;

/** In the order they are used. */
export function consumablesFor(
  doc: LogDocument,
  actions: ReadonlyMap<Action, number>,
  packages: readonly string[],
  shelf: StockShelf,
): Consumable[] {
  const does = (...some: Action[]) => some.some((action) => (actions.get(action) ?? 0) > 0);
  const needs: readonly (readonly [boolean, Need])[] = [
    [corrosionIn(doc) !== undefined, NEUTRALISER],
    [corrosionIn(doc) !== undefined, WATER],
    [does("replace", "remove", "socket"), BRAID],
    [does("replace", "fit", "socket", "reflow", "jumper", "fit-modification"), SOLDER],
    [does("replace", "remove", "fit", "socket", "reflow", "jumper", "fit-modification"), FLUX],
    [does("jumper", "fit-modification"), WIRE],
    [packages.some((name) => POWER_PACKAGE.test(name)), COMPOUND],
    [does("replace", "fit", "socket", "reflow", "clean"), ALCOHOL],
  ];
  return needs.flatMap(([needed, need]) => (needed ? [onShelf(need, shelf)] : []));
}

const NEUTRALISER: Need = {
  what: "neutraliser (white vinegar or citric acid, dilute)",
  why: "alkaline residue; with gloves and eye protection",
  names: /vinegar|citric|neutrali[sz]er/i,
};
const WATER: Need = {
  what: "distilled water",
  why: "rinses the neutraliser off; dry the board before it is powered",
  names: /(?:distilled|deioni[sz]ed|deminerali[sz]ed) water/i,
};
const BRAID: Need = {
  what: "desoldering braid",
  why: "taking parts off; ventilate",
  names: /solder(?:ing)?[- ]?(?:wick|braid)|desolder|^wick\b|^braid\b/i,
};
const SOLDER: Need = {
  what: "solder",
  why: "new joints; ventilate, and wash hands: it may hold lead",
  names: /\bsolder\b(?![- ]?(?:wick|braid|mask|sucker))/i,
};
const FLUX: Need = {
  what: "flux",
  why: "new joints and braid; ventilate, its fumes irritate",
  names: /\bflux\b/i,
};
const WIRE: Need = {
  what: "insulated wire",
  why: "jumpers",
  names: /\b(?:hook-?up|insulated|jumper|wrapping|kynar)\b.*\bwire\b|\bwire\b.*\binsulated\b/i,
};
const COMPOUND: Need = {
  what: "heat-sink compound",
  why: "power parts; renew the insulator where there was one",
  names: /heat-?sink (?:compound|paste|grease)|thermal (?:compound|paste|grease)/i,
};
const ALCOHOL: Need = {
  what: "isopropyl alcohol",
  why: "flux off the board; away from heat and flame",
  names: /isopropyl|isopropanol|\bIPA\b/i,
};

function onShelf({ what, why, names }: Need, shelf: StockShelf): Consumable {
  const item = shelf.named(names);
  if (!item) return { what, why, order: 0 };
  const { part, location, price } = item;
  const quantity = shelf.left(item);
  return defined({
    what,
    why,
    stock: defined({ part, quantity, location }),
    order: quantity > 0 ? 0 : 1,
    price,
  });
}

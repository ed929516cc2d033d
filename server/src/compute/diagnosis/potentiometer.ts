// A resistor with a wiper: two ends and what slides between them.
import type { PartModel } from "./board-model";

/** The pin of the wiper where nothing else names it: the middle one of three. */
export const WIPER_PIN = "2";

/** By its designator or its three pins; a network has more. */
export const isPotentiometer = ({ kind, part, pins }: Pick<PartModel, "kind" | "part" | "pins">): boolean =>
  kind === "resistor" && (/^RV\d/i.test(part.ref) || pins.length === 3);

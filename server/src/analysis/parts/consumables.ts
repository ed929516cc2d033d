// What is used up besides the parts. All of it is common practice, no source.
import type { LogDocument } from "../../log/document";
import type { Action } from "./actions";
import { corrosionIn } from "./corrosion";

export interface Consumable {
  readonly what: string;
  readonly why: string;
}

const POWER_PACKAGE = /^TO-?(?:3|126|220|247)\b/i;

/** In the order they are used. */
export function consumablesFor(
  doc: LogDocument,
  actions: ReadonlyMap<Action, number>,
  packages: readonly string[],
): Consumable[] {
  const does = (...some: Action[]) => some.some((action) => (actions.get(action) ?? 0) > 0);
  const corroded = corrosionIn(doc) !== undefined;
  return [
    ...(corroded
      ? [
          {
            what: "white vinegar and distilled water",
            why: "alkaline residue; with gloves and eye protection",
          },
        ]
      : []),
    ...(does("replace", "remove", "socket")
      ? [{ what: "desoldering braid", why: "taking parts off; ventilate" }]
      : []),
    ...(does("replace", "fit", "socket", "reflow", "jumper", "fit-modification")
      ? [{ what: "solder and flux", why: "new joints; ventilate, wash hands" }]
      : []),
    ...(does("jumper", "fit-modification") ? [{ what: "insulated wire", why: "jumpers" }] : []),
    ...(packages.some((name) => POWER_PACKAGE.test(name))
      ? [{ what: "heat-sink compound", why: "power parts; renew the insulator where there was one" }]
      : []),
    ...(does("replace", "fit", "socket", "reflow", "clean")
      ? [{ what: "isopropyl alcohol", why: "flux off the board; away from heat and flame" }]
      : []),
  ];
}

import { l10n } from "vscode";
import type { Guide } from "../../../server/src/protocol/custom-requests/guide";

/** "U14 pin 7", as it is found on the board. */
export const pinWords = ({ ref, pin, action }: Pick<Guide, "ref" | "pin" | "action">): string =>
  ref === undefined ? action : pin === undefined ? ref : l10n.t("{0} pin {1}", ref, pin);

/** "U14 pin 7 (GND): 0.4 V to 0.7 V". */
export function stepWords(guide: Guide): string {
  const named = guide.net ?? guide.name;
  const at = `${pinWords(guide)}${named === undefined || guide.pin === undefined ? "" : ` (${named})`}`;
  return guide.window === undefined ? at : `${at}: ${guide.window}`;
}

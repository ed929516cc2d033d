// Kinds of evidence: one record each says what may cause what was seen. How strong each is stands in `strength`.
import type { BoardModel } from "../board-model";
import { type Conflict, type Member, membersOf } from "../conflict";
import type { ReadNets } from "../read-nets";
import { type SignId, STRENGTH } from "../strength";
import { misreadingSuspect } from "../suspects";
import type { SignFinding } from "../types";
import { CHIP_SIGNS } from "./chips";
import { DISPLAY_SIGNS } from "./display";
import { GROUP_SIGNS } from "./groups";
import { LEVEL_SIGNS } from "./levels";
import { LINE_SIGNS } from "./lines";
import { MEMORY_SIGNS } from "./memory";
import { OPEN_SIGNS } from "./opens";
import { PULLED_SIGNS } from "./pulled";
import { SHORT_SIGNS } from "./shorts";
import { SUPPLY_SIGNS } from "./supply";

/** Empty where nothing on the board could be behind it. */
export type Causes = (model: BoardModel, finding: SignFinding, read: ReadNets) => readonly Member[];

export const SIGNS: Readonly<Record<SignId, Causes>> = {
  ...CHIP_SIGNS,
  ...DISPLAY_SIGNS,
  ...GROUP_SIGNS,
  ...LEVEL_SIGNS,
  ...LINE_SIGNS,
  ...MEMORY_SIGNS,
  ...OPEN_SIGNS,
  ...PULLED_SIGNS,
  ...SHORT_SIGNS,
  ...SUPPLY_SIGNS,
};

/** What was seen as a conflict; a sentence where the board has nothing that it could be of. */
export function signConflict(model: BoardModel, finding: SignFinding, read: ReadNets): Conflict | string {
  const causes = SIGNS[finding.sign](model, finding, read);
  if (causes.length === 0) return `Nothing on this board could explain this: ${finding.says}`;
  return {
    members: membersOf(causes, [
      { suspect: misreadingSuspect(finding.of, STRENGTH[finding.sign].mistake), weight: 1 },
    ]),
    reason: finding.says,
    findings: [finding],
  };
}

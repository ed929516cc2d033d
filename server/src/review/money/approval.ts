// What the owner may be asked to pay: the limit they set, and what they agreed to beyond it.

import { type Decimal, parseDecimal } from "../../compute/money/decimal";
import type { FrontMatter } from "../../knowledge/load-front-matter";
import { exceeds } from "./cost";

type Owner = Pick<Partial<FrontMatter>, "spendingLimit" | "approval">;

/** An answer that a later refusal does not take back. */
const stands = ({ approval }: Owner): boolean =>
  approval?.agreed !== undefined && !(approval.refused !== undefined && approval.refused > approval.agreed);

/** Undefined where no limit is set. The amount agreed to counts where it is the higher. */
export function spendingLimitOf(front: Owner): Decimal | undefined {
  const limit = parseDecimal(front.spendingLimit ?? "");
  const agreed = stands(front) ? parseDecimal(front.approval?.upTo ?? "") : undefined;
  return limit && agreed && exceeds(agreed, limit) ? agreed : limit;
}

/** True where the owner has agreed to whatever it comes to. */
export const isAgreed = (front: Owner): boolean => stands(front) && front.approval?.upTo === undefined;

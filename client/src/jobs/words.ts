import { l10n } from "vscode";
import type { Job } from "../../../server/src/protocol/custom-requests/jobs";

export const stageWords = (stage: Job["stage"]): string => {
  switch (stage) {
    case "received":
      return l10n.t("Received");
    case "diagnosing":
      return l10n.t("Diagnosing");
    case "waiting-for-approval":
      return l10n.t("Waiting for approval");
    case "waiting-for-parts":
      return l10n.t("Waiting for parts");
    case "repairing":
      return l10n.t("Repairing");
    case "proving":
      return l10n.t("Proving");
    case "returned":
      return l10n.t("Returned");
    case "scrapped":
      return l10n.t("Scrapped");
    default:
      return l10n.t("Stage missing or not readable");
  }
};

export const daysWords = (days: number): string => (days === 1 ? l10n.t("1 day") : l10n.t("{0} days", days));

export const unprovenWords = (count: number): string => l10n.t("{0} unproven", count);

/** The clock of the person who looks. */
export function todayHere(now = new Date()): string {
  const two = (n: number) => String(n).padStart(2, "0");
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

import { l10n } from "vscode";
import type { Failure } from "./instrument";

/** What went wrong with the instrument, and what to do about it. */
export function failureWords(failure: Failure, address: string): string {
  switch (failure.kind) {
    case "unreachable":
      return l10n.t(
        "The meter at {0} cannot be reached ({1}). Check that it is on, its network cable, and the address in the settings.",
        address,
        failure.detail,
      );
    case "silent":
      return l10n.t(
        "The meter at {0} did not answer within {1} s. Nothing was written; check its trigger and that no menu is open on it.",
        address,
        failure.after / 1000,
      );
    case "hung-up":
      return l10n.t(
        "The meter at {0} closed the connection before it answered. Nothing was written; try again.",
        address,
      );
    case "babble":
      return l10n.t(
        "What answers at {0} is no meter: it sent thousands of characters without an end.",
        address,
      );
    case "cancelled":
      return l10n.t("The meter is not waited for any longer.");
  }
}

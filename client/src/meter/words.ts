import { l10n } from "vscode";
import type { Failure } from "./source";

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
      return l10n.t("{0} is not a meter: it sent thousands of characters without an end.", address);
    case "cancelled":
      return l10n.t("Stopped waiting for the meter.");
  }
}

/** What went wrong with the file that readings are appended to, and what to do about it. */
export function fileFailureWords(failure: Failure, path: string): string {
  switch (failure.kind) {
    case "unreachable":
      return l10n.t(
        "Readings cannot be taken from {0} ({1}). Check that the program that writes them runs, and the path in the settings.",
        path,
        failure.detail,
      );
    case "silent":
      return l10n.t(
        "Nothing was appended to {0} within {1} s. Nothing was written; check that the program ends each reading with a line end.",
        path,
        failure.after / 1000,
      );
    case "hung-up":
      return l10n.t("{0} was closed before a reading came. Nothing was written; try again.", path);
    case "babble":
      return l10n.t("{0} holds no readings: thousands of characters came without a line end.", path);
    case "cancelled":
      return l10n.t("Stopped waiting for the meter.");
  }
}

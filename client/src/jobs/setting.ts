import { workspace } from "vscode";

const USUAL = 30;

/** An open job is marked as old from this many days on. */
export function oldAfterDays(): number {
  const days = workspace.getConfiguration("mendlog.jobs").get("oldAfterDays");
  return typeof days === "number" && days >= 0 ? days : USUAL;
}

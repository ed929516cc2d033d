import { load } from "./load";
import type { Loaded } from "./loaded";
import { checkWindow, type Reporter } from "./semantics";
import { shapeFamily } from "./shape-library";
import type { Family } from "./types";

/** Reads a `*.family.yaml`. */
export const loadFamily = (text: string): Loaded<Family> => load("family", text, shapeFamily, check);

function check(report: Reporter): void {
  checkWindow(report, ["supply", 0], ["supply", 1], "The supply");
  checkWindow(report, ["diode", "signal", 0], ["diode", "signal", 1], "The drop of a signal pin");
  checkWindow(report, ["diode", "supply", 0], ["diode", "supply", 1], "The drop of the supply pin");
  checkWindow(report, ["levels", "vil"], ["levels", "vih"], "The gap between `vil` and `vih`");
  checkWindow(report, ["levels", "vol"], ["levels", "voh"], "The gap between `vol` and `voh`");
}

import { nodeAt } from "../syntax/yaml";
import { checkTruthTables } from "./check-truth-tables";
import { load } from "./load";
import type { Loaded } from "./loaded";
import { checkReferences, checkWindow, type Reporter } from "./semantics";
import { shapeDevice } from "./shape-library";
import type { Device } from "./types";

/** Reads a `*.device.yaml`. */
export const loadDevice = (text: string): Loaded<Device> => load("device", text, shapeDevice, check);

function check(report: Reporter, device: Device): void {
  checkReferences("device", report);
  const { name, pins: count } = device.package;
  for (const number of device.pins.keys()) {
    const value = Number(number);
    if (/^\d+$/.test(number) && (value < 1 || value > count)) {
      report.at(
        ["pins", number],
        "no-such-pin",
        `Pin ${number} does not exist on a ${name || "package"} with ${count} pins. Correct the number or the package.`,
        { on: "key" },
      );
    }
  }
  for (const limit of device.limits.keys()) {
    checkWindow(report, ["limits", limit, 0], ["limits", limit, 1], `Limit \`${limit}\``);
  }
  checkTruthTables(report, device);
  const gates = nodeAt(report.tree, ["gates"])?.node;
  const names = new Map<string, number>();
  for (let index = 0; gates?.kind === "list" && index < gates.items.length; index++) {
    const node = nodeAt(report.tree, ["gates", index, "name"])?.node;
    if (node?.kind !== "scalar") continue;
    const first = names.get(node.source);
    if (first === undefined) names.set(node.source, index);
    else {
      const before = report.spanOf(["gates", first, "name"]);
      report.at(
        ["gates", index, "name"],
        "duplicate-gate",
        `Two gates are named \`${node.source}\`. Give each its own name.`,
        before ? { related: [{ span: before, message: "the first of them" }] } : {},
      );
    }
  }
}

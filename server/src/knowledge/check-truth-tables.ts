import { nodeAt } from "../syntax/yaml";
import { type Span, span } from "../text/span";
import type { Reporter } from "./semantics";
import { rowsDiffer } from "./truth-cover";
import { readTruthRow, type TruthRow } from "./truth-row";
import type { Device, PinDirection } from "./types";

const LISTENS: ReadonlySet<PinDirection> = new Set(["input", "bidirectional", "output"]);
const DRIVES: ReadonlySet<PinDirection> = new Set([
  "output",
  "bidirectional",
  "three-state",
  "open-collector",
  "open-emitter",
]);

/**
 * Reports what a device's truth tables get wrong: cells, widths, pins that cannot be what the table makes of them,
 * rows that contradict each other, names used twice.
 */
export function checkTruthTables(report: Reporter, device: Device): void {
  const tables = nodeAt(report.tree, ["truth-tables"])?.node;
  if (tables?.kind !== "list") return;
  const names = new Map<string, number>();
  for (let index = 0; index < tables.items.length; index++) {
    checkName(report, index, names);
    const inputs = checkPins(report, device, index, "inputs", LISTENS);
    const outputs = checkPins(report, device, index, "outputs", DRIVES);
    checkTwice(report, index, inputs, outputs);
    checkRows(report, index, inputs.length, outputs.length);
  }
}

function checkName(report: Reporter, index: number, names: Map<string, number>): void {
  const node = nodeAt(report.tree, ["truth-tables", index, "name"])?.node;
  if (node?.kind !== "scalar") return;
  const first = names.get(node.source);
  if (first === undefined) {
    names.set(node.source, index);
    return;
  }
  const before = report.spanOf(["truth-tables", first, "name"]);
  report.at(
    ["truth-tables", index, "name"],
    "duplicate-table",
    `Two truth tables are named \`${node.source}\`. Give each its own name.`,
    before ? { related: [{ span: before, message: "the first of them" }] } : {},
  );
}

function scalars(report: Reporter, index: number, key: string): string[] {
  const list = nodeAt(report.tree, ["truth-tables", index, key])?.node;
  if (list?.kind !== "list") return [];
  return list.items.map((item) => (item.kind === "scalar" ? item.source : ""));
}

function checkPins(
  report: Reporter,
  device: Device,
  index: number,
  key: "inputs" | "outputs",
  fits: ReadonlySet<PinDirection>,
): string[] {
  const pins = scalars(report, index, key);
  for (const [at, number] of pins.entries()) {
    const pin = device.pins.get(number);
    if (!pin || fits.has(pin.direction)) continue;
    report.at(
      ["truth-tables", index, key, at],
      "pin-direction",
      `Pin ${number} (${pin.name}) is \`${pin.direction}\` and cannot be among the ${key} of a truth table. Correct the number or the pin's direction.`,
    );
  }
  return pins;
}

function checkTwice(
  report: Reporter,
  index: number,
  inputs: readonly string[],
  outputs: readonly string[],
): void {
  const seen = new Set<string>();
  const look = (key: string, pins: readonly string[]): void => {
    for (const [at, pin] of pins.entries()) {
      if (pin === "" || !seen.has(pin)) seen.add(pin);
      else {
        report.at(
          ["truth-tables", index, key, at],
          "pin-twice",
          `Pin ${pin} is twice in this truth table. Each pin has one place; where it is read back, use a table of its own.`,
        );
      }
    }
  };
  look("inputs", inputs);
  look("outputs", outputs);
}

function checkRows(report: Reporter, index: number, inputs: number, outputs: number): void {
  const sound: { row: TruthRow; at: number }[] = [];
  for (const [at, text] of scalars(report, index, "rows").entries()) {
    const path = ["truth-tables", index, "rows", at];
    const read = readTruthRow(text);
    if (!read.ok) {
      const where = within(report, path, text, read.fault.start, read.fault.end);
      if (where) report.problems.push({ code: "truth-row-cell", message: read.fault.message, span: where });
      continue;
    }
    const { row } = read;
    if (row.inputs.length !== inputs || row.outputs.length !== outputs) {
      report.at(
        path,
        "truth-row-width",
        `This row has ${count(row.inputs.length, "input")} and ${count(row.outputs.length, "output")}; the table has ${count(inputs, "input")} and ${count(outputs, "output")}. Write one cell a pin, in their order.`,
      );
      continue;
    }
    const clash = sound.find((before) => rowsDiffer(before.row, row) !== undefined);
    if (clash) {
      const before = report.spanOf(["truth-tables", index, "rows", clash.at]);
      const output = scalars(report, index, "outputs")[rowsDiffer(clash.row, row) ?? 0] ?? "";
      report.at(
        path,
        "truth-rows-differ",
        `This row and \`${clash.row.text}\` hold for the same inputs and give pin ${output} differently. Narrow one of them, or correct the output.`,
        before ? { related: [{ span: before, message: "the other row" }] } : {},
      );
    }
    sound.push({ row, at });
  }
}

const count = (n: number, word: string): string => `${n} ${word}${n === 1 ? "" : "s"}`;

/** The characters of a fault in a row, where the text stands in the file as it is read; else the whole row. */
function within(
  report: Reporter,
  path: readonly (string | number)[],
  text: string,
  start: number,
  end: number,
): Span | undefined {
  const whole = report.spanOf(path);
  if (!whole) return undefined;
  const { baseOffset } = report.tree;
  const inFile = report.tree.text.slice(whole.start - baseOffset, whole.end - baseOffset);
  const at = inFile.indexOf(text);
  return at < 0 || start === end ? whole : span(whole.start + at + start, whole.start + at + end);
}

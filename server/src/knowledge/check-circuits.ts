// What a board file says of its supply, reset, memory back-up, coil and clock circuits, held against itself.
import { nodeAt, type YamlPath } from "../syntax/yaml";
import { quantityOf } from "./quantity-rule";
import type { Reporter } from "./semantics";
import type { Board, Rail } from "./types";

export function checkCircuits(report: Reporter, board: Board): void {
  for (const rail of board.rails.values()) supply(report, board, rail);
  resets(report, board);
  backups(report, board);
  coils(report, board);
  clocks(report, board);
}

const amount = (text: string | undefined): number | undefined =>
  text === undefined ? undefined : quantityOf(text)?.value;

/** Reports a quantity that is zero or below where only one above zero makes sense. */
function aboveZero(report: Reporter, path: YamlPath, text: string | undefined, what: string): void {
  const value = amount(text);
  if (value === undefined || value > 0) return;
  report.at(path, "not-above-zero", `\`${text}\` is not above zero. ${what}`);
}

function supply(report: Reporter, { rails }: Board, rail: Rail): void {
  const at = (key: string): YamlPath => ["rails", rail.name, key];
  aboveZero(report, at("mains"), rail.mains, "Write the frequency of the mains, like `50 Hz`.");
  aboveZero(
    report,
    at("dropout"),
    rail.dropout,
    "A regulator's dropout is what it needs across it, like `2 V`.",
  );
  const load = amount(rail.load);
  if (load !== undefined && load < 0)
    report.at(
      at("load"),
      "negative-load",
      `\`${rail.load}\` is below zero. Write the current without its sign.`,
    );
  if (amount(rail.tolerance) === 0)
    report.at(
      at("tolerance"),
      "zero-tolerance",
      `A tolerance of \`${rail.tolerance}\` lets no reading of rail \`${rail.name}\` be right. Write how far it may be off.`,
    );
  if (rail.regulator !== undefined && rail.reservoir !== undefined)
    report.at(
      at("reservoir"),
      "reservoir-behind-regulator",
      `Rail \`${rail.name}\` has a regulator, so its ripple is not that of \`${rail.reservoir}\`. Put \`reservoir\` on the rail before the regulator and name that rail as \`input\`.`,
    );
  if (rail.dropout !== undefined && rail.input === undefined)
    report.at(
      at("dropout"),
      "dropout-without-input",
      `\`dropout\` needs \`input\`, the rail before the regulator: without it there is nothing to hold it against.`,
    );
  input(report, rails, rail, at("input"));
}

function input(report: Reporter, rails: Board["rails"], rail: Rail, path: YamlPath): void {
  if (rail.input === undefined) return;
  if (feedsItself(rails, rail)) {
    report.at(
      path,
      "rail-feeds-itself",
      `Rail \`${rail.name}\` feeds itself through \`input\`. Name the rail before it.`,
    );
    return;
  }
  const from = rails.get(rail.input);
  const high = amount(from?.nominal);
  const low = amount(rail.nominal);
  if (!from || !high || !low) return;
  const needs = Math.max(0, amount(rail.dropout) ?? 0);
  if (Math.sign(high) !== Math.sign(low)) {
    report.at(
      path,
      "input-of-other-sign",
      `Rail \`${rail.name}\` of \`${rail.nominal}\` cannot come from \`${from.name}\` of \`${from.nominal}\`: a linear regulator keeps the sign.`,
    );
  } else if (Math.abs(high) <= Math.abs(low) || Math.abs(high) < Math.abs(low) + needs) {
    const dropout = needs === 0 ? "" : ` and the dropout of \`${rail.dropout}\``;
    report.at(
      path,
      "input-too-low",
      `Rail \`${from.name}\` of \`${from.nominal}\` is too low for \`${rail.name}\` of \`${rail.nominal}\`${dropout}. Correct one of them.`,
    );
  }
}

function feedsItself(rails: Board["rails"], rail: Rail): boolean {
  const seen = new Set<string>();
  for (let at: Rail | undefined = rail; at?.input !== undefined; at = rails.get(at.input)) {
    if (at.input === rail.name) return true;
    if (seen.has(at.name)) return false;
    seen.add(at.name);
  }
  return false;
}

function resets(report: Reporter, { resets, rails }: Board): void {
  for (const { index, threshold, rail } of resets) {
    const volts = amount(threshold);
    const full = amount(rails.get(rail)?.nominal);
    if (volts === undefined || full === undefined) continue;
    // The capacitor goes from nothing towards the rail: what lies outside it is never crossed.
    if (volts > Math.min(0, full) && volts < Math.max(0, full) && volts !== 0) continue;
    report.at(
      ["resets", index, "threshold"],
      "threshold-outside-rail",
      `A capacitor that charges from 0 V to \`${rail}\` never crosses \`${threshold}\`. The threshold must be between the two.`,
    );
  }
}

function backups(report: Reporter, { backups, rails }: Board): void {
  for (const { index, rail, from, drop, minimum, current } of backups) {
    const at = (key: string): YamlPath => ["backups", index, key];
    aboveZero(report, at("minimum"), minimum, "Write the lowest voltage that keeps the memory, like `2 V`.");
    aboveZero(
      report,
      at("current"),
      current,
      "Write what the memory draws while the power is off, like `10 uA`.",
    );
    const lost = amount(drop) ?? 0;
    if (lost < 0)
      report.at(at("drop"), "negative-drop", `\`${drop}\` is below zero. Write the drop without its sign.`);
    if (from !== undefined && from === rail)
      report.at(
        at("from"),
        "rail-feeds-itself",
        `Rail \`${rail}\` cannot charge what keeps it alive. Name the rail before the diode.`,
      );
    const least = amount(minimum);
    const full = amount(rails.get(rail)?.nominal);
    if (least !== undefined && full !== undefined && least >= full)
      report.at(
        at("minimum"),
        "minimum-above-nominal",
        `A minimum of \`${minimum}\` is not below rail \`${rail}\` of \`${rails.get(rail)?.nominal}\`: nothing would be left to live on.`,
      );
    const source = amount(rails.get(from ?? "")?.nominal);
    if (source !== undefined && lost > 0 && lost >= source)
      report.at(at("drop"), "drop-above-rail", `A drop of \`${drop}\` leaves nothing of rail \`${from}\`.`);
  }
}

function coils(report: Reporter, { coils, rails }: Board): void {
  for (const { index, limit, resistance, tolerance, supply } of coils) {
    const at = (key: string): YamlPath => ["coils", index, key];
    aboveZero(report, at("limit"), limit, "Write what the driver carries, like `8 A`.");
    aboveZero(report, at("resistance"), resistance, "Write what the winding reads, like `22 ohm`.");
    toleranceOf(report, at("tolerance"), tolerance);
    const volts = amount(rails.get(supply)?.nominal);
    const ohms = amount(resistance);
    const most = amount(limit);
    if (volts === undefined || !ohms || ohms < 0 || !most || most < 0 || Math.abs(volts) / ohms <= most)
      continue;
    report.at(
      at("limit"),
      "coil-above-limit",
      `A coil of \`${resistance}\` on \`${supply}\` draws ${Number((Math.abs(volts) / ohms).toPrecision(3))} A, more than the driver's \`${limit}\`. Correct one of them.`,
    );
  }
}

function clocks(report: Reporter, { clocks }: Board): void {
  const seen = new Map<string, number>();
  for (const { index, ref, pin, nominal, tolerance } of clocks) {
    aboveZero(
      report,
      ["clocks", index, "nominal"],
      nominal,
      "Write the frequency it should have, like `1 MHz`.",
    );
    toleranceOf(report, ["clocks", index, "tolerance"], tolerance);
    const first = seen.get(`${ref}.${pin}`);
    if (first === undefined) {
      seen.set(`${ref}.${pin}`, index);
      continue;
    }
    const span = report.spanOf(["clocks", first, "pin"]);
    report.at(
      ["clocks", index, "pin"],
      "clock-twice",
      `${ref} pin ${pin} has two clocks. Keep one of them.`,
      span ? { related: [{ span, message: "the first of them" }] } : {},
    );
  }
}

function toleranceOf(report: Reporter, path: YamlPath, text: string | undefined): void {
  const off = amount(text);
  if (off === undefined || !nodeAt(report.tree, path)) return;
  if (off <= 0)
    report.at(
      path,
      "zero-tolerance",
      `A tolerance of \`${text}\` lets no reading be right. Write how far it may be off, without a sign.`,
    );
  else if (off >= 1)
    report.at(path, "tolerance-too-wide", `A tolerance of \`${text}\` lets any reading be right.`);
}

// Long, because a board file is the one with the most that must agree with itself; each part of it is a short function.
import { nodeAt, type YamlPath } from "../syntax/yaml";
import { checkCircuits } from "./check-circuits";
import { checkMemory } from "./check-memory";
import { checkSymptoms } from "./check-symptoms";
import { quantityOf } from "./quantity-rule";
import { checkReferences, checkWindow, type Reporter } from "./semantics";
import { bothWays, windowAround } from "./tolerance";
import type { Board, Device } from "./types";

/** What a board file can say that its schema allows and that still cannot be. */
export function checkBoard(
  report: Reporter,
  board: Board,
  deviceOf: ((part: string) => Device | undefined) | undefined,
): void {
  checkReferences("board", report);
  era(report, board);
  rails(report, board);
  nets(report);
  if (deviceOf) pins(report, board, deviceOf);
  matrices(report);
  checkMemory(report, board);
  switchBanks(report, board);
  expected(report, board);
  proving(report, board);
  modifications(report, board);
  checkCircuits(report, board);
  checkSymptoms(report, board);
}

function era(report: Reporter, { era }: Board): void {
  if (!era || era.from <= era.to) return;
  report.at(
    ["era", "from"],
    "era-reversed",
    `\`era\` runs from ${era.from} to ${era.to}, which is backwards. Swap the years.`,
  );
}

function rails(report: Reporter, { rails }: Board): void {
  for (const { name, nominal, tolerance, ripple } of rails.values()) {
    const volts = quantityOf(nominal)?.value;
    const off = quantityOf(tolerance);
    const apart = bothWays(tolerance);
    const window = apart && volts !== undefined ? windowAround(volts, apart) : undefined;
    if (volts === 0) {
      report.at(
        ["rails", name, "nominal"],
        "rail-at-zero",
        `Rail \`${name}\` has a nominal voltage of zero. Write what it should read.`,
      );
    }
    if (off && off.value < 0) {
      report.at(
        ["rails", name, "tolerance"],
        "negative-tolerance",
        `\`${tolerance}\` is below zero. A tolerance is how far the rail may be off either way: write it without the sign.`,
      );
    } else if (
      (window && window[0] <= 0 && window[1] >= 0) ||
      (off && volts && (off.dimension === "ratio" ? off.value >= 1 : off.value >= Math.abs(volts)))
    ) {
      report.at(
        ["rails", name, "tolerance"],
        "tolerance-too-wide",
        `A tolerance of \`${tolerance}\` lets rail \`${name}\` of \`${nominal}\` be off altogether. Write what it may really be off.`,
      );
    }
    if (ripple !== undefined && (quantityOf(ripple)?.value ?? 0) < 0) {
      report.at(
        ["rails", name, "ripple"],
        "negative-ripple",
        `\`${ripple}\` is below zero; a ripple limit is not.`,
      );
    }
  }
}

/** Scalars of the list or mapping at `path`, with their own paths. */
function* scalars(report: Reporter, path: YamlPath): Generator<{ path: YamlPath; text: string }> {
  const node = nodeAt(report.tree, path)?.node;
  if (node?.kind !== "list") return;
  for (const [index, item] of node.items.entries()) {
    if (item.kind === "scalar") yield { path: [...path, index], text: item.source };
  }
}

const keysAt = (report: Reporter, path: YamlPath): string[] => {
  const node = nodeAt(report.tree, path)?.node;
  return node?.kind === "map" ? [...node.byKey.keys()] : [];
};

function nets(report: Reporter): void {
  const seen = new Map<string, { net: string; path: YamlPath }>();
  for (const net of keysAt(report, ["nets"])) {
    for (const { path, text } of scalars(report, ["nets", net])) {
      const first = seen.get(text);
      if (!first) {
        seen.set(text, { net, path });
        continue;
      }
      const span = report.spanOf(first.path);
      const twice = first.net === net;
      report.at(
        path,
        twice ? "pin-listed-twice" : "pin-on-two-nets",
        twice
          ? `\`${text}\` is twice on net \`${net}\`. Remove one.`
          : `\`${text}\` is on net \`${net}\` and on net \`${first.net}\`; a pin is on one net only. If both are joined on the board they are one net.`,
        span ? { related: [{ span, message: `\`${text}\` is on net \`${first.net}\` here` }] } : {},
      );
    }
  }
}

function pins(report: Reporter, board: Board, deviceOf: (part: string) => Device | undefined): void {
  const known = new Map<string, Device | undefined>();
  const deviceAt = (ref: string): Device | undefined => {
    if (!known.has(ref)) {
      const typed = board.parts.get(ref)?.device;
      known.set(ref, typed === undefined ? undefined : deviceOf(typed));
    }
    return known.get(ref);
  };
  const check = (path: YamlPath, ref: string, pin: string): void => {
    const device = deviceAt(ref);
    if (!device || device.pins.has(pin)) return;
    // A library entry may leave out pins that are not connected; their numbers are still on the package.
    if (/^\d+$/.test(pin) && Number(pin) >= 1 && Number(pin) <= device.package.pins) return;
    report.at(
      path,
      "no-such-pin",
      `${ref} is a ${board.parts.get(ref)?.device} (${device.title}, ${device.package.name}): it has no pin ${pin}, only 1 to ${device.package.pins}.`,
    );
  };
  for (const net of keysAt(report, ["nets"])) {
    for (const { path, text } of scalars(report, ["nets", net])) {
      const dot = text.indexOf(".");
      if (dot > 0) check(path, text.slice(0, dot), text.slice(dot + 1));
    }
  }
  for (const { ref, pin, index } of board.expected) {
    if (ref !== undefined && pin !== undefined) check(["expected", index, "pin"], ref, pin);
  }
  for (const { ref, pin, index } of board.resets) check(["resets", index, "pin"], ref, pin);
  for (const { ref, pin, index } of board.clocks) check(["clocks", index, "pin"], ref, pin);
}

function matrices(report: Reporter): void {
  for (const id of keysAt(report, ["matrices"])) {
    const at = (...rest: (string | number)[]): YamlPath => ["matrices", id, ...rest];
    const size = (path: YamlPath): number | undefined => {
      const node = nodeAt(report.tree, path)?.node;
      return node?.kind === "list" ? node.items.length : undefined;
    };
    const rows = size(at("rows"));
    const columns = size(at("columns"));
    if (rows === undefined || columns === undefined) continue;
    const listed = size(at("cells"));
    if (listed !== undefined && listed !== rows) {
      report.at(
        at("cells"),
        "wrong-grid",
        `\`cells\` has ${listed} rows, but the matrix has ${rows}. Write one list for each row.`,
        { on: "key" },
      );
    }
    for (let row = 0; row < (listed ?? 0); row++) {
      const wide = size(at("cells", row));
      if (wide === undefined || wide === columns) continue;
      report.at(
        at("cells", row),
        "wrong-grid",
        `Row ${row + 1} of \`cells\` has ${wide} names, but the matrix has ${columns} columns. Write \`~\` where there is nothing.`,
      );
    }
    for (let index = 0; index < (size(at("reserved")) ?? 0); index++) {
      const [row, column] = [...scalars(report, at("reserved", index))].map((cell) => Number(cell.text));
      if (row === undefined || column === undefined || !(row > rows || column > columns)) continue;
      report.at(
        at("reserved", index),
        "cell-outside",
        `Reserved cell [${row}, ${column}] is outside the matrix, which has ${rows} rows and ${columns} columns.`,
      );
    }
    for (const side of ["rows", "columns"]) {
      const seen = new Set<string>();
      for (const { path, text } of scalars(report, at(side))) {
        if (seen.has(text))
          report.at(
            path,
            "line-twice",
            `Net \`${text}\` is twice in \`${side}\`. Each line of a matrix is its own net.`,
          );
        seen.add(text);
      }
    }
  }
}

function switchBanks(report: Reporter, { switchBanks }: Board): void {
  for (const ref of switchBanks.keys()) {
    const settings = nodeAt(report.tree, ["switch-banks", ref, "settings"])?.node;
    for (let index = 0; settings?.kind === "list" && index < settings.items.length; index++) {
      const path = ["switch-banks", ref, "settings", index];
      const switches = nodeAt(report.tree, [...path, "switches"])?.node;
      if (switches?.kind !== "list") continue;
      for (const pattern of keysAt(report, [...path, "meaning"])) {
        if (pattern.length === switches.items.length || !/^[01]+$/.test(pattern)) continue;
        report.at(
          [...path, "meaning", pattern],
          "wrong-pattern",
          `Pattern \`${pattern}\` has ${pattern.length} digits, but the setting has ${switches.items.length} switches. Write one digit a switch, in quotes.`,
          { on: "key" },
        );
      }
    }
  }
}

function expected(report: Reporter, board: Board): void {
  for (const { index, ref, pin, rail } of board.expected) {
    checkWindow(report, ["expected", index, "low"], ["expected", index, "high"], "The expected reading");
    if (ref !== undefined && rail !== undefined) {
      report.at(
        ["expected", index, "rail"],
        "two-places",
        "This expected reading names both a part and a rail. Keep the one that is measured.",
      );
    }
    if (pin !== undefined && ref === undefined) {
      report.at(
        ["expected", index, "pin"],
        "pin-without-part",
        `Pin ${pin} of what? Add the part as \`ref\`.`,
      );
    }
  }
}

function proving(report: Reporter, { proving }: Board): void {
  const node = nodeAt(report.tree, ["proving"])?.node;
  if (node?.kind !== "list" || proving.length < 2) return;
  const seen = new Map<string, YamlPath>();
  for (const index of node.items.keys()) {
    const path = ["proving", index, "id"];
    const id = nodeAt(report.tree, path)?.node;
    if (id?.kind !== "scalar") continue;
    const first = seen.get(id.source);
    if (!first) seen.set(id.source, path);
    else {
      const span = report.spanOf(first);
      report.at(
        path,
        "duplicate-id",
        `Two proving items have the id \`${id.source}\`. Give each its own.`,
        span ? { related: [{ span, message: "the first of them" }] } : {},
      );
    }
  }
}

function modifications(report: Reporter, { modifications }: Board): void {
  for (const { id, requires, conflicts } of modifications.values()) {
    const both = conflicts.findIndex((other) => requires.includes(other));
    if (both >= 0) {
      report.at(
        ["modifications", id, "conflicts", both],
        "requires-and-conflicts",
        `Modification \`${id}\` both requires \`${conflicts[both]}\` and conflicts with it. Keep one of the two.`,
      );
    }
    for (const side of ["requires", "conflicts"] as const) {
      const own = (side === "requires" ? requires : conflicts).indexOf(id);
      if (own < 0) continue;
      report.at(
        ["modifications", id, side, own],
        "refers-to-itself",
        `Modification \`${id}\` names itself in \`${side}\`. Remove it.`,
      );
    }
  }
}

import { findRail } from "../../analysis/judge/rail-name";
import { KIND_OF, matrixOfTable } from "../../analysis/matrix/from-log";
import { partPlace, pinPlace, resolvePin } from "../../analysis/place";
import type { ColumnRole, DeviceKind, Part } from "../../knowledge/types";
import type { CellPosition, HeaderPosition } from "../../log/position";
import { refText } from "../../log/read-table";
import { byRef, md, partLine, pinLine, pinsInOrder } from "../describe";
import type { Completion } from "../types";
import type { LogView } from "../view";
import { partsThatFit } from "./parts";
import { settingMeanings, switchStates } from "./settings";
import { today } from "./today";
import { measuredValues } from "./values";

type At = CellPosition | HeaderPosition;
type Provider = (view: LogView, at: CellPosition) => readonly Completion[];

/** What completes a cell, by what the cell holds. */
const PROVIDERS: { readonly [role in ColumnRole]?: Provider } = {
  ref: (view, at) => refs(view, at),
  pin: pins,
  rail: rails,
  signal: signals,
  reading: measuredValues,
  state: (view, at) =>
    at.table.procedure.id === "settings" ? switchStates(view, at) : measuredValues(view, at),
  result: measuredValues,
  action: actions,
  date: (_, at) => [today(at.edit)],
  part: partsThatFit,
  item: provingItems,
  row: matrixLines,
  column: matrixLines,
  cell: matrixCells,
  setting: settingMeanings,
};

export function completeCell(view: LogView, at: CellPosition): readonly Completion[] {
  return (at.role && PROVIDERS[at.role]?.(view, at)) ?? [];
}

/** Over a wide table's column stands what its cells are about, mostly a designator. */
export function completeHeaderCell(view: LogView, at: HeaderPosition): readonly Completion[] {
  return at.role === "ref" ? refs(view, at) : [];
}

function refs(view: LogView, at: At): readonly Completion[] {
  const board = view.ctx.board?.value;
  if (!board) return [];
  const rank = (part: Part) => (isMeasuredBy(part, at.table.procedure.id, view) ? 0 : 1);
  const above = at.kind === "cell" ? at.table.rows[at.row - 1]?.cells.ref?.text.toUpperCase() : undefined;
  return [...board.parts.values()]
    .sort((a, b) => rank(a) - rank(b) || byRef(a.ref, b.ref))
    .map((part) => ({
      label: part.ref,
      kind: "part",
      description: partLine(part, board, view.ctx),
      documentation: [
        md(partLine(part, board, view.ctx)),
        ...(part.location === undefined ? [] : [`Place on the board: ${md(part.location)}`]),
        ...(part.note === undefined ? [] : [md(part.note)]),
      ].join("\n\n"),
      span: at.edit,
      newText: part.ref,
      ...(part.ref.toUpperCase() === above ? { preselect: true } : {}),
    }));
}

/** Kinds of device that a procedure is mostly about. */
const DEVICES: Readonly<Record<string, readonly DeviceKind[]>> = {
  "diode-check": ["logic", "memory", "processor", "interface", "analog"],
  "logic-levels": ["logic", "memory", "processor", "interface", "analog"],
  "logic-states": ["logic", "memory", "processor", "interface", "analog"],
  "transistor-junctions": ["transistor"],
  "memory-test": ["memory"],
  "rom-check": ["memory"],
};

const CHIP = /^(?:U|IC)\d/i;

/** Letters of the designators that a procedure is mostly about. */
const LETTERS: Readonly<Record<string, RegExp>> = {
  "diode-check": CHIP,
  "logic-levels": CHIP,
  "logic-states": CHIP,
  "capacitance-esr": /^C\d/i,
  resistance: /^RN?\d/i,
  settings: /^SW\d/i,
};

/** True for the parts that come first in a table of this procedure; the others are offered behind them. */
function isMeasuredBy(part: Part, procedure: string, view: LogView): boolean {
  const device = part.device === undefined ? undefined : view.ctx.library.device(part.device)?.device;
  return (
    (device !== undefined && DEVICES[procedure]?.includes(device.kind)) ||
    LETTERS[procedure]?.test(part.ref) === true
  );
}

function pins(view: LogView, at: CellPosition): readonly Completion[] {
  const ref = at.table.rows[at.row]?.cells.ref?.text ?? at.table.section.ref?.text;
  const header = at.table.shape === "wide" ? at.table.columns[1]?.header : undefined;
  const wide = header && refText(header).text;
  const named = ref ?? wide;
  if (named === undefined) return [];
  const board = view.ctx.board?.value;
  const part = partPlace(named, board, view.ctx.library);
  if (!part.device) return [];
  const taken = new Set(
    at.table.rows
      .filter((row) => row.index !== at.row && (wide !== undefined || row.cells.ref?.text === ref))
      .flatMap(
        (row) => (row.cells.pin && part.device && resolvePin(part.device, row.cells.pin.text)?.number) ?? [],
      ),
  );
  const rank = (number: string) => (taken.has(number) ? 1 : 0);
  return pinsInOrder(part.device)
    .sort((a, b) => rank(a.number) - rank(b.number))
    .map((pin) => {
      const place = pinPlace(part, pin.number, board);
      const line = pinLine(place);
      return {
        label: pin.number,
        kind: "pin",
        description: taken.has(pin.number) ? `${line} · already in this table` : line,
        ...(pin.note === undefined ? {} : { documentation: md(pin.note) }),
        span: at.edit,
        newText: pin.number,
        filterText: `${pin.number} ${pin.name}`,
      };
    });
}

function rails(view: LogView, at: CellPosition): readonly Completion[] {
  const board = view.ctx.board?.value;
  if (!board) return [];
  const taken = new Set(
    at.table.rows.flatMap((row) =>
      row.index === at.row || !row.cells.rail ? [] : (findRail(board, row.cells.rail.text)?.name ?? []),
    ),
  );
  return [...board.rails.values()]
    .filter((rail) => !taken.has(rail.name))
    .map((rail) => ({
      label: rail.name,
      kind: "value",
      description: [`${rail.nominal} ± ${rail.tolerance}`, rail.testPoint].filter(Boolean).join(" · "),
      span: at.edit,
      newText: rail.name,
    }));
}

function signals(view: LogView, at: CellPosition): readonly Completion[] {
  return [...(view.ctx.board?.value.nets.values() ?? [])].map((net) => ({
    label: net.name,
    kind: "value",
    description: net.pins.map((pin) => `${pin.ref}.${pin.pin}`).join(" "),
    span: at.edit,
    newText: net.name,
  }));
}

const ACTIONS: readonly (readonly [string, string])[] = [
  ["replace", "take the part out and fit another, with a socket where it is a chip"],
  ["socket", "fit a socket and put the same part back"],
  ["reflow", "melt the joint again with fresh solder"],
  ["clean", "clean contacts, leakage or flux"],
  ["jumper", "bridge a track with wire"],
  ["cut", "cut a track"],
  ["remove", "take the part out and leave its place empty"],
  ["fit modification", "carry out one of the board's modifications"],
  ["reprogram", "write a memory chip again"],
];

function actions(_view: LogView, at: CellPosition): readonly Completion[] {
  return ACTIONS.map(([label, description]) => ({
    label,
    kind: "keyword",
    description,
    span: at.edit,
    newText: label,
  }));
}

function provingItems(view: LogView, at: CellPosition): readonly Completion[] {
  if (at.table.procedure.id !== "proving") return [];
  return (view.ctx.board?.value.proving ?? []).map((item) => ({
    label: item.title,
    kind: "value",
    description: view.ctx.library.procedures.find((p) => p.id === item.procedure)?.title ?? item.procedure,
    span: at.edit,
    newText: item.title,
  }));
}

/** The table's own matrix; where the heading leaves it open, all of the kind. */
function matrixOf(view: LogView, at: CellPosition) {
  const board = view.ctx.board?.value;
  const own = board && matrixOfTable(at.table, board);
  if (own) return [own];
  const kind = KIND_OF[at.table.procedure.id];
  return [...(board?.matrices.values() ?? [])].filter((matrix) => matrix.kind === kind);
}

function matrixLines(view: LogView, at: CellPosition): readonly Completion[] {
  return matrixOf(view, at).flatMap((matrix) =>
    (at.role === "row" ? matrix.rows : matrix.columns).map((net, index) => ({
      label: String(index + 1),
      kind: "value" as const,
      description: net,
      span: at.edit,
      newText: String(index + 1),
      filterText: `${index + 1} ${net}`,
    })),
  );
}

function matrixCells(view: LogView, at: CellPosition): readonly Completion[] {
  return matrixOf(view, at).flatMap((matrix) =>
    matrix.cells.flatMap((row, r) =>
      row.flatMap((name, c) =>
        name === null || name === ""
          ? []
          : [
              {
                label: name,
                kind: "value" as const,
                description: `row ${r + 1}, column ${c + 1}`,
                span: at.edit,
                newText: name,
              },
            ],
      ),
    ),
  );
}

import { hasBoardFile } from "../../judge/context";
import { findRail } from "../../judge/rail-name";
import { partTestPoint, resolvePin } from "../../judge/test-point";
import { railText } from "../../knowledge/tolerance";
import type { ColumnRole } from "../../knowledge/types";
import type { CellPosition, HeaderPosition } from "../../log/position";
import { matrixOfTable } from "../../review/matrix/from-log";
import { measuredValues } from "../shared/cell-values";
import { isNameless } from "../shared/describe";
import { refIn } from "../shared/part-name";
import type { Completion } from "../types";
import type { LogView } from "../view";
import { circuits, packages, partValues } from "./board-list";
import { connectionEnds } from "./ends";
import { namedIn } from "./named";
import { numbers } from "./parts";
import { pinCompletions, refs } from "./refs";
import { settingMeanings, switchStates } from "./settings";
import { today } from "./today";

type Provider = (view: LogView, at: CellPosition) => readonly Completion[];

/** What completes a cell, by what the cell holds. */
const PROVIDERS: { readonly [role in ColumnRole]?: Provider } = {
  ref: refs,
  pin: pins,
  rail: rails,
  signal: signals,
  reading: measuredValues,
  state: (view, at) =>
    at.table.kind.holds === "settings" ? switchStates(view, at) : measuredValues(view, at),
  result: measuredValues,
  action: actions,
  date: (_, at) => [today(at.edit)],
  part: numbers,
  package: packages,
  circuit: circuits,
  value: partValues,
  from: connectionEnds,
  to: connectionEnds,
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

/** "U5-" as far as it is typed in a column of pins that name their chip. */
const WITH_REF = /^((?:[A-Za-z]{1,4}\d{1,4}[A-Za-z]?|\d{1,2}[A-Za-z]\d?)\s*[-.:]\s*)\w*$/;

function pins(view: LogView, at: CellPosition): readonly Completion[] {
  const { library } = view.ctx;
  const before = WITH_REF.exec(at.cell.text.trim())?.[1];
  const ref = at.table.rows[at.row]?.cells.ref?.text ?? at.table.section.ref?.text;
  const header = at.table.shape === "wide" ? at.table.columns[1]?.header : undefined;
  const wide = header && refIn(header, library).text;
  const named = before?.replace(/\s*[-.:]\s*$/, "") ?? ref ?? wide;
  if (named === undefined) return [];
  const device = partTestPoint(named, view.ctx.board?.value, library).device;
  const taken = new Set(
    at.table.rows
      .filter((row) => row.index !== at.row && (wide !== undefined || row.cells.ref?.text === named))
      .flatMap((row) => (row.cells.pin && device && resolvePin(device, row.cells.pin.text)?.number) ?? []),
  );
  return pinCompletions(view, named, at.edit, before, taken);
}

/** Rails that nearly every board of these years has some of: common practice, no source. */
const USUAL_RAILS: readonly string[] = ["+5V", "+12V", "-12V", "-5V"];

function rails(view: LogView, at: CellPosition): readonly Completion[] {
  const board = view.ctx.board?.value;
  const nameOf = (typed: string): string => (board && findRail(board, typed)?.name) ?? typed;
  const taken = new Set(
    at.table.rows.flatMap((row) =>
      row.index === at.row || !row.cells.rail ? [] : nameOf(row.cells.rail.text),
    ),
  );
  const known = [...(board?.rails.values() ?? [])].map((rail) => ({
    name: rail.name,
    description: [railText(rail), rail.testPoint].filter(Boolean).join(" · "),
  }));
  const named = namedIn(view, ["rail"], at).map((name) => ({
    name: nameOf(name),
    description: "named in this log",
  }));
  const usual = hasBoardFile(view.ctx)
    ? []
    : USUAL_RAILS.map((name) => ({ name: nameOf(name), description: "usual, if this board has it" }));
  const seen = new Set(taken);
  return [...known, ...named, ...usual].flatMap(({ name, description }): Completion[] => {
    if (seen.has(name)) return [];
    seen.add(name);
    return [{ label: name, kind: "value", description, span: at.edit, newText: name }];
  });
}

function signals(view: LogView, at: CellPosition): readonly Completion[] {
  const nets = [...(view.ctx.board?.value.nets.values() ?? [])].filter((net) => !isNameless(net));
  const known = nets.map((net) => ({
    name: net.name,
    description: net.pins.map((pin) => `${pin.ref}.${pin.pin}`).join(" "),
  }));
  const names = new Set(known.map(({ name }) => name));
  const named = namedIn(view, ["signal"], at)
    .filter((name) => !names.has(name))
    .map((name) => ({ name, description: "named in this log" }));
  return [...known, ...named].map(({ name, description }) => ({
    label: name,
    kind: "value",
    description,
    span: at.edit,
    newText: name,
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
  return (at.table.kind.actions ?? ACTIONS).map(([label, description]) => ({
    label,
    kind: "keyword",
    description,
    span: at.edit,
    newText: label,
  }));
}

function provingItems(view: LogView, at: CellPosition): readonly Completion[] {
  if (at.table.kind.holds !== "proving") return [];
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
  return [...(board?.matrices.values() ?? [])].filter((matrix) => matrix.kind === at.table.kind.matrix);
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

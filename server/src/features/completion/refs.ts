// Designators, and pins behind them.
import { defined } from "../../base/defined";
import { partAt } from "../../judge/board-parts";
import { hasBoardFile } from "../../judge/context";
import { partTestPoint, pinTestPoint } from "../../judge/test-point";
import type { DevicePin, Part } from "../../knowledge/types";
import type { TableKind } from "../../log/kinds";
import type { CellPosition, HeaderPosition } from "../../log/position";
import { joined, markdown, md } from "../../text/markdown";
import { byRef, partLine, pinLine, pinsInOrder } from "../shared/describe";
import { designatorsNamed } from "../shared/mentions";
import { isDesignator } from "../shared/part-name";
import { curesOnSuchBoards } from "../shared/shop-jobs";
import type { Completion } from "../types";
import type { LogView } from "../view";
import { devicesFor, withMore } from "./devices";

type At = CellPosition | HeaderPosition;

/** Parts that the board is known to have, then those that the log has only named, then what a new one may be. */
export function refs(view: LogView, at: At): readonly Completion[] {
  const known = knownRefs(view, at);
  const only = namedOnly(view, at);
  const unsaid = at.table.kind.holds === "parts";
  return [...(unsaid ? [...only, ...known] : [...known, ...only]), ...asDevices(view, at)];
}

function knownRefs(view: LogView, at: At): Completion[] {
  const board = view.ctx.board?.value;
  if (!board) return [];
  const rank = (part: Part) => (isMeasuredBy(part, at.table.kind, view) ? 0 : 1);
  const cured = WORKED_AT.has(at.table.kind.holds) ? curesByRef(view) : new Map<string, Cured>();
  const often = ({ ref }: Part): number => cured.get(ref.toUpperCase())?.jobs ?? 0;
  const above = at.kind === "cell" ? at.table.rows[at.row - 1]?.cells.ref?.text.toUpperCase() : undefined;
  return [...board.parts.values()]
    .sort((a, b) => often(b) - often(a) || rank(a) - rank(b) || byRef(a.ref, b.ref))
    .map((part) =>
      defined({
        label: part.ref,
        kind: "part",
        description: [partLine(part, board, view.ctx), cured.get(part.ref.toUpperCase())?.says]
          .filter(Boolean)
          .join(" · "),
        documentation: joined(
          [
            md(partLine(part, board, view.ctx)),
            ...(part.location === undefined ? [] : [markdown`Place on the board: ${md(part.location)}`]),
            ...(part.note === undefined ? [] : [md(part.note)]),
          ],
          "\n\n",
        ),
        span: at.edit,
        newText: part.ref,
        preselect: part.ref.toUpperCase() === above ? true : undefined,
      }),
    );
}

/** Tables whose parts are those that hands were on: what cured the log's symptoms before comes first in them. */
const WORKED_AT: ReadonlySet<TableKind["holds"]> = new Set(["work", "fitted", "swaps"]);

interface Cured {
  readonly jobs: number;
  /** "replaced in 3 of 4 jobs with row-dead". */
  readonly says: string;
}

/** By designator in capitals; of several symptoms the one that was cured there most often. */
function curesByRef(view: LogView): Map<string, Cured> {
  const all = new Map<string, Cured>();
  for (const symptom of new Set(view.front.symptoms ?? []))
    for (const { ref, cured, jobs } of curesOnSuchBoards(view, symptom))
      if (cured > (all.get(ref)?.jobs ?? 0))
        all.set(ref, {
          jobs: cured,
          says: `replaced in ${cured} of ${jobs} ${jobs === 1 ? "job" : "jobs"} with ${symptom}`,
        });
  return all;
}

/** Designators that other rows name, of which nobody has said what they are. */
export function namedOnly(view: LogView, { edit }: Pick<At, "edit">): Completion[] {
  return designatorsNamed(view.doc, edit)
    .filter((ref) => !partAt(ref, view.ctx))
    .sort(byRef)
    .map((ref) => ({
      label: ref,
      kind: "part",
      description: "named in this log, its number not said yet",
      span: edit,
      newText: ref,
    }));
}

const BEGUN = /^([A-Za-z]{1,4}\d{1,4}[A-Za-z]?|\d{1,2}[A-Za-z]\d?)(?:\s*\(?\s*([\w.-]*)\)?)$/;

/** "U3 (7404)", where nobody has said what U3 is and the table has no column for it. */
function asDevices(view: LogView, at: At): Completion[] {
  const { columns, procedure, shape } = at.table;
  const hasPins =
    shape === "wide" ? procedure.wide?.rows === "pin" : columns.some((c) => c.spec?.role === "pin");
  if (!hasPins || columns.some(({ spec }) => spec?.role === "part")) return [];
  const [, ref, number = ""] = BEGUN.exec(at.cell.text.trim()) ?? [];
  if (ref === undefined || !isDesignator(ref, view.ctx.library)) return [];
  // Where a board file lists the parts, a designator alone is more likely on its way to one of them.
  if (number === "" && (hasBoardFile(view.ctx) || partAt(ref, view.ctx)?.device !== undefined)) return [];
  return withMore(devicesFor(ref, number, view.ctx.library), ({ typed, device }) => ({
    label: `${ref} (${typed})`,
    kind: "device",
    description: device.title,
    span: at.edit,
    newText: `${ref} (${typed})`,
  }));
}

/** True for the parts that come first in a table of this kind; the others are offered behind them. */
function isMeasuredBy(part: Part, { mostlyOf }: TableKind, view: LogView): boolean {
  const device = part.device === undefined ? undefined : view.ctx.library.device(part.device)?.device;
  return (
    (device !== undefined && mostlyOf?.devices?.includes(device.kind) === true) ||
    mostlyOf?.designator?.test(part.ref) === true
  );
}

/**
 * The pins of a part whose number is known, each with its name and net.
 * @param before stands in front of each: "U5-"
 * @param taken numbers of those that the table has already: they come last
 */
export function pinCompletions(
  view: LogView,
  ref: string,
  edit: CellPosition["edit"],
  before = "",
  taken: ReadonlySet<string> = new Set(),
): Completion[] {
  const board = view.ctx.board?.value;
  const part = partTestPoint(ref, board, view.ctx.library);
  if (!part.device) return [];
  const pins = pinsInOrder(part.device);
  const isTaken = ({ number }: DevicePin): boolean => taken.has(number);
  return [...pins.filter((pin) => !isTaken(pin)), ...pins.filter(isTaken)].map((pin) =>
    defined({
      label: `${before}${pin.number}`,
      kind: "pin",
      description: `${pinLine(pinTestPoint(part, pin.number, board))}${isTaken(pin) ? " · already in this table" : ""}`,
      documentation: pin.note === undefined ? undefined : md(pin.note),
      span: edit,
      newText: `${before}${pin.number}`,
      filterText: `${before}${pin.number} ${pin.name}`,
    }),
  );
}

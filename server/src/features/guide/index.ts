// One reading after the other: what to do next, on which pin, what to expect, and the cell that it is typed into, which is
// made where there is none.
import { defined } from "../../base/defined";
import type { NextReading } from "../../compute/diagnosis/next-reading";
import { partTestPoint, pinTestPoint } from "../../judge/test-point";
import type { Picture } from "../../pictures/svg";
import { touchPicture } from "../../pictures/touch";
import { cautionFor, diagnosisOf } from "../shared/diagnosis";
import { chipInput } from "../shared/drawings";
import { leaveRow } from "../typing";
import type { LogView } from "../view";
import { cellFor, cellForAgain, firstOpenReading, type GuideCell } from "./cell";
import type { ExpectedWords } from "./expect";
import { type GuidedCause, type TableDoubt, tableCause } from "./table-cause";

export type { GuideCell } from "./cell";

export interface GuideStep {
  /**
   * "check": how a whole table was read is in doubt, and comes first; "read": the reading that tells suspects apart; "fill":
   * nothing is suspected, so the next cell that is still empty.
   */
  readonly kind: "check" | "read" | "fill";
  readonly ref?: string;
  readonly pin?: string;
  /** What the pin is called, and its net. */
  readonly name?: string;
  readonly net?: string;
  /** What is to be read there: the limits alone, and as a sentence with its source. */
  readonly window?: string;
  readonly expect?: string;
  /** What to do, as a sentence without its full stop. */
  readonly action: string;
  readonly cautions: readonly string[];
  readonly cell?: GuideCell;
  readonly picture?: Picture;
}

/**
 * The next step; undefined where nothing is left to read.
 * @param findings of the log: some say that a table as a whole was read in a wrong way
 * @param from offset of the cursor: cells to fill in are looked for from there on
 */
export function guideStep(
  view: LogView,
  findings: Iterable<GuidedCause>,
  from: number,
): GuideStep | undefined {
  const found = nextStep(view, findings, from);
  return found?.cell ? { ...found, cell: leaving(view, from, found.cell) } : found;
}

function nextStep(view: LogView, findings: Iterable<GuidedCause>, from: number): GuideStep | undefined {
  const doubt = tableCause(findings);
  if (doubt) return checkStep(view, doubt);
  const best = diagnosisOf(view)?.advice.best;
  if (best) return readStep(view, best);
  const open = firstOpenReading(view, from);
  return open && step(view, { kind: "fill", ...open, action: actionOf(open.ref, open.pin) });
}

/** The row that the cursor leaves is put in order with the same edits, so that they are undone with its reading. */
function leaving(view: LogView, from: number, cell: GuideCell): GuideCell {
  const { text } = view.doc;
  const to = cell.edits[0]?.span.start ?? cell.cursor;
  const isSameRow =
    cell.edits.length === 0 && !text.slice(Math.min(from, to), Math.max(from, to)).includes("\n");
  const left = isSameRow ? [] : leaveRow(view, from);
  if (left.length === 0) return cell;
  const isAbove = left.every(({ span }) => span.end <= to);
  const isBelow = left.every(({ span }) => span.start > to);
  if (!isAbove && !isBelow) return cell;
  const grown = left.reduce((sum, { span, newText }) => sum + newText.length - (span.end - span.start), 0);
  return isAbove
    ? { edits: [...left, ...cell.edits], cursor: cell.cursor + grown }
    : { edits: [...cell.edits, ...left], cursor: cell.cursor };
}

/** What stands in the wrong rows is repaired where it stands; what was read in a wrong way is read again. */
function checkStep(view: LogView, { message, places, isMended }: TableDoubt): GuideStep {
  const again = isMended ? undefined : cellForAgain(view, places);
  const here = { edits: [], cursor: places[0] };
  return step(view, { kind: "check", ...again, cell: again ? again.cell : here, action: message });
}

function readStep(view: LogView, best: NextReading): GuideStep {
  const { action } = best;
  const found = cellFor(view, best);
  return step(view, {
    kind: "read",
    ref: found?.ref ?? best.ref,
    pin: found?.pin ?? best.pin,
    action,
    cautions: cautionFor(best),
    cell: found?.cell,
    expected: found?.expected,
  });
}

const actionOf = (ref: string | undefined, pin: string | undefined): string =>
  ref === undefined ? "Fill in this cell" : pin === undefined ? `Read ${ref}` : `Read ${ref} pin ${pin}`;

interface Known {
  readonly kind: GuideStep["kind"];
  readonly ref?: string | undefined;
  readonly pin?: string | undefined;
  readonly action: string;
  readonly cautions?: readonly string[];
  readonly cell?: GuideCell | undefined;
  readonly expected?: ExpectedWords | undefined;
}

/** With what is known of the pin, and its chip drawn with the pin marked. */
function step(view: LogView, { kind, ref, pin, action, cautions = [], cell, expected }: Known): GuideStep {
  const { board } = view.ctx;
  const place =
    ref === undefined || pin === undefined
      ? undefined
      : pinTestPoint(partTestPoint(ref, board?.value, view.ctx.library), pin, board?.value);
  const number = place?.pin?.number;
  const chip = number === undefined || ref === undefined ? undefined : chipInput(view, ref, []);
  const name = place?.pin?.name;
  const picture =
    chip && number !== undefined ? touchPicture({ ...chip, pin: number, name: name ?? "" }) : undefined;
  return defined({
    kind,
    ref,
    pin: number ?? pin,
    name,
    net: place?.net?.name,
    window: expected?.window,
    expect: expected?.expect,
    action,
    cautions,
    cell,
    picture,
  });
}

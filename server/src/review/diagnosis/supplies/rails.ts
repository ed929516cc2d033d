// A rail as the diagnosis takes it: wrong, with what it is; right, calm, or not shorted.

import { defined } from "../../../base/defined";
import type { LiftFinding } from "../../../compute/diagnosis/conflict";
import type { SignId } from "../../../compute/diagnosis/strength";
import type { DiagnosisFinding } from "../../../compute/diagnosis/types";
import type { Judgement } from "../../../judge";
import { extentOf } from "../../../judge/compare";
import type { LogContext } from "../../../judge/context";
import { railAt } from "../../../judge/rail-name";
import { isAtMains } from "../../../judge/ripple-frequency";
import { outputWindow } from "../../../judge/supply-window";
import { siValue } from "../../../judge/uncertainty";
import { boardIndex } from "../../../knowledge/board-index";
import type { Board, Net, Rail } from "../../../knowledge/types";
import type { Disconnection } from "../../../log/disconnections";
import type { Reading } from "../../../log/model";
import type { Observation } from "../observation";
import { isPowerOff } from "../words/power-off";
import { backupLost } from "./backup";

/** One observation of a rail; a reading whose sign does not fit the rail is a slip of the pen and says nothing. */
export function railFinding(
  reading: Reading,
  judgement: Judgement,
  ctx: LogContext,
  before: readonly Disconnection[] = [],
): Observation | undefined {
  const { verdict } = judgement;
  const board = ctx.board?.value;
  const lost = backupLost(reading, judgement, ctx);
  if (lost) return lost;
  // With the power off nothing is to be learnt of what makes a rail.
  if (isPowerOff(reading) && reading.table.kind.observedAs === "rail" && judgement.side === "low")
    return undefined;
  const rail = board && railAt(reading.subject, board);
  if (!board || !rail || wrongSign(reading, rail)) return undefined;
  const powered = reading.table.kind.observedAs !== "rail-to-ground";
  const { load } = reading.table.section.qualifiers;
  const net = rail.net === undefined ? undefined : board.nets.get(rail.net);
  const off = offThe(net, reading, before);
  // That a rail is calm without a part says nothing of what pulls it.
  if (off.length > 0 && reading.measure === "ripple") return undefined;
  const finding = off.length > 0 ? undefined : findingOf(reading, judgement, rail, board, ctx);
  const base = {
    key: `${reading.table.procedure.id} ${rail.name} ${reading.measure} ${load ?? ""} ${off.join(" ")}`
      .trim()
      .toUpperCase(),
    what: `${rail.name} (${reading.measure})`,
    table: reading.table,
    span: reading.cell.span,
    refs: finding?.kind === "part" ? [finding.ref.toUpperCase()] : finding ? makersOf(rail, board) : [],
  };
  if (off.length > 0)
    return net
      ? defined({ ...base, refs: off.map((ref) => ref.toUpperCase()), ...lifted(off, net, verdict) })
      : undefined;
  const isRight = verdict === "within-limits";
  // Unloaded an unregulated rail rises: it feeds what is behind it all the same.
  const feeds = finding === undefined && reading.measure !== "ripple" && isUp(reading, rail);
  return defined({
    ...base,
    finding,
    reads: readsNothing(reading) ? (0 as const) : undefined,
    toGround: powered ? undefined : extentOf(reading.value)?.high,
    share: powered && reading.measure !== "ripple" ? shareOf(reading, rail) : undefined,
    // Anything that stands on the rail may have been what held it.
    net: finding?.kind === "sign" ? net?.name : undefined,
    railRight: powered && ((isRight && reading.measure !== "ripple") || feeds) ? rail.name : undefined,
    railCalm:
      isRight && powered && reading.measure === "ripple" && load !== "unloaded" ? rail.name : undefined,
    railNotShort: !powered && (isRight || isFarFromShort(reading, judgement)) ? rail.name : undefined,
    rail:
      powered && verdict !== "unjudged"
        ? verdict === "out-of-limits"
          ? ("out" as const)
          : ("within" as const)
        : undefined,
  });
}

/** More ohms than anything that draws a rail down under power leaves; common practice, no source. */
const FAR_FROM_SHORT = 20_000;

/** Nobody says what it should be, and it is no short whatever that is. */
const isFarFromShort = (
  { value, spec }: Reading,
  { verdict, side }: Pick<Judgement, "verdict" | "side">,
): boolean =>
  (verdict === "unjudged" || side === "high") &&
  spec.quantity === "resistance" &&
  (value.kind === "open" || (extentOf(value)?.low ?? 0) > FAR_FROM_SHORT);

/** Volts that a rail which feeds a running board does not read. */
const NOTHING = 0.15;

function readsNothing(reading: Reading): boolean {
  const extent = reading.spec.quantity === "voltage" ? extentOf(reading.value) : undefined;
  return extent !== undefined && Math.abs(extent.low) < NOTHING && Math.abs(extent.high) < NOTHING;
}

function shareOf(reading: Reading, { name, nominal }: Rail): Observation["share"] {
  const extent = reading.spec.quantity === "voltage" ? extentOf(reading.value) : undefined;
  const volts = siValue(nominal, "V");
  if (!extent || volts === undefined || volts === 0 || extent.low !== extent.high) return undefined;
  return { rail: name, of: extent.low / volts };
}

/** Near its voltage or somewhat above. */
function isUp(reading: Reading, rail: Rail): boolean {
  const extent = reading.spec.quantity === "voltage" ? extentOf(reading.value) : undefined;
  const nominal = siValue(rail.nominal, "V");
  if (!extent || nominal === undefined || nominal === 0) return false;
  const share = extent.low / nominal;
  return share > 0.9 && share < 1.5;
}

/** Designators of what makes it, in capitals: where one of them was replaced since, it is to be read again. */
function makersOf(rail: Rail, board: Board): string[] {
  const input = board.rails.get(rail.input ?? "");
  return [rail.regulator, rail.reservoir, input?.regulator, input?.reservoir].flatMap(
    (ref) => ref?.toUpperCase() ?? [],
  );
}

/** What was off the rail while it was read. */
function offThe(
  net: Net | undefined,
  { apart = [] }: Reading,
  before: readonly Disconnection[],
): readonly string[] {
  const on = new Map((net?.pins ?? []).map(({ ref }) => [ref.toUpperCase(), ref]));
  const off = [...before, ...apart].flatMap(({ ref }) =>
    ref === undefined ? [] : (on.get(ref.toUpperCase()) ?? []),
  );
  return [...new Set(off)];
}

function lifted(off: readonly string[], net: Net, verdict: Judgement["verdict"]): Pick<Observation, "lifts"> {
  const [first, ...also] = off;
  if (first === undefined) return {};
  const lift = (ref: string, cleared: boolean, rest: Partial<LiftFinding>): LiftFinding => ({
    kind: "lift",
    ref,
    net: net.name,
    cleared,
    ...rest,
  });
  return {
    lifts:
      verdict === "out-of-limits"
        ? off.map((ref) => lift(ref, false, {}))
        : [lift(first, true, also.length > 0 ? { also } : {})],
  };
}

/** Only what a specification or the board file says accuses; a doubt about a rail accuses too many parts. */
function findingOf(
  reading: Reading,
  judgement: Judgement,
  rail: Rail,
  board: Board,
  ctx: LogContext,
): DiagnosisFinding | undefined {
  const { verdict, reference, side } = judgement;
  const mains = isAtMains(reading, rail);
  // Whoever feeds a bare board from the bench reads less than all of it takes.
  if (reading.measure === "load" && side === "low") return undefined;
  if (!(verdict === "out-of-limits" && reference) && !(mains && verdict !== "within-limits"))
    return undefined;
  const powered = reading.table.kind.observedAs !== "rail-to-ground";
  const load = reading.table.section.qualifiers.load ?? "";
  const typed = reading.value.typed;
  const ripple = reading.measure === "ripple" || reading.measure === "frequency";
  const net = rail.net === undefined ? undefined : board.nets.get(rail.net);
  const isKnown =
    (net !== undefined && net.pins.length > 0) ||
    rail.regulator !== undefined ||
    rail.reservoir !== undefined;
  if (!isKnown)
    return regulatorOf(rail, board, ctx, `${typed} ${load}`.trim()) ?? byCircuit(rail, board, typed);
  // From a supply of the bench nothing on the board makes it: what draws too much hangs on it.
  const isDrawn =
    reading.measure === "load" || (reading.table.kind.observedAs === "limited-supply" && side === "low");
  const sign: SignId =
    !powered || isDrawn ? "rail-short" : ripple ? (mains ? "ripple-mains" : "ripple") : "rail-wrong";
  if (!powered && side !== "low")
    return side === "high" && isLoose(net, board)
      ? {
          kind: "sign",
          sign: "rail-loose",
          rail: rail.name,
          of: `${rail.name} to ground`,
          says: `${rail.name} reads ${typed} to ground, more than its resistors leave.`,
        }
      : undefined;
  const read = ripple
    ? `The ripple of ${rail.name} reads ${typed}${mains ? ", at the mains' own frequency" : ""}`
    : `${rail.name} reads ${typed}${powered ? "" : " to ground"}`;
  return defined({
    kind: "sign" as const,
    sign,
    rail: rail.name,
    state: isDrawn ? ("low" as const) : ripple ? side : fromNothing(side, reading, rail),
    dead: powered && !ripple && isDead(reading, rail) ? (true as const) : undefined,
    of: ripple ? `the ripple of ${rail.name}` : `${rail.name}${powered ? "" : " to ground"}`,
    says: `${read}${load && `, ${load}`}.`,
  });
}

/** Resistors of its own lead from it to ground; with chips on it, it reads what they make of it. */
const isLoose = (net: Net | undefined, board: Board): boolean =>
  net?.pins.some(({ ref }) => /^R\d/i.test(ref)) === true &&
  !net.pins.some(({ ref }) => /^(?:U|IC)\d/i.test(ref)) &&
  !boardIndex(board).isGround(net);

/** Where nobody says what makes a rail, the only regulator on the board that is made to give its voltage does. */
function regulatorOf(
  rail: Rail,
  board: Board,
  { library }: LogContext,
  read: string,
): DiagnosisFinding | undefined {
  const volts = siValue(rail.nominal, "V");
  const fits = [...board.parts.values()].filter(({ device }) => {
    const found = device === undefined ? undefined : library.device(device)?.device;
    const window = found && outputWindow(found);
    return volts !== undefined && window !== undefined && window.low <= volts && volts <= window.high;
  });
  const [only] = fits;
  if (!only || fits.length > 1) return undefined;
  return {
    kind: "part",
    ref: only.ref,
    verdict: "suspect",
    of: `the ${rail.name} rail`,
    says: `${rail.name} reads ${read}, and ${only.ref} (${only.device}) makes it.`,
  };
}

/** The circuit of the point it is measured at, where nothing says what stands on it. */
function byCircuit(rail: Rail, board: Board, read: string): DiagnosisFinding | undefined {
  const circuit = rail.testPoint === undefined ? undefined : boardIndex(board).part(rail.testPoint)?.circuit;
  return circuit === undefined
    ? undefined
    : { kind: "symptom", symptom: `${rail.name} reads ${read}`, circuits: [circuit] };
}

/** High is further from nothing, and low nearer to it, on a negative rail too. */
function fromNothing(side: Judgement["side"], { spec }: Reading, rail: Rail): Judgement["side"] {
  const isNegative = spec.quantity === "voltage" && (siValue(rail.nominal, "V") ?? 0) < 0;
  return isNegative && side !== undefined ? (side === "low" ? "high" : "low") : side;
}

/** Of its voltage: a rail that reads less, whatever the sign, is dead. Common practice, no source. */
const DEAD_SHARE = 0.2;

function isDead(reading: Reading, rail: Rail): boolean {
  const extent = reading.spec.quantity === "voltage" ? extentOf(reading.value) : undefined;
  const nominal = siValue(rail.nominal, "V");
  return (
    extent !== undefined &&
    nominal !== undefined &&
    Math.max(Math.abs(extent.low), Math.abs(extent.high)) < DEAD_SHARE * Math.abs(nominal)
  );
}

function wrongSign(reading: Reading, rail: Rail): boolean {
  const extent = extentOf(reading.value);
  const nominal = siValue(rail.nominal, "V");
  const voltage = reading.spec.quantity === "voltage" && reading.measure !== "ripple";
  // A dead rail is drawn a little to the other side by what hangs between it and another.
  return (
    voltage &&
    extent !== undefined &&
    nominal !== undefined &&
    extent.low * nominal < 0 &&
    Math.abs(extent.low) > DEAD_SHARE * Math.abs(nominal)
  );
}

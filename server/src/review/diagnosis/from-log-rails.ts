// A rail that reads wrong as a finding: the circuits that make it, and its reservoir where the ripple is too high.

import { defined } from "../../base/defined";
import type { Finding } from "../../compute/diagnosis/types";
import type { Side } from "../../compute/limits/compare";
import type { Judgement } from "../../judge";
import { extentOf } from "../../judge/compare";
import type { LogContext } from "../../judge/context";
import { railAt } from "../../judge/rail-name";
import { outputWindow } from "../../judge/supply-window";
import { siValue } from "../../judge/uncertainty";
import { boardIndex } from "../../knowledge/board-index";
import type { Board, Rail } from "../../knowledge/types";
import type { Reading } from "../../log/model";
import type { Observation } from "./observation";

/** One observation of a rail; a reading whose sign does not fit the rail is a slip of the pen and says nothing. */
export function railFinding(
  reading: Reading,
  { verdict, reference, side }: Judgement,
  ctx: LogContext,
): Observation | undefined {
  const board = ctx.board?.value;
  const rail = board && railAt(reading.subject, board);
  if (!board || !rail || wrongSign(reading, rail)) return undefined;
  const powered = reading.table.kind.observedAs !== "rail-to-ground";
  const { load } = reading.table.section.qualifiers;
  // Only what a specification or the board file says accuses; a doubt about a rail accuses too many parts.
  const finding =
    verdict === "out-of-limits" && reference ? found(reading, rail, board, load ?? "", ctx, side) : undefined;
  return defined({
    key: `${reading.table.procedure.id} ${rail.name} ${reading.measure} ${load ?? ""}`.toUpperCase(),
    what: `${rail.name} (${reading.measure})`,
    table: reading.table,
    span: reading.cell.span,
    refs: finding?.kind === "part" ? [finding.ref.toUpperCase()] : [],
    finding,
    rail: powered ? (verdict === "out-of-limits" ? ("out" as const) : ("within" as const)) : undefined,
  });
}

function found(
  reading: Reading,
  rail: Rail,
  board: Board,
  load: string,
  ctx: LogContext,
  side: Side | undefined,
): Finding | undefined {
  const typed = reading.value.typed;
  const reservoir = [rail, board.rails.get(rail.input ?? "")].find((r) => r?.reservoir)?.reservoir;
  if (reading.measure === "ripple" && reservoir !== undefined && boardIndex(board).part(reservoir)) {
    return {
      kind: "part",
      ref: reservoir,
      verdict: "suspect",
      of: `the ripple of ${rail.name}`,
      says: `The ripple of ${rail.name} reads ${typed}${load && `, ${load}`}: ${reservoir} is its reservoir.`,
    };
  }
  const powered = reading.table.kind.observedAs !== "rail-to-ground";
  const input = board.rails.get(rail.input ?? "");
  const net = rail.net === undefined ? undefined : board.nets.get(rail.net);
  // A rail that is held down may be held down by anything on its net, whatever circuit it belongs to.
  if (net && net.pins.length > 0 && !powered && side === "low") {
    const makers = [rail.regulator, rail.reservoir, input?.regulator].flatMap((ref) => ref ?? []);
    return {
      kind: "rail",
      rail: rail.name,
      net: net.name,
      direction: side,
      powered,
      makers,
      says: `${rail.name} reads ${typed} to ground: the parts on ${net.name} and what makes it.`,
    };
  }
  const circuits = circuitsOf(rail, board);
  if (circuits.length === 0) return regulatorOf(rail, board, ctx, `${typed} ${load}`.trim());
  const what = !powered ? `${typed} to ground` : `${typed} ${load}`.trim();
  return { kind: "symptom", symptom: `${rail.name} reads ${what}`, circuits };
}

/** Where nobody says what makes a rail, the only regulator on the board that is made to give its voltage does. */
function regulatorOf(rail: Rail, board: Board, { library }: LogContext, read: string): Finding | undefined {
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

/** The circuits of the parts that make the rail, or else of the point it is measured at. */
function circuitsOf(rail: Rail, board: Board): string[] {
  const input = board.rails.get(rail.input ?? "");
  const index = boardIndex(board);
  const circuits = (refs: readonly (string | undefined)[]): string[] => [
    ...new Set(refs.flatMap((ref) => (ref === undefined ? [] : (index.part(ref)?.circuit ?? [])))),
  ];
  const makers = circuits([rail.regulator, rail.reservoir, input?.reservoir, input?.regulator]);
  return makers.length > 0 ? makers : circuits([rail.testPoint]);
}

function wrongSign(reading: Reading, rail: Rail): boolean {
  const extent = extentOf(reading.value);
  const nominal = siValue(rail.nominal, "V");
  const voltage = reading.spec.quantity === "voltage" && reading.measure !== "ripple";
  return voltage && extent !== undefined && nominal !== undefined && extent.low * nominal < 0;
}

// A rail's resistance to ground before power is applied.
import { defined } from "../base/defined";
import { LOWEST_SHORT, shortLimits } from "../compute/circuit/rail-short";
import { comparisonText } from "../compute/limits/text";
import type { Reading, Subject } from "../log/model";
import { railNamed } from "../log/stated/rail-name";
import { formatValue } from "../quantity/format-value";
import { amountOf, railNominal } from "./board-parts";
import { compareWith, extentOf } from "./compare";
import type { LogContext } from "./context";
import { judgeExpected } from "./expected";
import { besides, single } from "./measured";
import { findRail, railAt } from "./rail-name";
import type { TestPoint } from "./test-point";
import type { Judgement, Reference } from "./types";
import { uncertaintyOf } from "./uncertainty";

const CODE = "rail-shorted";
/** Conducting this many times better one way than the other is a junction and no short: common practice, no source. */
const ONE_WAY = 10;

/** A test point has one pin, whether that is said or not. */
const isPoint = ({ ref, pin }: Subject): boolean => pin === undefined || /^TP\d/i.test(ref?.text ?? "");

/** A plain short is told first; then the board's own window decides, and without one what the rail can carry. */
export function judgeGround(
  reading: Reading,
  place: TestPoint | undefined,
  ctx: LogContext,
): Judgement | undefined {
  const { subject } = reading;
  const board = ctx.board?.value;
  // At a test point by itself the rail is read that it is of.
  const typed = subject.rail?.text ?? (board && isPoint(subject) ? railAt(subject, board)?.name : undefined);
  const extent = extentOf(reading.value);
  if (typed === undefined || !extent || reading.spec.quantity !== "resistance") return undefined;
  const rail = ctx.board && findRail(ctx.board.value, typed);
  const name = rail?.name ?? typed;
  const volts = railNominal(rail) ?? railNamed(typed)?.nominal;
  const load = rail && amountOf(rail.load, "current");
  const unregulated = railNamed(typed)?.unregulated === true || rail?.rectifier !== undefined;
  const limits = shortLimits(defined({ volts, load, unregulated }));
  const uncertainty = uncertaintyOf(reading.value, ctx.meter, "ohms");
  const reference: Reference = {
    kind: "physics",
    of: "a rail that is not shorted",
    low: limits.short,
    unit: "ohm",
    source: limits.source,
  };
  const found = compareWith(reference, extent, uncertainty);
  const { side } = found;
  const formula = comparisonText(found, "bench");
  const base = defined<Omit<Judgement, "verdict" | "says">>({
    reading,
    reference,
    uncertainty,
    formula,
    place,
  });
  const ohms = extent.high;
  const other = otherWay(reading);
  // The row is told once, at the reading with the leads as they should be.
  const isToldBeside = reading.measure === "reversed" && other !== undefined && other < limits.short;
  const code = isToldBeside ? undefined : CODE;
  const drives =
    volts === undefined
      ? undefined
      : `${formatValue(Math.abs(volts), "V")} would drive ${amps(volts, ohms)} through it.`;
  if (found.verdict === "out-of-limits") {
    const oneWay =
      other !== undefined && other >= limits.doubt && other > ONE_WAY * ohms && ohms > LOWEST_SHORT;
    if (oneWay) {
      return {
        ...base,
        verdict: "suspect",
        side,
        code: CODE,
        says: {
          fact: `${name} reads ${formatValue(ohms, "ohm")} to ground one way and ${sayOhms(other)} the other; a short reads the same both ways.`,
          cause: "A diode or a reversed part conducts.",
          step: "Find it before you apply power.",
        },
      };
    }
    const both = other !== undefined && other <= ONE_WAY * ohms ? " both ways" : "";
    return defined({
      ...base,
      verdict: "out-of-limits" as const,
      side,
      code,
      says: {
        fact: `${name} reads ${formatValue(ohms, "ohm")} to ground${both}; below ${formatValue(limits.short, "ohm")} is a short.`,
        step: "Do not apply power. Lift or unplug the parts on the rail one by one, and read again.",
        more: drives,
      },
    });
  }
  const expected = judgeExpected(reading, place, ctx);
  if (expected.verdict !== "unjudged") return expected;
  const doubt: Reference = { ...reference, of: "a rail that is surely not shorted", low: limits.doubt };
  const doubted = compareWith(doubt, extent, uncertainty);
  if (doubted.verdict === "out-of-limits") {
    return {
      ...base,
      reference: doubt,
      formula: comparisonText(doubted, "bench"),
      verdict: "suspect",
      side: doubted.side,
      code: CODE,
      says: {
        fact: `${name} reads ${formatValue(ohms, "ohm")} to ground; below ${formatValue(limits.doubt, "ohm")} is low for its voltage.`,
        step: "Compare another board. Apply power only with the current limited.",
        more: drives,
      },
    };
  }
  return {
    ...base,
    verdict: "unjudged",
    says: {
      fact: `${name} reads ${reading.value.typed} to ground: no plain short, which would be below ${formatValue(limits.short, "ohm")}.`,
      step: "Nothing says what it should read. Compare another board.",
    },
  };
}

const amps = (volts: number, ohms: number): string =>
  ohms > 0 ? formatValue(Number((Math.abs(volts) / ohms).toPrecision(3)), "A") : "all that the supply gives";

const sayOhms = (ohms: number): string => (Number.isFinite(ohms) ? formatValue(ohms, "ohm") : "open");

/** The reading of the same row with the leads the other way round. */
function otherWay(reading: Reading): number | undefined {
  const other = besides(reading, reading.measure === "reversed" ? "resistance" : "reversed");
  return other && single(other.value);
}

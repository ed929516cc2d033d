// A linear regulator between two rails that were read together: is there enough across it at the bottom of the
// ripple, and how much heat does it make.

import { defined } from "../base/defined";
import { dissipation, dropoutHeadroom, valley } from "../compute/circuit/regulator";
import { rippleBound } from "../compute/circuit/ripple";
import type { Assessment } from "../compute/verdict";
import type { Rail } from "../knowledge/types";
import type { LogTable, Reading } from "../log/model";
import { formatValue } from "../quantity/format-value";
import { type Saying, sourcesOf } from "../text/saying";
import { amountOf, linkTo, railNominal } from "./board-parts";
import { compareWith } from "./compare";
import type { LogContext } from "./context";
import { accuracyGap, besides, type MeasuredReading, measuredOf, readingsOfRail } from "./measured";
import { railReference } from "./rail";
import { findRail } from "./rail-name";
import { loadOf, rippleCircuit } from "./ripple";
import type { Judgement, Reference } from "./types";

const CODE = "rail-out-of-tolerance";
/** What regulators of the 78 and 79 kind need across them; others are given in the board file. */
const USUAL_DROPOUT = { value: 2, source: "common practice, no source" };

/** One regulator with both its rails as read. */
interface Stage {
  readonly from: Rail;
  readonly to: Rail;
  readonly input: MeasuredReading;
  readonly output: MeasuredReading;
  /** Read peak to peak in the input's row; undefined where it was not. */
  readonly ripple?: MeasuredReading;
  /** The row of the input, for its load. */
  readonly inputReading: Reading;
  readonly outputReading: Reading;
}

/** The verdict of a rail's voltage with what it means for the regulator behind it or before it. */
export function withHeadroom(
  base: Judgement,
  rail: Rail,
  near: readonly LogTable[],
  ctx: LogContext,
): Judgement {
  const board = ctx.board?.value;
  if (!board || accuracyGap(ctx) !== undefined) return base;
  const before = rail.input === undefined ? undefined : findRail(board, rail.input);
  const own = before && stageOf(before, rail, base.reading, near, ctx);
  const fed = [...board.rails.values()]
    .filter(({ input }) => input !== undefined && findRail(board, input)?.name === rail.name)
    .flatMap((to) => stageOf(rail, to, base.reading, near, ctx) ?? []);
  const judged = fed.reduce((so, stage) => onInput(so, stage, ctx), base);
  return own ? onOutput(judged, own, ctx) : judged;
}

function stageOf(
  from: Rail,
  to: Rail,
  reading: Reading,
  near: readonly LogTable[],
  ctx: LogContext,
): Stage | undefined {
  if (to.regulator === undefined && to.dropout === undefined) return undefined;
  const inputReading = ofRail(from) === reading ? reading : ofRail(from);
  const outputReading = ofRail(to);
  const input = measuredOf(inputReading, "dc-volts", ctx);
  const output = measuredOf(outputReading, "dc-volts", ctx);
  if (!input || !output || !inputReading || !outputReading) return undefined;
  const ripple = measuredOf(besides(inputReading, "ripple"), "ac-volts", ctx);
  return defined({ from, to, input, output, inputReading, outputReading, ripple });

  function ofRail(rail: Rail): Reading | undefined {
    return readingsOfRail(rail.name, reading, near, ctx)("dc");
  }
}

/** Named in sentences: the regulator where the board file names it. */
const nameOf = ({ to }: Stage): string => to.regulator ?? `the regulator of ${to.name}`;

interface Headroom extends Assessment {
  /** Least the input may read on average, without its sign. */
  readonly least: number;
  readonly uncertainty: number;
}

/**
 * Against what the output should be where it reads below its own limits: a regulator that has dropped out keeps
 * its distance from the input whatever the input is. Undefined where the ripple is not known and decides it.
 */
function headroomOf(stage: Stage, ctx: LogContext): Headroom | undefined {
  const { from, to, input, output, ripple } = stage;
  const limits = railReference(to, ctx);
  const nominal = railNominal(to);
  const at = { low: output.value, high: output.value };
  const out = limits && compareWith(limits, at, output.uncertainty).verdict === "out-of-limits";
  const low = out && nominal !== undefined && Math.abs(output.value) < Math.abs(nominal);
  const target = low ? { value: nominal, uncertainty: 0 } : output;
  const given = amountOf(to.dropout, "voltage");
  if (to.dropout !== undefined && (given === undefined || given <= 0)) return undefined;
  const dropout = given ?? USUAL_DROPOUT.value;
  const dropoutSource = given === undefined ? USUAL_DROPOUT.source : (to.source ?? "the board file");
  const held = (swing: MeasuredReading) => {
    const bottom = valley({ average: input.value, ripple: swing.value });
    if (!bottom.ok) return undefined;
    const uncertainty = Math.hypot(input.uncertainty, swing.uncertainty / 2, target.uncertainty);
    const ruling = dropoutHeadroom({
      inputMinimum: bottom.value,
      output: target.value,
      dropout,
      dropoutSource,
      uncertainty,
    });
    if (!ruling.ok) return undefined;
    const across = Math.abs(bottom.value) - Math.abs(target.value);
    const where = swing.value > 0 ? `At the bottom of its ripple, ${from.name}` : from.name;
    const over = low ? `the ${formatValue(target.value, "V")} ${to.name} should have` : "its output";
    const needs = `${nameOf(stage)} needs ${formatValue(dropout, "V")}`;
    const says: Saying = {
      fact: `${where} is ${formatValue(across, "V")} above ${over}; ${needs}.`,
      ...(ruling.verdict === "within-limits"
        ? {}
        : ruling.verdict === "suspect"
          ? { step: "Too close to tell with this meter. Look at the input with an oscilloscope." }
          : {
              cause: "The ripple comes through the regulator.",
              step: `Check the reservoir, the rectifier and the load of ${from.name} before the regulator.`,
            }),
      source: dropoutSource,
    };
    const least = Math.abs(target.value) + dropout + swing.value / 2;
    return {
      ...ruling,
      says,
      least,
      uncertainty,
      formula: `${swing.value > 0 ? `${bottom.formula}; ` : ""}${ruling.formula}`,
    };
  };
  if (ripple) return held(ripple);
  // Without the ripple only two ends are known: none at all, and the most that the reservoir can leave.
  const none = held({ value: 0, uncertainty: 0 });
  if (none?.verdict === "out-of-limits") return none;
  const circuit = rippleCircuit(from, stage.inputReading, ctx);
  if (typeof circuit === "string") return undefined;
  const least = circuit.reservoir.nominal * (1 - circuit.reservoir.tolerance);
  const bound = rippleBound({ ...circuit, capacitance: least });
  const most = bound.ok ? held({ value: bound.value, uncertainty: 0 }) : undefined;
  return most?.verdict === "within-limits" ? most : undefined;
}

function onInput(base: Judgement, stage: Stage, ctx: LogContext): Judgement {
  const headroom = headroomOf(stage, ctx);
  if (!headroom) return base;
  const formula = [base.formula, headroom.formula].filter(Boolean).join("; ");
  const short = headroom.verdict === "out-of-limits" || headroom.verdict === "suspect";
  if (!short) return { ...base, formula };
  const worse = base.verdict === "out-of-limits" || base.verdict === headroom.verdict;
  if (worse) return { ...base, formula, says: starving(base.says, headroom.says) };
  const load = base.reading.table.section.qualifiers.load;
  const what = `${stage.from.name} reads ${base.reading.value.typed}${load ? ` ${load}` : ""}`;
  return {
    ...base,
    verdict: headroom.verdict,
    // What the regulator needs is of the size, and of a negative rail's reading the other way round.
    side: isNegative(stage.from) ? "high" : "low",
    code: CODE,
    formula,
    says: {
      ...headroom.says,
      fact: `${what}; ${nameOf(stage)} needs ${formatValue(headroom.least, "V")} or more.`,
      more: headroom.says.fact,
    },
    reference: needOf(stage, headroom, ctx),
    uncertainty: headroom.uncertainty,
  };
}

/** The fact as it is, with the starved regulator for its cause; the regulator's figures stand beside it. */
const starving = (says: Saying, { fact, cause, step, source }: Saying): Saying => ({
  ...says,
  cause: cause ?? says.cause,
  step: step ?? says.step,
  more: [says.more, fact].filter(Boolean).join(" "),
  source: sourcesOf(says.source, source),
});

const isNegative = (rail: Rail): boolean => (railNominal(rail) ?? 0) < 0;

/** What the regulator needs at its input, as a limit of the input's average. */
function needOf({ from, to }: Stage, headroom: Headroom, ctx: LogContext): Reference {
  return {
    kind: "board",
    of: `what ${to.regulator ?? `the regulator of ${to.name}`} needs at its input`,
    ...(isNegative(from) ? { high: -headroom.least } : { low: headroom.least }),
    unit: "V",
    source: headroom.source,
    ...linkTo(["rails", to.name], ctx),
  };
}

/** The output keeps its own verdict; a starved regulator explains it, and the heat stands with the arithmetic. */
function onOutput(base: Judgement, stage: Stage, ctx: LogContext): Judgement {
  const headroom = headroomOf(stage, ctx);
  const heat = heatOf(stage, ctx);
  const formula = [base.formula, heat && `heat in ${nameOf(stage)}: ${heat}`].filter(Boolean).join("; ");
  const starved = base.verdict !== "within-limits" && headroom?.verdict === "out-of-limits";
  return {
    ...base,
    ...(formula === "" ? {} : { formula }),
    ...(starved ? { says: starving(base.says, headroom.says) } : {}),
  };
}

function heatOf({ to, input, output, outputReading }: Stage, ctx: LogContext): string | undefined {
  const load = loadOf(to, outputReading, ctx);
  if (typeof load === "string") return undefined;
  const heat = dissipation({ input: input.value, output: output.value, current: load.value });
  return heat.ok ? `${heat.formula} (${load.from})` : undefined;
}

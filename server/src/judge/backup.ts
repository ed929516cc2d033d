// The capacitor that keeps a memory alive: what charges it through its resistor, and how long it holds.

import { chargeCurrent, holdUpAtCurrent, impliedCurrent } from "../compute/circuit/holdup";
import { compareToLimits } from "../compute/limits/compare";
import { comparisonText } from "../compute/limits/text";
import type { Assessment } from "../compute/verdict";
import type { Backup } from "../knowledge/types";
import type { Reading } from "../log/model";
import { formatValue } from "../quantity/format-value";
import type { Saying } from "../text/saying";
import { amountOf, linkTo, railNominal, tolerances, valueAt } from "./board-parts";
import { extentOf } from "./compare";
import type { LogContext } from "./context";
import { judgementFrom, unjudged } from "./judgement-from";
import { accuracyGap, measuredOf } from "./measured";
import { findRail } from "./rail-name";
import type { TestPoint } from "./test-point";
import type { Judgement, Reference } from "./types";
import { uncertaintyOf } from "./uncertainty";

const CODE = "outside-expected";

/** The voltage that charges the capacitor in V: its source rail less the diode's drop, else the rail itself. */
function chargedTo(backup: Backup, ctx: LogContext): number | undefined {
  const rail = ctx.board && findRail(ctx.board.value, backup.from ?? backup.rail);
  const nominal = railNominal(rail);
  return nominal === undefined ? undefined : nominal - (amountOf(backup.drop, "voltage") ?? 0);
}

const same = (a: string | undefined, b: string | undefined): boolean =>
  a !== undefined && a.toUpperCase() === b?.trim().toUpperCase();

/**
 * A row of the supply table that names the series resistor: the voltage is the drop across it, the current is what
 * charges the capacitor. Neither can be more than an empty capacitor takes.
 */
export function judgeCharge(
  reading: Reading,
  place: TestPoint | undefined,
  ctx: LogContext,
): Judgement | undefined {
  if (reading.subject.pin || (reading.measure !== "dc" && reading.measure !== "load")) return undefined;
  const named = reading.subject.ref?.text ?? reading.subject.rail?.text;
  const backup = ctx.board?.value.backups.find(({ resistor }) => same(resistor, named));
  if (!backup || backup.resistor === undefined) return undefined;
  const across = reading.measure === "dc";
  const read = measuredOf(reading, across ? "dc-volts" : "dc-amps", ctx);
  if (!read) return undefined;
  const typed = `${backup.resistor} reads ${reading.value.typed}.`;
  const resistor = valueAt(backup.resistor, "resistance", ctx);
  const supply = chargedTo(backup, ctx);
  const gap = resistor.ok ? accuracyGap(ctx) : resistor.reason;
  if (!resistor.ok || gap !== undefined) return unjudged(reading, place, `${typed} ${gap}`);
  if (supply === undefined)
    return unjudged(
      reading,
      place,
      `${typed} The board file gives no voltage of ${backup.from ?? backup.rail}.`,
    );
  const size = Math.abs(read.value);
  const least = resistor.nominal * (1 - resistor.tolerance);
  const most = chargeCurrent({ supply, resistance: least });
  const flows = chargeCurrent({ supply: size, resistance: resistor.nominal });
  if (!most.ok || !flows.ok) return unjudged(reading, place, typed);
  const limit = across ? supply : most.value;
  const unit = across ? "V" : "A";
  const held = compareToLimits(size, { high: limit, unit }, { uncertainty: read.uncertainty });
  const { verdict, side } = held;
  const says: Saying = {
    fact: across
      ? `${formatValue(size, "V")} across ${resistor.ref}; ${formatValue(supply, "V")} is all there is to charge ${backup.capacitor}.`
      : `${resistor.ref} carries ${formatValue(size, "A")}; an empty ${backup.capacitor} takes ${formatValue(most.value, "A")}.`,
    ...(verdict === "within-limits"
      ? { cause: `It falls as the capacitor fills. If it stays high, ${backup.capacitor} leaks.` }
      : verdict === "suspect"
        ? { cause: "Too close to tell.", step: "Read it again on a finer range." }
        : across
          ? { cause: "The rail is too high, or the lead was elsewhere.", step: "Read the rail first." }
          : {
              cause: `${resistor.ref} has fallen in value, or something else draws through it.`,
              step: `Read ${resistor.ref} with one end lifted.`,
            }),
    more: across
      ? `Through ${formatValue(resistor.nominal, "ohm")} that is a charge current of ${formatValue(flows.value, "A")}.`
      : undefined,
  };
  const reference: Reference = {
    kind: "board",
    of: across ? `the voltage that charges ${backup.capacitor}` : `the charge current of ${backup.capacitor}`,
    high: limit,
    unit,
    source: flows.source,
    ...linkTo(["backups", backup.index], ctx),
  };
  const formula = `${across ? flows.formula : most.formula}; ${comparisonText(held, "arithmetic")}`;
  const ruling: Assessment = { ok: true, verdict, side, says, formula, source: flows.source };
  return judgementFrom(reading, place, ruling, CODE, {
    uncertainty: read.uncertainty,
    reference,
    note: across ? "the board file" : tolerances(resistor),
  });
}

/** A time beside the back-up capacitor or its rail: how long the memory held after power-off. */
export function judgeHoldUp(
  reading: Reading,
  place: TestPoint | undefined,
  ctx: LogContext,
): Judgement | undefined {
  if (reading.spec.quantity !== "time") return undefined;
  const backup = backupAt(reading, ctx);
  const extent = extentOf(reading.value);
  if (!backup || !extent || extent.low === Number.POSITIVE_INFINITY) return undefined;
  const lasted = `${backup.capacitor} held ${backup.rail} for ${reading.value.typed}`;
  const typed = `${lasted}.`;
  const capacitor = valueAt(backup.capacitor, "capacitance", ctx);
  const from = chargedTo(backup, ctx);
  const to = amountOf(backup.minimum, "voltage");
  const current = amountOf(backup.current, "current");
  if (!capacitor.ok) return unjudged(reading, place, `${typed} ${capacitor.reason}`);
  if (from === undefined || to === undefined || current === undefined) {
    const missing = [
      from === undefined ? "the voltage it is charged to" : undefined,
      to === undefined ? "the lowest voltage that keeps the memory" : undefined,
      current === undefined ? "what the memory draws" : undefined,
    ].filter(Boolean);
    return unjudged(reading, place, `${typed} The board file does not say ${missing.join(" and ")}.`);
  }
  const capacitance = capacitor.nominal * (1 - capacitor.tolerance);
  const least = holdUpAtCurrent({ capacitance, from, to, current });
  if (!least.ok) return unjudged(reading, place, `${typed} ${least.reason}`);
  const uncertainty = uncertaintyOf(reading.value, undefined, undefined);
  if (extent.low !== extent.high && extent.low < least.value && extent.high > least.value)
    return unjudged(
      reading,
      place,
      `${typed} It should hold for ${duration(least.value)} at least. Write the time to tell whether it did.`,
    );
  const time = extent.low < least.value ? extent.high : extent.low;
  const held = compareToLimits(time, { low: least.value, unit: "s" }, { uncertainty });
  const { verdict, side } = held;
  const drawn = impliedCurrent({ capacitance: capacitor.nominal, from, to, time });
  const isShort = verdict === "out-of-limits";
  const says: Saying = {
    fact: `${lasted}; it should hold for ${duration(least.value)} at least.`,
    ...(verdict === "within-limits"
      ? {}
      : verdict === "suspect"
        ? { cause: "Too close to tell.", step: "Time it again." }
        : {
            cause:
              "The capacitor was not charged or leaks, the diode leaks back, or the memory stays selected.",
            step: "Charge it fully and time it again.",
          }),
    more: [
      `Worked from ${formatValue(from, "V")} to ${formatValue(to, "V")} at ${formatValue(current, "A")}.`,
      drawn.ok && isShort ? `This time is that of a current of ${formatValue(drawn.value, "A")}.` : undefined,
    ]
      .filter(Boolean)
      .join(" "),
  };
  const reference: Reference = {
    kind: "board",
    of: `the time that ${backup.capacitor} holds ${backup.rail}`,
    low: least.value,
    unit: "s",
    source: least.source,
    ...linkTo(["backups", backup.index], ctx),
  };
  const wasShort = verdict !== "within-limits";
  const formula = [
    least.formula,
    comparisonText(held, "arithmetic"),
    ...(drawn.ok && wasShort ? [drawn.formula] : []),
  ].join("; ");
  const ruling: Assessment = { ok: true, verdict, side, says, formula, source: least.source };
  return judgementFrom(reading, place, ruling, CODE, { uncertainty, reference, note: tolerances(capacitor) });
}

function backupAt({ subject }: Reading, ctx: LogContext): Backup | undefined {
  const board = ctx.board?.value;
  const typed = subject.signal?.text ?? subject.rail?.text;
  const rail = board && typed !== undefined ? findRail(board, typed) : undefined;
  return board?.backups.find(
    (backup) =>
      same(backup.capacitor, subject.ref?.text) ||
      (rail !== undefined && findRail(board, backup.rail)?.name === rail.name),
  );
}

/** Hours and minutes from two of them on, as people say it. */
function duration(seconds: number): string {
  if (seconds >= 7200) return `${Number((seconds / 3600).toPrecision(3))} h`;
  return seconds >= 120 ? `${Number((seconds / 60).toPrecision(3))} min` : formatValue(seconds, "s");
}

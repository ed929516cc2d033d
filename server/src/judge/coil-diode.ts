// The diode across a coil, read on the diode range with the coil's wire off: one way it drops, the other way it is open.
// Every figure here: common practice, no source.

import { defined } from "../base/defined";
import { COIL_DIODE, COIL_DIODE_REVERSED } from "../log/measures";
import type { Reading } from "../log/model";
import type { CellValue } from "../quantity/cell-value";
import { formatValue } from "../quantity/format-value";
import type { Advice } from "../text/saying";
import { besides, single } from "./measured";
import { type TestPoint, testPointName } from "./test-point";
import type { Judgement, Reference } from "./types";

const CODE = "coil-diode";
const PRACTICE = "common practice, no source";
/** Volts at about a milliampere: a silicon rectifier, and what is no diode at all. */
const SILICON = { low: 0.4, high: 0.75 };
/** Below this nothing drops: a short, or the winding itself. */
const SHORTED = 0.05;
/** A Schottky or germanium diode, or one that leaks. */
const LEAST_DROP = 0.15;
/** Two diodes in series, a poor joint, a light-emitting diode. */
const MOST_DROP = 2;
/** More drives no diode range: the figure was millivolts. */
const MILLIVOLTS = 20;
/** Amperes a meter drives through what it tests on the diode range, least and most. */
const TEST_CURRENT = { least: 0.0005, most: 0.002 };

type Way = "open" | "drop" | "low" | "high" | "shorted";

/** Undefined for columns that are not of the diode, and for what is no figure. */
export function judgeCoilDiode(reading: Reading, place: TestPoint | undefined): Judgement | undefined {
  const { measure, value } = reading;
  if (measure !== COIL_DIODE && measure !== COIL_DIODE_REVERSED) return undefined;
  const own = value.kind === "pair" ? value.both.map(single) : [single(value)];
  const beside = besides(reading, measure === COIL_DIODE ? COIL_DIODE_REVERSED : COIL_DIODE);
  const others = value.kind === "pair" || !beside ? [] : [single(beside.value)];
  const volts = [...own, ...others].filter((at): at is number => at !== undefined);
  const first = own[0];
  if (first === undefined || own.some((at) => at === undefined)) return undefined;
  const name = nameOf(reading, place);
  const read = `${name} reads ${typedOf(value, beside?.value)}`;
  const told = defined<Omit<Judgement, "verdict" | "says">>({ reading, place, reference: REFERENCE });
  const isSecond = measure === COIL_DIODE_REVERSED && others[0] !== undefined;
  const answer = (
    verdict: Judgement["verdict"],
    fact: string,
    advice: Advice = {},
    side?: Judgement["side"],
  ): Judgement => ({
    ...told,
    verdict,
    side,
    // The row is told once, at its first column.
    ...(verdict === "unjudged" || verdict === "within-limits" || isSecond ? {} : { code: CODE }),
    says: { ...advice, fact: `${read}${fact}` },
  });
  if (volts.some((at) => Number.isFinite(at) && at > MILLIVOLTS))
    return answer("unjudged", "; no diode range shows so many volts.", {
      step: 'If you meant millivolts, write "mV" behind it.',
    });
  const winding = windingSeen(reading, first);
  if (winding !== undefined && volts.every((at) => Number.isFinite(at) && at <= SHORTED))
    return answer("unjudged", `, which is the winding of ${formatValue(winding, "ohm")} itself.`, {
      cause: "It hides the diode.",
      step: "Take the coil's wire off and read it again.",
    });
  const ways = volts.map(wayOf);
  const has = (way: Way): boolean => ways.includes(way);
  if (has("shorted"))
    return answer(
      "out-of-limits",
      `; a diode drops ${USUAL}.`,
      {
        cause: "It is shorted, or the coil is still on it.",
        step: "Take the coil's wire off and read it again. A shorted diode kills the driver at the first pulse.",
      },
      "low",
    );
  if (ways.length > 1 && ways.every((way) => way === "open"))
    return answer(
      "out-of-limits",
      `, open both ways; a diode drops ${USUAL} one way.`,
      {
        cause: "It is open, missing or has a broken joint, so the coil's kick reaches the driver.",
        step: "Renew it before the coil is driven.",
      },
      "high",
    );
  if (ways.length > 1 && !has("open"))
    return answer(
      "suspect",
      "; it conducts both ways, and a diode is open one way.",
      { cause: "It leaks, or something else is still across it.", step: "Lift one end and read it again." },
      "low",
    );
  if (first === Number.POSITIVE_INFINITY && ways.length === 1)
    return measure === COIL_DIODE_REVERSED
      ? answer("within-limits", ": open, as a diode is this way round.", {
          cause: "Not disproved.",
          step: "Read it the other way too.",
        })
      : answer(
          "out-of-limits",
          `; a diode drops ${USUAL}.`,
          {
            cause: "It is open or missing, or the leads were the other way round.",
            step: "Swap them and read it again. An open diode lets the coil's kick into the driver.",
          },
          "high",
        );
  if (has("low"))
    return answer(
      "suspect",
      `; a silicon diode drops ${USUAL}.`,
      { cause: "It is a Schottky diode, or it leaks.", step: "Lift one end and compare a sister." },
      "low",
    );
  if (has("high"))
    return answer(
      "suspect",
      `; one silicon diode drops ${USUAL}.`,
      { cause: "Two in series, a poor joint or another part.", step: "Check what is fitted." },
      "high",
    );
  if (measure === COIL_DIODE_REVERSED && ways.length === 1)
    return answer(
      "suspect",
      " with the leads reversed; a diode is open this way.",
      { cause: "It may have been read the other way round.", step: "Read it both ways." },
      "low",
    );
  return answer(
    "within-limits",
    `: within the ${USUAL} of a silicon diode${ways.length > 1 ? ", and open the other way" : ""}.`,
    { cause: "Not disproved." },
  );
}

const USUAL = `${formatValue(SILICON.low, "V")} to ${formatValue(SILICON.high, "V")}`;

const REFERENCE: Reference = {
  kind: "physics",
  of: "the diode across a coil",
  ...SILICON,
  unit: "V",
  source: PRACTICE,
};

function wayOf(volts: number): Way {
  if (volts > MOST_DROP) return "open";
  if (volts > SILICON.high) return "high";
  if (volts >= SILICON.low) return "drop";
  return volts >= LEAST_DROP || volts > SHORTED ? "low" : "shorted";
}

/** The winding's resistance from the same row, where the meter's current through it would drop what was read. */
function windingSeen(reading: Reading, volts: number): number | undefined {
  const beside = besides(reading, "resistance");
  const ohms = beside && single(beside.value);
  if (ohms === undefined || !Number.isFinite(ohms) || ohms <= 0 || !(volts > 0)) return undefined;
  return volts >= ohms * TEST_CURRENT.least && volts <= ohms * TEST_CURRENT.most ? ohms : undefined;
}

function nameOf({ subject }: Reading, place: TestPoint | undefined): string {
  const typed = place ? testPointName(place) : (subject.item?.text ?? subject.ref?.text);
  return typed === undefined ? "The coil's diode" : `The diode of ${typed}`;
}

const typedOf = (value: CellValue, other: CellValue | undefined): string =>
  value.kind === "pair" || !other || single(other) === undefined
    ? value.typed
    : `${value.typed}, and ${other.typed} the other way`;

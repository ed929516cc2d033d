// A pin under power, as the diagnosis takes it: what it stands at, and what is wrong with that.

import { defined } from "../../../base/defined";
import type { WrongState } from "../../../compute/diagnosis/strength";
import type { DiagnosisFinding, SeenLevel, SignFinding } from "../../../compute/diagnosis/types";
import { familyLevels } from "../../../compute/logic/family-levels";
import type { Judgement } from "../../../judge";
import { isOnNetOf } from "../../../judge/board-parts";
import { extentOf } from "../../../judge/compare";
import type { LogContext } from "../../../judge/context";
import { isMoving } from "../../../judge/moving";
import { isClock } from "../../../judge/pin-signal";
import { partTestPoint, pinName, type TestPoint, testPointName } from "../../../judge/test-point";
import { siValue } from "../../../judge/uncertainty";
import { boardIndex } from "../../../knowledge/board-index";
import type { Clock, DevicePin, PinRef } from "../../../knowledge/types";
import type { Reading } from "../../../log/model";
import type { Observation } from "../observation";
import { isPeakToPeak } from "../words/header-over";
import { isRestart } from "./restart";
import { biasedBy } from "./self-biased";

/** Levels of TTL, for pins whose family says nothing: volts, SN74LS00 data sheet. */
const LOW = 0.8;
const HIGH = 2.0;

const MOST_VOLTS = 60;
/** A mean of volts that is none: a logic line that stays at one end. */
const NO_MEAN = { low: 0.08, high: 4.75, most: 5.4 } as const;
/** The same where nobody says that it moves: a clock is high for a good part of its time. */
const AT_END = { low: 0.3, high: 4.6 } as const;
/** Hertz from which a clock is no train of needles. Common practice, no source. */
const FAST = 20e3;
const NEAR_DECADE = 0.03;
/** Where an open input of TTL stands, volts: common practice, no source. */
const OPEN = { low: 1.2, high: 1.8 } as const;
/** Volts peak to peak that a signal has at least. */
const SWINGS = 0.05;
const STILL =
  /(?<!not )\b(?:flat|dead still|stands still|does not move|no (?:movement|signal|pulses|clock))\b/i;

/** Pulses that are hardly there. */
const NEEDLE =
  /\b(?:spikes?|needles?|slivers?|glitch(?:es)?|hair(?:line)?|(?:much |far |very )?too (?:short|narrow|thin)|under a (?:micro|us|\u00b5s))/i;

/** A remark stands in the column of signals as well where there is no other. */
const besideOf = ({ subject }: Reading): string =>
  [subject.note?.text, subject.signal?.text].filter((one) => one !== undefined).join("; ");

type State = SeenLevel["state"];

/** Volts of a junction that conducts. Common practice, no source. */
const BASE = { on: 0.55, most: 1 } as const;

/** A base stands at no more than its junction when it is driven. */
const baseState = (volts: number, { device, pin }: TestPoint): "high" | undefined =>
  device?.kind === "transistor" && /^B$|base/i.test(pin?.name ?? "") && volts >= BASE.on && volts <= BASE.most
    ? "high"
    : undefined;

/** What the pin stands at; "between" for a voltage that is no level. */
export function stateAt(reading: Reading, place: TestPoint): State | "between" | undefined {
  const { value, spec, subject } = reading;
  const { family } = place;
  if (value.kind === "state") return value.state;
  const extent = extentOf(value);
  if (!extent || extent.low !== extent.high) return undefined;
  if (spec.quantity === "frequency") return extent.low > 0 ? "pulsing" : undefined;
  // A scope's screen among states shows volts as well.
  const isVolts =
    spec.quantity === "voltage" ||
    (spec.role === "state" && value.kind === "quantity" && value.quantity.dimension === "voltage");
  if (!isVolts) return undefined;
  if (isPeakToPeak(reading)) return extent.low > SWINGS ? "pulsing" : undefined;
  // What a meter shows of a line that moves is somewhere in between, and not nothing.
  if (isMoving(subject.note?.text))
    return extent.low < NO_MEAN.low
      ? "low"
      : extent.low > NO_MEAN.high && extent.low < NO_MEAN.most
        ? "high"
        : "pulsing";
  const based = baseState(extent.low, place);
  if (based !== undefined) return based;
  const levels = family && familyLevels(family);
  const [low, high] = levels?.ok ? [levels.vil, levels.vih] : [LOW, HIGH];
  // No logic stands there: a slip, or another unit.
  if (extent.low > MOST_VOLTS) return undefined;
  return extent.low <= low ? "low" : extent.low >= high ? "high" : "between";
}

/** An input that sets its chip back, by its name, and the level that does; undefined for other pins. */
function resetLevel({ pin }: { readonly pin?: DevicePin | undefined }): "low" | "high" | undefined {
  const name = pin?.direction === "input" ? pin.name : "";
  if (!/RES|RST|CLR/i.test(name)) return undefined;
  return /^[/~]|_N$|N$|BAR$|\*$/i.test(name) ? "low" : "high";
}

const pinOf = ({ ref, pin }: PinRef, ctx: LogContext) => ({
  pin: partTestPoint(ref, ctx.board?.value, ctx.library).device?.pins.get(pin),
});

/** The clock that the same chip makes at another of its pins, where this one is an output of it. */
function madeBeside({ part, pin }: TestPoint, { board }: LogContext): Clock | undefined {
  if (!board || !part || pin?.direction !== "output") return undefined;
  const index = boardIndex(board.value);
  return board.value.clocks.find((at) =>
    index.net(at.ref, at.pin)?.pins.some(({ ref }) => ref === part.ref && ref !== at.ref),
  );
}

/** A delay that its resistor and capacitor do not give. */
export function resetDelayObservations(
  reading: Reading,
  judgement: Judgement,
  ctx: LogContext,
): Observation | undefined {
  const { place, verdict, side } = judgement;
  const isRight = verdict === "within-limits";
  if (reading.measure !== "delay" || !(isRight || verdict === "out-of-limits" || verdict === "suspect"))
    return undefined;
  const reset = ctx.board?.value.resets.find((at) => isOnNetOf(place, reading.subject.signal?.text, at, ctx));
  const pin = place && pinName(place);
  if (!reset) return undefined;
  const ref = place?.part?.ref ?? reset.ref;
  const again = isRestart(reading);
  const of = `the reset delay at ${ref}${again ? " on a restart" : ""}`;
  return defined({
    key: `${reading.table.procedure.id} ${ref} delay${again ? " again" : ""}`.toUpperCase(),
    reset: { ref: reset.ref, isRight, isRestart: again },
    what: of,
    table: reading.table,
    span: reading.cell.span,
    refs: [reset.resistor, reset.capacitor].flatMap((one) => one?.toUpperCase() ?? []),
    finding: isRight
      ? undefined
      : defined<SignFinding>({
          kind: "sign",
          sign: "reset-delay",
          ref,
          pin: pin ?? reset.pin,
          refs: [reset.resistor, reset.capacitor].flatMap((one) => one ?? []),
          state: side === "high" ? "high" : "low",
          of,
          says: `Reset lets go after ${reading.value.typed}, too ${side === "high" ? "late" : "early"} for its resistor and capacitor.`,
        }),
  });
}

/** Undefined where nothing is to be learnt of it. */
export function atLivePin(reading: Reading, judgement: Judgement, ctx: LogContext): Observation | undefined {
  const { place, verdict, side } = judgement;
  const pin = place && pinName(place);
  if (!place?.part || pin === undefined || place.tiedTo) return undefined;
  const { ref } = place.part;
  const state = stateAt(reading, place);
  const isStill =
    reading.spec.quantity === "frequency" && state === undefined && extentOf(reading.value)?.high === 0;
  const clock = ctx.board?.value.clocks.find((at) => isOnNetOf(place, reading.subject.signal?.text, at, ctx));
  const from = (clock ?? madeBeside(place, ctx))?.from;
  const reset = ctx.board?.value.resets.find((at) => isOnNetOf(place, reading.subject.signal?.text, at, ctx));
  const held = resetLevel(place) ?? (reset && (resetLevel(pinOf(reset, ctx)) ?? "low"));
  const wrong = verdict === "out-of-limits" || verdict === "suspect";
  // Being a level is not yet being the right one.
  const isByTheBoard = judgement.reference?.kind === "board";
  const isByBoard = verdict === "within-limits" && judgement.reference?.kind === "board";
  const biased = state === "between" && place.net ? biasedBy(place.net, ctx) : undefined;
  const sign = biased === undefined ? signOf() : undefined;
  const right =
    isByBoard ||
    (clock !== undefined && state === "pulsing" && !wrong) ||
    (held !== undefined && state !== undefined && (state === "low" || state === "high") && state !== held);
  const swings = isPeakToPeak(reading) ? extentOf(reading.value)?.low : undefined;
  if (!sign && state === undefined && swings === undefined) return undefined;
  const what = testPointName(place);
  const finding: DiagnosisFinding | undefined =
    sign &&
    defined<SignFinding>({
      kind: "sign",
      sign: sign[0],
      ref,
      pin,
      state: sign[1],
      refs: sign[0] === "clock-dead" && from !== undefined ? [from] : undefined,
      // Two ways of measuring do not slip together.
      of: reading.spec.quantity === "voltage" ? `the voltage at ${ref} pin ${pin}` : `${ref} pin ${pin}`,
      says: `${what} ${sign[2]}.`,
    });
  const level =
    state === undefined || state === "between"
      ? undefined
      : defined<SeenLevel>({ ref, pin, state, right: (!finding && right) || undefined });
  return defined({
    finding,
    level,
    needle: (level && NEEDLE.test(besideOf(reading))) || undefined,
    swing: swings === undefined ? undefined : { ref, pin, volts: swings },
    against: biased === undefined ? undefined : [{ ref: biased, by: "biased" as const }],
    key: `${reading.table.procedure.id} ${ref}.${pin} ${reading.measure}`.toUpperCase(),
    what,
    table: reading.table,
    span: reading.cell.span,
    refs: [ref.toUpperCase()],
    net: place.net?.name,
  });

  /** Off by tens, hundreds or thousands is another range, or another prefix. */
  function isDecades(): boolean {
    const { low, high } = judgement.reference ?? {};
    const extent = extentOf(reading.value);
    if (low === undefined || high === undefined || !extent || low + high <= 0 || extent.low <= 0)
      return false;
    const decades = Math.log10((2 * extent.low) / (low + high));
    return Math.round(decades) !== 0 && Math.abs(decades - Math.round(decades)) < NEAR_DECADE;
  }

  /** An input of TTL that nothing drives finds its own level. */
  function isOpenInput(): boolean {
    const volts = extentOf(reading.value)?.low ?? 0;
    const isTtl = /ttl|^74(?!HC|C)/i.test(place?.family?.id ?? "");
    return isTtl && place?.pin?.direction === "input" && volts >= OPEN.low && volts <= OPEN.high;
  }

  /** A train of needles has nearly the mean of a line at rest. */
  function isSlowClock(): boolean {
    const hertz = siValue(clock?.nominal ?? "", "Hz");
    return hertz !== undefined && hertz < FAST;
  }

  function signOf(): readonly [SignFinding["sign"], WrongState, string] | undefined {
    const { typed } = reading.value;
    const ticks =
      clock !== undefined ||
      (place?.device !== undefined &&
        place.pin !== undefined &&
        isClock(place.device, place.pin) &&
        place.pin.direction !== "input");
    if (isStill) return ["clock-dead", "steady", `reads ${typed}: it does not move`];
    if (ticks && reading.value.kind === "state" && (state === "low" || state === "high"))
      return ["clock-dead", "steady", `stands ${state} where a clock runs`];
    const isFlat =
      STILL.test(typed) ||
      (reading.spec.quantity === "voltage" && STILL.test(reading.subject.note?.text ?? ""));
    if (ticks && isFlat && state !== "pulsing" && state !== undefined)
      return ["clock-dead", "steady", `reads ${typed} and does not move where a clock runs`];
    // What runs has a mean between its ends.
    const mean = reading.spec.quantity === "voltage" ? extentOf(reading.value)?.high : undefined;
    const atEnd = mean !== undefined && (mean < AT_END.low || (mean > AT_END.high && mean < NO_MEAN.most));
    if (ticks && atEnd && !isSlowClock() && (state === "low" || state === "high"))
      return ["clock-dead", "steady", `reads ${typed}, which is no mean of a clock that runs`];
    if (state === "floating" && place?.pin?.direction !== "not-connected" && expectsLevel(place))
      return ["floating", "floating", "floats"];
    if (held !== undefined && state === held && !isByBoard)
      return ["reset-held", held, `is held ${held}, so that the chip stays reset`];
    if (!wrong) return undefined;
    const isVolts = reading.spec.quantity === "voltage";
    const isSide = side === "high" || side === "low" ? side : undefined;
    // Of an amplifier the output has one place to rest at, and no levels.
    if (isVolts && place?.device?.kind === "analog" && place.pin?.direction === "output" && isSide)
      return ["level", isSide, `reads ${typed}, too ${isSide}`];
    if (state === "between" && isOpenInput())
      return ["open-input", "floating", `reads ${typed}, as an open TTL input does`];
    if (state === "between") return ["level-between", "between", `reads ${typed}, which is no level`];
    if (state === "low" || state === "high") {
      const at: WrongState = side === "low" || side === "high" ? side : state;
      return [verdict === "suspect" ? "level-between" : "level", at, `reads ${typed}, too ${at}`];
    }
    if (state === "pulsing" && verdict === "out-of-limits" && clock !== undefined && isSide && !isDecades())
      return ["clock-off", isSide, `runs at ${typed}, too ${isSide === "high" ? "fast" : "slow"}`];
    const rate = isByTheBoard && isSide ? (isSide === "low" ? "high" : "low") : undefined;
    if (state === "pulsing" && verdict === "out-of-limits" && rate)
      return ["rate-off", rate, `reads ${typed}, ${isSide === "low" ? "slower" : "faster"} than it should`];
    return state === "pulsing" && verdict === "out-of-limits"
      ? ["level-between", "steady", `reads ${typed}, another frequency than it should`]
      : undefined;
  }
}

/** An input is driven by something, and so is the output that was read; a three-state line may float by right. */
const expectsLevel = (place: TestPoint | undefined): boolean =>
  place?.pin === undefined
    ? place?.net !== undefined
    : place.pin.direction === "input" || place.pin.direction === "output";

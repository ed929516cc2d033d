// A standing voltage on a pin: as a level by what feeds the chip, or by what else the pin is.

import { defined } from "../base/defined";
import { familyLevels, inputLevels4000, type Levels } from "../compute/logic/family-levels";
import { type LevelAssessment, compareToLevels as ruleLevel } from "../compute/logic/levels";
import { outputStage } from "../compute/logic/output-stage";
import { inputTechnology } from "../compute/logic/technology";
import type { Result } from "../compute/result";
import type { Family } from "../knowledge/types";
import type { Reading } from "../log/model";
import { formatValue } from "../quantity/format-value";
import { judgeAnalogue } from "./analogue";
import { extentOf } from "./compare";
import type { LogContext } from "./context";
import { deviceLimit } from "./device-limits";
import { judgeExpected } from "./expected";
import { type Fed, type Feed, fedBy } from "./feeding";
import { judgementFrom, unjudged } from "./judgement-from";
import { isMoving } from "./moving";
import { judgeOpenOutput, judgeSwitch } from "./open-output";
import { isClock, signalOf } from "./pin-signal";
import { judgePower } from "./power-pin";
import { supplyPinOf } from "./supply-window";
import { partTestPoint, pinTestPoint, type TestPoint } from "./test-point";
import type { Judgement } from "./types";
import { siValue, uncertaintyOf } from "./uncertainty";

const CODE = "level-undefined";
/** Supplies that a part may have whose own nobody knows: for each of these the verdict has to be the same. */
const ANY_SUPPLY: readonly Feed[] = [3, 4, 5, 6, 8, 9, 10, 12, 15].map((volts) => ({
  volts,
  name: formatValue(volts, "V"),
}));
/** Between these the levels that a sheet prints for 4.5 V or 5 V are taken as they stand; volts. */
const ABOUT_FIVE = [4.5, 5.5] as const;

/** Judged by the input that reads the node: the pin itself, or for an output the first input on its net. */
export function judgeLevel(
  reading: Reading,
  place: TestPoint | undefined,
  ctx: LogContext,
): Judgement | undefined {
  if (reading.spec.quantity !== "voltage" || !place) return undefined;
  const expected = judgeExpected(reading, place, ctx);
  if (expected.verdict !== "unjudged") return expected;
  const extent = extentOf(reading.value);
  const { pin, device, family } = place;
  if (!extent || !pin || !device || extent.low !== extent.high) return undefined;
  const volts = extent.low;
  const uncertainty = uncertaintyOf(reading.value, ctx.meter, "dc-volts");
  const power = judgePower(reading, place, ctx);
  if (power || pin.direction === "ground" || pin.direction === "supply") return power;
  if (isMoving(reading.subject.note?.text)) {
    return unjudged(
      reading,
      place,
      `It reads ${reading.value.typed}. The line moves, so a meter shows its average, which is no level.`,
    );
  }
  const read = { volts, uncertainty };
  if (device.kind === "transistor") return judgeSwitch(reading, place, ctx, read);
  if (pin.direction === "not-connected" || device.kind === "regulator" || device.kind === "diode")
    return undefined;
  const signal = signalOf(device, pin);
  if (signal !== "logic" || pin.share || pin.direction === "passive")
    return judgeAnalogue(reading, place, ctx, read, signal);
  if (!family) return undefined;
  const open = judgeOpenOutput(reading, place, ctx, read);
  return open ?? judgeLogic(reading, place, family, ctx, read);
}

interface Read {
  readonly volts: number;
  readonly uncertainty: number;
}

function judgeLogic(
  reading: Reading,
  place: TestPoint,
  family: Family,
  ctx: LogContext,
  read: Read,
): Judgement | undefined {
  const { pin, device } = place;
  if (!pin || !device) return undefined;
  const own = familyLevels(family);
  const stage = outputStage(pin.direction);
  const receiver = stage ? (receivingPlace(place, ctx) ?? place) : place;
  const receivers = receiver.family ?? family;
  if (!familyLevels(receivers).ok && !own.ok) return unjudged(reading, place, own.reason);
  const supply = supplyPinOf(pin, device);
  const fed: Fed = supply ? fedBy(place, supply, ctx, reading) : { kind: "unknown" };
  if (fed.kind === "contradiction")
    return unjudged(reading, place, `It reads ${reading.value.typed}. ${fed.reason}`);
  const isScaled = scales(receivers, pin.fed);
  const feeds =
    fed.kind === "known"
      ? [fed.feed]
      : fed.kind === "several"
        ? fed.feeds
        : isScaled && receivers.id === "4000"
          ? ANY_SUPPLY
          : [];
  // A pin does not stand above what feeds its chip: rails below the reading are not what does.
  const able = feeds.filter(({ volts }) => read.volts <= volts + BEYOND);
  const asked = able.length > 0 ? able : feeds;
  const at = (feed: Feed | undefined): Result<LevelAssessment> =>
    ruleAt(place, receiver, receivers, feed, fed.kind === "known", read);
  const rulings = asked.length === 0 ? [at(undefined)] : asked.map(at);
  const [first] = rulings;
  if (!first?.ok) return unjudged(reading, place, first?.reason ?? "");
  const isSame = rulings.every(
    (each) => each.ok && each.verdict === first.verdict && each.level === first.level,
  );
  if (!isSame)
    return unjudged(
      reading,
      place,
      `It reads ${reading.value.typed}. Whether that is a level depends on what feeds pin ${supply?.number} (${supply?.name})${fed.kind === "several" ? `: ${feeds.map(({ name }) => name).join(" or ")}` : ", and no rail of that voltage is known"}. Read that pin too, or write down its rail.`,
    );
  if (first.level === "undefined" && isClock(device, pin))
    return unjudged(
      reading,
      place,
      `It reads ${reading.value.typed}. A running clock shows its average on a meter, which is no level.`,
    );
  return judgementFrom(reading, place, first, CODE, { uncertainty: read.uncertainty });
}

/** How far past its supply a pin may read. */
const BEYOND = 0.5;

/** Levels of the 4000 series, of HC and of a pin fed by a supply of its own follow the supply. */
const scales = ({ id }: Family, fed: string | undefined): boolean =>
  id === "4000" || id === "HC" || id === "AC" || id === "C" || fed !== undefined;

function ruleAt(
  place: TestPoint,
  receiver: TestPoint,
  family: Family,
  feed: Feed | undefined,
  isSure: boolean,
  { volts, uncertainty }: Read,
): Result<LevelAssessment> {
  const { pin, device } = place;
  const receiving = levelsAt(family, feed, pin?.fed ?? receiver.pin?.fed, isSure);
  if (!receiving.ok) return receiving;
  const own = place.family && familyLevels(place.family);
  const stage = outputStage(pin?.direction);
  // CMOS sheets promise levels of an output without a load, which no output on a board is.
  const promises = own?.ok && stage === "push-pull" && inputTechnology(place.family?.id) === "ttl";
  const driving: Levels | undefined = promises ? own : undefined;
  const most = highest(place, feed);
  const mayBeOff =
    stage === "three-state" ||
    pin?.direction === "bidirectional" ||
    (stage === "push-pull" && device?.kind === "processor");
  return ruleLevel(
    defined({
      volts,
      uncertainty,
      receiving,
      driving,
      technology: inputTechnology(family.id),
      supply: most,
      mayBeOff: mayBeOff || undefined,
    }),
  );
}

/** The most that a pin may be held at, volts: its supply, its family's, or what its inputs stand. */
function highest({ device, family, pin }: TestPoint, feed: Feed | undefined): number | undefined {
  const tall = pin?.direction === "input" && device ? deviceLimit(device, "input")?.[1] : undefined;
  const usual = family?.supply && siValue(family.supply[1], "V");
  const isWide = usual !== undefined && usual > 5.5;
  const own = feed ? Math.max(feed.volts, isWide ? 0 : (usual ?? 0)) : (usual ?? 5.5);
  return tall === undefined ? own : Math.max(own, tall);
}

/** What the input takes at its supply, with whose word that is. */
function levelsAt(
  family: Family,
  feed: Feed | undefined,
  fed: string | undefined,
  isSure: boolean,
): Result<Levels & { readonly ok: true }> {
  const printed = familyLevels(family);
  if (!feed) return printed;
  const told = isSure ? `, for ${feed.name}` : "";
  if (family.id === "4000") {
    const at = inputLevels4000(Math.min(feed.volts, 15));
    if (!at.ok || !printed.ok) return at.ok ? printed : at;
    return { ...printed, vih: at.vih, vil: at.vil, source: `${at.source}${told}` };
  }
  const isAboutFive = feed.volts >= ABOUT_FIVE[0] && feed.volts <= ABOUT_FIVE[1];
  if (!printed.ok || isAboutFive || !scales(family, fed)) return printed;
  if (fed !== undefined && family.id !== "HC" && family.id !== "AC" && family.id !== "C") {
    // Clocks of three-supply MOS parts: high near their supply, low as for TTL.
    const source = `8080A and 8224 data sheets, from memory${told}`;
    return { ...printed, vih: CLOCK_HIGH * feed.volts, source };
  }
  const scale = feed.volts / ABOUT_FIVE[0];
  return {
    ...printed,
    vih: printed.vih * scale,
    vil: printed.vil * scale,
    source: `${printed.source}, in proportion to the supply${told}`,
  };
}

/** Share of its supply at which a clock of an 8080A is high: 9 V of 12 V, from memory. */
const CLOCK_HIGH = 0.75;

/** The first input on the net, which is what has to understand the level. */
function receivingPlace(place: TestPoint, ctx: LogContext): TestPoint | undefined {
  if (place.pin?.direction === "bidirectional") return undefined;
  const board = ctx.board?.value;
  for (const { ref, pin } of place.net?.pins ?? []) {
    const at = pinTestPoint(partTestPoint(ref, board, ctx.library), pin, board);
    if (
      at.pin?.direction === "input" &&
      at.family?.levels &&
      at.device &&
      signalOf(at.device, at.pin) === "logic"
    )
      return at;
  }
  return undefined;
}

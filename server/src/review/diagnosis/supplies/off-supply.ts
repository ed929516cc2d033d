// A pin that the board has on ground or on a rail, and that does not stand there under power: its joint, whatever part it is of.
// Ground pins of chips are judged by themselves but where the chip stands on them, and supply pins where no other pin of the rail was read beside them.

import type { SignFinding } from "../../../compute/diagnosis/types";
import { extentOf } from "../../../judge/compare";
import type { LogContext } from "../../../judge/context";
import { pinName, type TestPoint, testPointOf } from "../../../judge/test-point";
import { boardIndex } from "../../../knowledge/board-index";
import type { Board } from "../../../knowledge/types";
import type { Reading } from "../../../log/model";
import type { LocatedObservation, Observation } from "../observation";

/** Volts; common practice, no source. */
const OFF = {
  /** Above ground: more than a header and a thick track drop under load. */
  ground: 0.5,
  /** From what another pin of the rail reads in the same table. */
  rail: 1,
  /** Of a rail of few volts, as a share of it. */
  share: 0.2,
} as const;

/** A voltage with the part that it was read at. */
export interface Volt {
  /** Of the part it was read at. */
  readonly ref?: string;
  readonly volts: number;
  readonly reading: Reading;
}

/** @param all by net: each reading of it */
export function offSupplies(all: ReadonlyMap<string, readonly Volt[]>, ctx: LogContext): Observation[] {
  return [...all].flatMap(([name, reads]) => {
    const joint = fedThrough(name, reads, ctx);
    return joint.length > 0 ? joint : reads.flatMap((one) => offSupply(name, one, reads, ctx));
  });
}

/** What a rail drops at the joint by which it is fed, at least: volts, and a share of it; others that agree by that share. */
const DROP = { volts: 0.3, share: 0.05, others: 3, alike: 0.03 } as const;
/** A pin by which a rail comes in: a header, a fuse. */
const FEEDS = /^(?:J|P|CN|CON|X|F)\d/i;

/** One pin that feeds the rail stands above all else on it, and all else alike: its joint drops the rest. */
function fedThrough(name: string, reads: readonly Volt[], ctx: LogContext): Observation[] {
  return reads.flatMap((one): Observation[] => {
    const place = testPointOf(one.reading.subject, ctx);
    const pin = place && pinName(place);
    if (!place?.part || pin === undefined || typeof place.tiedTo !== "object") return [];
    const { ref } = place.part;
    if (!FEEDS.test(ref)) return [];
    const others = reads
      .filter(
        (other) => other.ref !== undefined && other.ref !== ref && other.reading.table === one.reading.table,
      )
      .map(({ volts }) => volts);
    const [least, most] = [Math.min(...others.map(Math.abs)), Math.max(...others.map(Math.abs))];
    const full = Math.abs(one.volts);
    const drop = full - most;
    const isDrop = drop > DROP.volts && drop > DROP.share * full && most - least < DROP.alike * full;
    if (others.length < DROP.others || !isDrop) return [];
    const of = `the voltage at ${ref} pin ${pin}`;
    return [
      {
        key: `off ${ref}.${pin}`.toUpperCase(),
        what: of,
        table: one.reading.table,
        span: one.reading.cell.span,
        refs: [ref.toUpperCase()],
        dropped: name,
        finding: {
          kind: "sign",
          sign: "net-open",
          pins: [{ ref, pin }],
          of,
          says: `${ref} pin ${pin} feeds ${name} and stands ${drop.toFixed(1)} V above all ${others.length} other places on it.`,
        } satisfies SignFinding,
      },
    ];
  });
}

/** The observations without those of a rail that follow from a joint before all of it. */
export function withoutDropped(
  all: readonly LocatedObservation[],
  board: Board,
): readonly LocatedObservation[] {
  const nets = new Set(all.flatMap(({ dropped }) => dropped ?? []));
  if (nets.size === 0) return all;
  const index = boardIndex(board);
  return all.filter(({ finding, dropped }) => {
    if (dropped !== undefined || !finding) return true;
    if (finding.kind === "pin" && finding.powered)
      return !nets.has(index.net(finding.ref, finding.pin)?.name ?? "");
    const isOfRail = finding.kind === "sign" && (finding.sign === "rail-wrong" || finding.sign === "ripple");
    return !(isOfRail && nets.has(board.rails.get(finding.rail ?? "")?.net ?? ""));
  });
}

function offSupply(name: string, one: Volt, reads: readonly Volt[], ctx: LogContext): Observation[] {
  const place = testPointOf(one.reading.subject, ctx);
  const pin = place && pinName(place);
  if (!place?.part || pin === undefined || !place.tiedTo) return [];
  const direction = place.pin?.direction;
  if (direction === "ground" && !standsUp(place, one, reads, ctx)) return [];
  const others = reads.filter((other) => other !== one && other.reading.table === one.reading.table);
  const most = others.reduce((far, { volts }) => (Math.abs(volts) > Math.abs(far) ? volts : far), 0);
  const should = place.tiedTo === "ground" ? 0 : most;
  const isOff =
    place.tiedTo === "ground"
      ? Math.abs(one.volts) > OFF.ground
      : others.length > 0 &&
        Math.abs(should) - Math.abs(one.volts) > Math.min(OFF.rail, OFF.share * Math.abs(should));
  if (!isOff) return [];
  // A test point has no joint that anybody would doubt: what is open lies where the rail is still up.
  const up = /^TP\d/i.test(place.ref) ? others.find(({ volts }) => volts === most) : undefined;
  const upPlace = up && testPointOf(up.reading.subject, ctx);
  const upPin = upPlace && pinName(upPlace);
  const at = upPlace && upPin !== undefined ? { ref: upPlace.ref, pin: upPin } : { ref: place.ref, pin };
  if (/^TP\d/i.test(at.ref)) return [];
  const of = `the voltage at ${place.ref} pin ${pin}`;
  const far = Math.abs(should - one.volts).toFixed(1);
  return [
    {
      key: `off ${place.ref}.${pin}`.toUpperCase(),
      what: of,
      table: one.reading.table,
      span: one.reading.cell.span,
      refs: [place.ref.toUpperCase()],
      finding: {
        kind: "sign",
        sign: "net-open",
        pins: [at],
        of,
        says: `${place.ref} pin ${pin} is on ${name} and stands ${far} V ${place.tiedTo === "ground" ? "above" : "below"} it.`,
      } satisfies SignFinding,
    },
  ];
}

/** Lows of a chip that stand on its own ground, so many at least, and how far above it. Common practice, no source. */
const LIFTED = { least: 2, over: 0.6 } as const;

/** What the chip pulls low stands on its ground pin, while other chips' grounds are at nothing: its own leg, and no lead. */
function standsUp(
  { ref }: TestPoint,
  { reading, volts }: Volt,
  reads: readonly Volt[],
  ctx: LogContext,
): boolean {
  const isDown = reads.some(
    (other) => other.reading.table === reading.table && Math.abs(other.volts) < OFF.ground / 4,
  );
  if (volts < OFF.ground || !isDown) return false;
  const lows = reading.table.readings.filter((one) => {
    const at = one.spec.quantity === "voltage" && one.subject.ref?.text === reading.subject.ref?.text;
    const place = at ? testPointOf(one.subject, ctx) : undefined;
    const read = place?.ref === ref && !place.tiedTo ? extentOf(one.value) : undefined;
    return read !== undefined && read.low > volts - OFF.ground / 4 && read.high < volts + LIFTED.over;
  });
  return lows.length >= LIFTED.least;
}

import { defined } from "../../base/defined";
import type { BoardModel, PartModel } from "./board-model";
import {
  type Conflict,
  type LiftFinding,
  type Member,
  MISTAKE,
  membersOf,
  type PinFinding,
  type PinGroup,
  trackMember,
} from "./conflict";
import type { PartKind } from "./part-kind";
import { lowShare, pinEffect, trackEffect } from "./pin-model";
import { jointSuspect, misreadingSuspect, partSuspect } from "./suspects";

/** What is left of a part's weight once it was off the net and the net stayed low. Common practice, no source. */
export const STILL_LOW_WITHOUT_IT = 0.03;
/** The same where its own junctions or its value read well. Common practice, no source. */
const MEASURED_WELL = 0.1;
/** Whoever pulls a chip for a net has mostly read the net once more before. Common practice, no source. */
const UNREAD_BEFORE = 0.1;
/** Share of a part's faults that come and go between two readings. Common practice, no source. */
const COMES_AND_GOES = 0.1;
/** What comes and goes reads right as often as not. Common practice, no source. */
const RIGHT = 0.5;
/** A ground or supply pin that is not joined to its net: its joint, and hardly ever the chip's own wire. */
const POWER_PIN = { joint: 0.85, readRight: 0.05, chip: 0.006 } as const;
/** A pin that reads open: its own joint where the probe was on the pad, and all the net's where it has no junction. */
const OPEN_PIN = { joint: 0.15, passive: 0.6, track: 0.5 } as const;
/** A rail pulled down by one part of the many on it. Common practice, no source. */
const RAIL_SHARE = 0.1;

/** A net or pin that reads wrong: the parts on the net and its copper, the part measured above all. */
export function pinConflict(model: BoardModel, group: PinGroup): Conflict {
  const { net, direction, readings, uncleared, contradicted } = group;
  const [only] = readings;
  if (only?.alone) return aloneConflict(model, only);
  const measured = new Set(readings.map(({ ref }) => ref.toUpperCase()));
  const lifted = new Set(uncleared.map(({ ref }) => ref.toUpperCase()));
  const places = [...new Set(readings.map(({ ref, pin }) => `${ref} pin ${pin}`))];
  const parts: Member[] = [];
  const copper: Member[] = [];
  const supply = net !== undefined && model.isSupply(net);
  for (const part of net ? model.onNet(net) : [...measured].flatMap((ref) => model.part(ref) ?? [])) {
    const ref = part.part.ref;
    const own = measured.has(ref.toUpperCase());
    // A ground or supply pin that reads high says nothing of the many other parts on ground or the rail.
    if (supply && !own && (direction === "high" || group.restRight)) continue;
    const effect = supply
      ? own && direction !== "low"
        ? POWER_PIN.chip
        : RAIL_SHARE * lowShare(part.kind)
      : pinEffect(part, own, direction) * (direction === "low" ? downShare(model, part) : 1);
    parts.push({
      suspect: partSuspect(ref),
      weight:
        effect *
        (lifted.has(ref.toUpperCase()) ? STILL_LOW_WITHOUT_IT : 1) *
        (group.measured.has(ref.toUpperCase()) ? MEASURED_WELL : 1) *
        (contradicted > 0 ? COMES_AND_GOES * RIGHT ** (contradicted - 1) : 1),
    });
  }
  if (supply && direction !== "low") {
    for (const { ref, pin } of readings)
      copper.push({
        suspect: jointSuspect(ref, pin),
        weight: POWER_PIN.joint * (contradicted > 0 ? POWER_PIN.readRight : 1),
      });
  } else if (contradicted > 0) {
    // A joint, a socket contact or a hairline crack reads one thing now and another when it is touched.
    for (const { ref, pin } of readings)
      copper.push({ suspect: jointSuspect(ref, pin), weight: RIGHT ** contradicted });
    if (net) copper.push(...trackMember(model, net, RIGHT ** contradicted));
  } else if (net) {
    copper.push(...trackMember(model, net, trackEffect(net.pins.length, direction)));
    // What has no junction of its own reads what the rest of its net does, or the way there is open.
    for (const { ref, pin } of direction === "high" ? readings : []) {
      const bare = !conducts(model.part(ref)?.kind);
      if (bare) copper.push(...trackMember(model, net, OPEN_PIN.track));
      copper.push({ suspect: jointSuspect(ref, pin), weight: bare ? OPEN_PIN.passive : OPEN_PIN.joint });
    }
  }
  const prior = readings.reduce(
    (product, { verdict, how }) =>
      product * (verdict === "suspect" ? MISTAKE.suspect : MISTAKE[how ?? "outOfLimits"]),
    1,
  );
  const under = readings.every(({ powered }) => powered) ? " under power" : "";
  const still = uncleared.map(({ ref, leg }) =>
    leg ? `${ref}'s leg by itself does not` : `so with ${ref} off it`,
  );
  const tried = still.length > 0 ? ` (${[...new Set(still)].join("; ")})` : "";
  const how = direction === "low" ? "low" : direction === "high" ? "high or open" : "outside the limits";
  return defined({
    members: membersOf(parts, copper, [
      {
        suspect: misreadingSuspect(
          places.join(", "),
          group.netContradicted ? MISTAKE.netContradicted : slipPrior(prior, contradicted > 0),
        ),
        weight: 1,
      },
    ]),
    reason: `${places.join(", ")} ${places.length === 1 ? "reads" : "read"} ${how}${under}${net ? ` on ${net.name}` : ""}${tried}${contradicted > 0 ? ", and was read within limits as well: measure again" : ""}.`,
    findings: readings,
    contradicted: contradicted > 0 ? contradicted + readings.length : undefined,
  });
}

/**
 * What is left of a crystal with neither lead on ground or a rail: shorted, it joins two signals and holds none of them down; and of
 * a diode with no lead on ground, which holds the node to where its other lead is.
 */
const AFLOAT = { crystal: 0.15, diode: 0.4 } as const;

function downShare(model: BoardModel, { pins, kind }: PartModel): number {
  if (kind === "crystal") return pins.some(({ net }) => model.isSupply(net)) ? 1 : AFLOAT.crystal;
  const leadsAway = kind === "diode" && pins.length === 2 && !pins.some(({ net }) => model.isGround(net));
  return leadsAway ? AFLOAT.diode : 1;
}

const conducts = (kind: PartKind | undefined): boolean =>
  kind !== undefined &&
  ![
    "connector",
    "resistor",
    "resistor-network",
    "switch",
    "capacitor",
    "electrolytic",
    "test-point",
    "fuse",
  ].includes(kind);

/** Of several readings all that were wrong would have to be slips. */
const slipPrior = (prior: number, contradicted: boolean): number =>
  Math.max(1e-9, contradicted ? Math.min(0.4, (prior / MISTAKE.outOfLimits) * MISTAKE.contradicted) : prior);

/** A lifted leg that reads wrong: the chip, and nothing else but a slip. */
function aloneConflict(model: BoardModel, finding: PinFinding): Conflict {
  const { ref, pin, verdict, direction } = finding;
  const part = model.part(ref);
  const prior = verdict === "suspect" ? MISTAKE.suspect : MISTAKE.outOfLimits;
  const how = direction === "low" ? "low" : direction === "high" ? "high or open" : "outside the limits";
  return {
    members: membersOf(
      [
        {
          suspect: partSuspect(part?.part.ref ?? ref),
          weight: part ? pinEffect(part, true, direction) : 0.5,
        },
      ],
      [{ suspect: misreadingSuspect(`${ref} pin ${pin}, lifted`, prior), weight: 1 }],
    ),
    reason: `${ref} pin ${pin} reads ${how} with its leg lifted.`,
    findings: [finding],
  };
}

/** A rail's few ohms are read on a thick track, and hardly go away by a slip. Common practice, no source. */
const RAIL_LIFT = 0.15;

/**
 * A net that came back when a part was off it: that part, or its socket and joint there.
 * @param slips what would have to be a mistake for the net never to have been low
 */
export function liftConflict(
  model: BoardModel,
  finding: LiftFinding,
  slips: readonly Member[],
): Conflict | string | undefined {
  const part = model.part(finding.ref);
  const net = model.board.nets.get(finding.net);
  if (!part) return `${finding.ref} is not a part of this board: lifting it off ${finding.net} is left out.`;
  if (!net) return `${finding.net} is not a net of this board: lifting ${finding.ref} off it is left out.`;
  if (!finding.cleared) return undefined;
  const off = [part, ...(finding.also ?? []).flatMap((ref) => model.part(ref) ?? [])].map(
    (one) => one.part.ref,
  );
  const mistake = MISTAKE.lift * (model.isSupply(net) ? RAIL_LIFT : 1);
  return {
    members: [
      ...off.map((ref) => ({ suspect: partSuspect(ref), weight: 0.95 })),
      { suspect: misreadingSuspect(`${net.name} without ${off.join(" and ")}`, mistake), weight: 1 },
      ...slips.map(({ suspect, weight }) => ({ suspect, weight: weight * UNREAD_BEFORE })),
    ],
    reason: `${net.name} came back with ${off.join(" and ")} off it.`,
    findings: [finding],
  };
}

// Long, because rating and telling a reading go through the same groups. Which single reading is worth taking next: the most expected information for each minute at the bench.

import { defined } from "../../base/defined";
import { finish, type Steps } from "../../base/steps";
import type { Net } from "../../knowledge/types";
import type { Candidate, Diagnosis } from ".";
import { type BoardModel, boardModel } from "./board-model";
import type { Conflict } from "./conflict";
import { entropy, expectedInformation } from "./information";
import { NEAR_SUSPECTS, nearGate, netsNear } from "./near";
import { candidateReadings, MINUTES, type PossibleReading } from "./possible-readings";
import {
  againOutcomes,
  gateOutcomes,
  liftOutcomes,
  NOTHING_ON_NET,
  netsOf,
  type OutcomeModel,
  outcomeModel,
  pinOutcomes,
} from "./reading-outcomes";
import { hasMeasured, type Settling, type SettlingKind, settlings, showsAt } from "./settle";
import { slipSettlings } from "./slips";
import { isRepair, type Suspect, suspectName } from "./suspects";
import type { DiagnosisInput } from "./types";

/** A reading that may be taken next, with what it costs and what it is expected to tell. */
export interface NextReading {
  /** `table-again`: all that was read there, measured as it should be. */
  readonly kind: PossibleReading["kind"] | SettlingKind | "table-again";
  readonly ref: string;
  readonly pin?: string;
  readonly net?: string;
  readonly gate?: string;
  /** The supplies are on for it. */
  readonly live: boolean;
  /** At the bench; common practice, no source, unless the bench gave its own. */
  readonly minutes: number;
  /** Expected drop of the uncertainty over the candidates, in bits. */
  readonly bits: number;
  readonly bitsPerMinute: number;
  /** What to do, without a full stop. */
  readonly action: string;
  /** The same for where there is little room. */
  readonly brief: string;
  /** What it tells apart and at what price: full sentences. */
  readonly why: string;
  /** Both in one. */
  readonly reason: string;
}

/** Which readings are worth taking next, by expected information for each minute. */
export interface ReadingAdvice {
  /** Uncertainty over the candidates now, in bits. */
  readonly bits: number;
  /** Absent where no reading is left that would tell candidates apart. */
  readonly best?: NextReading;
  readonly runnersUp: readonly NextReading[];
  /** Why there is none, as a sentence; absent where there is one. */
  readonly none?: string;
}

export interface AdviceOptions {
  /** The rails were found within limits, so that logic states may be taken. */
  readonly powered?: boolean;
  readonly runnersUp?: number;
  /** The bench's own minutes for a kind of reading, above zero; others are left as they are. */
  readonly minutes?: Partial<Readonly<Record<NextReading["kind"], number>>>;
}

/** Candidates looked at: the likeliest. */
const MOST_CANDIDATES = 80;
const CANDIDATES_A_STEP = 10;
/** Readings weighed: those of the likeliest suspects, as many suspects as it takes. */
const MOST_READINGS = 400;
/** Less than this is not worth switching the meter on for. */
const LEAST_BITS = 1e-4;

/**
 * The reading that promises most bits a minute, and the next best. Rests on the same observation model as the
 * diagnosis (see pin-model), with independent readings; a reading within limits lowers a suspect and clears none.
 */
export const nextReading = (
  input: DiagnosisInput,
  diagnosis: Diagnosis,
  options: AdviceOptions = {},
): ReadingAdvice => finish(nextReadingSteps(input, diagnosis, options));

/** As `nextReading`, in steps. */
export function* nextReadingSteps(
  input: DiagnosisInput,
  diagnosis: Diagnosis,
  options: AdviceOptions = {},
): Steps<ReadingAdvice> {
  const model = boardModel(input.board, input.deviceOf);
  const { read, conflicts } = diagnosis;
  const groups = yield* repairGroups(model, diagnosis.candidates);
  const shares = groups.map(({ share }) => share);
  const minutesOf = (kind: NextReading["kind"]): number => {
    const own = options.minutes?.[kind];
    return own !== undefined && own > 0 ? own : (MINUTES[kind as keyof typeof MINUTES] ?? 1);
  };
  yield;
  const outcomes = outcomeModel(model, read, conflicts);
  const rated: { reading: PossibleReading; bits: number; rate: number; rows: (readonly number[])[] }[] = [];
  const possible = candidateReadings({
    model,
    suspects: diagnosis.ranked.map(({ suspect }) => suspect),
    conflicts,
    findings: input.findings,
    read,
    powered: options.powered ?? false,
    most: MOST_READINGS,
  });
  const measured = hasMeasured(conflicts);
  const near = measured ? netsNear(model, conflicts, diagnosis.ranked) : undefined;
  const likeliest = new Set(
    diagnosis.ranked
      .slice(0, NEAR_SUSPECTS)
      .flatMap(({ suspect }) => (suspect.kind === "part" || suspect.kind === "joint" ? suspect.ref : [])),
  );
  const leader = diagnosis.ranked[0];
  // With nothing but a symptom, whoever is far less likely than the first is not gone for.
  const worthwhile = new Set(
    diagnosis.ranked.flatMap(({ suspect, probability }) =>
      suspect.kind === "part" && probability >= WORTHWHILE * (leader?.probability ?? 0) ? suspect.ref : [],
    ),
  );
  const leads = leader && leader.probability >= LEADS ? leader.suspect : undefined;
  for (const reading of possible) {
    // What has nothing to do with what was found is no reading to take, whatever it costs.
    if (near && reading.kind === "diode-check" && !near.has(reading.net.name)) continue;
    if (near && reading.kind === "diode-check" && !likeliest.has(reading.part.part.ref)) continue;
    if (!near && reading.kind === "diode-check" && !worthwhile.has(reading.part.part.ref)) continue;
    if (near && reading.kind === "gate-states" && !nearGate(model, reading, near)) continue;
    yield;
    const outcomesAt = outcomesOf(outcomes, reading);
    const rows = groups.map((group) => averageOutcomes(outcomesAt, group));
    const bits = expectedInformation(shares, rows);
    if (bits > LEAST_BITS) rated.push({ reading, bits, rate: bits / minutesOf(reading.kind), rows });
  }
  yield;
  const own: Rated[] = [];
  const sure = leader && leader.probability >= SURE ? leader.suspect.id : undefined;
  for (const settling of [
    ...settlings({ model, conflicts, read }, diagnosis.ranked, sure),
    ...slipSettlings(conflicts, diagnosis.candidates),
  ]) {
    const rows = groups.map(({ repairs }) => {
      const shown = showsAt(settling, repairs);
      return [shown, 1 - shown];
    });
    const bits = expectedInformation(shares, rows);
    const isSure =
      settling.first === true || (sure !== undefined && (settling.shows.get(sure) ?? 0) > ITS_OWN);
    if (bits <= LEAST_BITS && !isSure) continue;
    const minutes = options.minutes?.[settling.kind] ?? settling.minutes;
    const ofLeader = leads && settling.shows.has(leads.id) ? OF_LEADER : 1;
    own.push({
      first: isSure,
      rate: (ofLeader * bits) / (minutes * (settling.live ? LIVE_RISK : 1)),
      reading: settled(settling, bits, minutes, groups, rows),
    });
  }
  rated.sort((a, b) => Number(settles(b.reading)) - Number(settles(a.reading)) || b.rate - a.rate);
  const most = 1 + (options.runnersUp ?? 3);
  const advised = [
    ...rated.slice(0, most).map(({ reading, bits, rate, rows }) => ({
      first: settles(reading),
      rate,
      reading: described(reading, bits, minutesOf(reading.kind), groups, rows),
    })),
    ...own,
  ]
    .sort((a, b) => Number(b.first) - Number(a.first) || b.rate - a.rate)
    .slice(0, most)
    .map(({ reading }) => reading);
  // What was measured wrong says nothing, and stands in the way of all that rests on it.
  const first = conflicts.flatMap(
    (conflict) => againFirst(conflict, diagnosis, minutesOf("table-again")) ?? [],
  );
  const [best, ...runnersUp] = [...first, ...advised].slice(0, 1 + (options.runnersUp ?? 3));
  const none = best ? undefined : noAdvice(diagnosis, options.powered ?? false);
  return defined({ bits: entropy(shares), best, runnersUp, none });
}

/** A reading with the power on costs more than its minutes. */
const LIVE_RISK = 1.5;
/** Share from which the likeliest suspect is gone for first, and how far its own reading is preferred for it. */
const LEADS = 0.35;
const OF_LEADER = 4;
/** Of the likeliest suspect's share, what another has at least that is gone for on a symptom alone. */
const WORTHWHILE = 0.1;
/** Share from which there is nothing left to weigh: the suspect's own reading comes first, however little it may still tell. */
const SURE = 0.6;
/** That a reading shows a suspect, from which it is the suspect's own. */
const ITS_OWN = 0.6;

interface Rated {
  readonly first: boolean;
  readonly rate: number;
  readonly reading: NextReading;
}

function settled(
  { kind, ref, pin, net, live, action, wrong }: Settling,
  bits: number,
  minutes: number,
  groups: readonly Group[],
  rows: readonly (readonly number[])[],
): NextReading {
  const told = splits(wrong, groups, rows);
  const why = told.charAt(0).toUpperCase() + told.slice(1);
  return defined({
    kind,
    ref,
    pin,
    net,
    live,
    minutes,
    bits,
    bitsPerMinute: bits / minutes,
    action,
    brief: action,
    why,
    reason: `${action}: ${told} It takes ${timeText(minutes)}.`,
  });
}

function againFirst(
  { findings, members }: Conflict,
  { candidates }: Diagnosis,
  minutes: number,
): NextReading | undefined {
  const [finding] = findings;
  if (finding?.kind !== "table") return undefined;
  const slip = members.find(({ suspect }) => suspect.kind === "misreading")?.suspect.id;
  const share = candidates
    .filter(({ suspects }) => suspects.some(({ id }) => id === slip))
    .reduce((sum, { probability }) => sum + probability, 0);
  const bits = entropy([share, Math.max(0, 1 - share)]);
  const why = `${finding.says} Until then nothing that was read there counts.`;
  return defined({
    kind: "table-again" as const,
    ref: finding.refs[0] ?? "",
    live: false,
    minutes,
    bits,
    bitsPerMinute: bits / minutes,
    action: finding.again,
    brief: finding.again,
    why,
    reason: `${finding.again}: ${why} It takes ${timeText(minutes)}.`,
  });
}

/** What contradicts itself comes first: whatever else is read rests on which of the two holds. */
const settles = (reading: PossibleReading): boolean =>
  reading.kind === "read-again" && reading.conflict.contradicted !== undefined;

interface Group {
  /** What is to be repaired. */
  readonly repairs: readonly Suspect[];
  readonly share: number;
  /** The candidates with these repairs. */
  readonly members: readonly Member[];
}

interface Member {
  readonly ids: ReadonlySet<string>;
  readonly nets: ReadonlySet<Net>;
  readonly share: number;
}

/** Candidates that lead to the same repair are one: which reading was a slip need not be found out. */
function* repairGroups(model: BoardModel, all: readonly Candidate[]): Steps<Group[]> {
  const candidates = all.slice(0, MOST_CANDIDATES);
  const total = candidates.reduce((sum, { probability }) => sum + probability, 0);
  const groups = new Map<string, { repairs: Suspect[]; share: number; members: Member[] }>();
  const known = new Map<string, ReadonlySet<Net>>();
  const netsOfOne = (suspect: Suspect): ReadonlySet<Net> => {
    let nets = known.get(suspect.id);
    if (!nets) {
      nets = netsOf(model, [suspect]);
      known.set(suspect.id, nets);
    }
    return nets;
  };
  for (const [i, { suspects, probability }] of candidates.entries()) {
    if (i % CANDIDATES_A_STEP === 0) yield;
    const repairs = suspects.filter(isRepair);
    const key = repairs.map(({ id }) => id).join();
    const group = groups.get(key) ?? { repairs, share: 0, members: [] };
    group.share += probability / total;
    const nets = new Set<Net>();
    for (const suspect of suspects) for (const net of netsOfOne(suspect)) nets.add(net);
    group.members.push({
      ids: new Set(suspects.map(({ id }) => id)),
      nets,
      share: probability / total,
    });
    groups.set(key, group);
  }
  return [...groups.values()];
}

function averageOutcomes(outcomes: (member: Member) => readonly number[], group: Group): readonly number[] {
  const [first] = group.members;
  if (group.members.length === 1 && first) return outcomes(first);
  const average: number[] = [];
  for (const member of group.members) {
    outcomes(member).forEach((chance, outcome) => {
      average[outcome] = (average[outcome] ?? 0) + (chance * member.share) / group.share;
    });
  }
  return average;
}

function outcomesOf(model: OutcomeModel, reading: PossibleReading): (member: Member) => readonly number[] {
  if (reading.kind === "diode-check") {
    const at = pinOutcomes(model, reading.part, reading.net);
    return ({ nets, ids }) => (nets.has(reading.net) ? at(ids) : NOTHING_ON_NET);
  }
  const outcomes =
    reading.kind === "read-again"
      ? againOutcomes(reading.conflict)
      : reading.kind === "gate-states"
        ? gateOutcomes(reading.part)
        : liftOutcomes(reading.conflict, reading.part.part.ref);
  return ({ ids }) => outcomes(ids);
}

function described(
  reading: PossibleReading,
  bits: number,
  minutes: number,
  groups: readonly Group[],
  rows: readonly (readonly number[])[],
): NextReading {
  const { ref } = reading.part.part;
  const net = "net" in reading ? reading.net.name : undefined;
  const isContradicted = reading.kind === "read-again" && reading.conflict.contradicted !== undefined;
  const action =
    reading.kind === "diode-check"
      ? `Diode check ${ref} pin ${reading.pin} (${net}), unpowered`
      : reading.kind === "read-again"
        ? `Read ${ref} pin ${reading.pin} again (${net}), ${reading.live ? "under power" : "unpowered"}${isContradicted ? ", pressing the chip and flexing the board" : ""}`
        : reading.kind === "gate-states"
          ? `With power on, read the logic states of ${ref} gate ${reading.gate}`
          : reading.kind === "pull"
            ? `With power off, pull ${ref} from its socket and read ${net} again`
            : `With power off, lift the pin of ${ref} on ${net} and read the net again`;
  const told = splits(outcomeOf(reading.kind), groups, rows);
  const why = isContradicted ? `this pin read in limits once and out of limits once, so ${told}` : told;
  return defined({
    kind: reading.kind,
    ref,
    pin: "pin" in reading ? reading.pin : undefined,
    net,
    gate: reading.kind === "gate-states" ? reading.gate : undefined,
    live: reading.kind === "gate-states" || (reading.kind === "read-again" && reading.live),
    minutes,
    bits,
    bitsPerMinute: bits / minutes,
    action,
    brief: isContradicted
      ? `Read ${ref} pin ${"pin" in reading ? reading.pin : ""} again, pressing the chip`
      : action,
    why: why.charAt(0).toUpperCase() + why.slice(1),
    reason: `${action}: ${why} It takes ${timeText(minutes)}.`,
  });
}

/** Never all or nothing: the list is never of everything. */
const percentText = (share: number): string =>
  share < 0.01 ? "under 1 %" : share > 0.99 ? "over 99 %" : `${Math.round(100 * share)} %`;

/** As one says it at the bench: "about 15 s", "about 2 min". */
export const timeText = (minutes: number): string =>
  minutes < 1 ? `about ${Math.round(60 * minutes)} s` : `about ${minutes} min`;

const outcomeOf = (kind: PossibleReading["kind"]): string =>
  kind === "diode-check" || kind === "read-again"
    ? "a reading out of limits"
    : kind === "gate-states"
      ? "a contradiction"
      : "the net coming back";

/**
 * What each outcome would mean: which suspects a wrong one would speak for and against, and what is left of the first of them
 * without it. The last outcome is the one where nothing is seen.
 */
function splits(outcome: string, groups: readonly Group[], rows: readonly (readonly number[])[]): string {
  const wrong = rows.map((row) => 1 - (row.at(-1) ?? 1));
  const average = groups.reduce((sum, { share }, i) => sum + share * (wrong[i] ?? 0), 0);
  const named = ({ repairs }: Group): string =>
    repairs.map(suspectName).join(" with ") || "a slip or a cause off the board";
  const name = (group: Group): string => `${named(group)} (${percentText(group.share)})`;
  const side = (raised: boolean): readonly Group[] =>
    groups.filter((_, i) => wrong[i]! > average === raised).slice(0, 2);
  const [up, down] = [side(true), side(false)];
  const list = (some: readonly Group[]): string => some.map(name).join(" or ");
  const first = up[0] ?? groups[0];
  if (!first) return `${outcome} would be new.`;
  const left =
    1 - average > 0 ? (first.share * (1 - (wrong[groups.indexOf(first)] ?? 0))) / (1 - average) : 0;
  const without = `without it ${named(first)} is left with ${percentText(left)}`;
  return up.length === 0 || down.length === 0
    ? `${outcome} would settle ${name(first)}; ${without}.`
    : `${outcome} would speak for ${list(up)} against ${list(down)}; ${without}.`;
}

/** Why nothing is advised, as a sentence with what to do instead. */
function noAdvice({ conflicts, ranked, bound }: Diagnosis, powered: boolean): string {
  if (conflicts.length === 0) return bound;
  if (!hasMeasured(conflicts) && conflicts.every(({ findings }) => findings[0]?.kind === "symptom"))
    return "Only a symptom is recorded, which points to many parts at once. Read the supply rails first, then the clock and the reset.";
  if (ranked.length === 0)
    return "Everything that was found may be a slip or come from off the board. Read it again.";
  if (!powered)
    return "No reading without power is left that would tell the suspects apart. Read the supply rails; with those right, logic states may.";
  return "No reading is left that would tell the suspects apart. Replace the likeliest, and read again what was wrong.";
}

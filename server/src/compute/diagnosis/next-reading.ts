// Which single reading is worth taking next: the most expected information for each minute at the bench.

import { defined } from "../../base/defined";
import { finish, type Steps } from "../../base/steps";
import type { Net } from "../../knowledge/types";
import type { Candidate, Diagnosis } from ".";
import { type BoardModel, boardModel } from "./board-model";
import type { Conflict } from "./conflict";
import { entropy, expectedInformation } from "./information";
import { MINUTES, type PossibleReading, possibleReadings } from "./possible-readings";
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
import { isRepair, type Suspect, suspectName } from "./suspects";
import type { DiagnosisInput } from "./types";

export interface NextReading {
  /** `table-again`: all that was read there, measured as it should be. */
  readonly kind: PossibleReading["kind"] | "table-again";
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

export interface Advice {
  /** Uncertainty over the candidates now, in bits. */
  readonly bits: number;
  /** Absent where no reading is left that would tell candidates apart. */
  readonly best?: NextReading;
  readonly runnersUp: readonly NextReading[];
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
/** Readings weighed: those of the likeliest suspects, as many suspects as it takes. */
const MOST_READINGS = 150;
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
): Advice => finish(nextReadingSteps(input, diagnosis, options));

/** The same in steps. */
export function* nextReadingSteps(
  input: DiagnosisInput,
  diagnosis: Diagnosis,
  options: AdviceOptions = {},
): Steps<Advice> {
  const model = boardModel(input.board, input.deviceOf);
  const { read, conflicts } = diagnosis;
  const groups = repairGroups(model, diagnosis.candidates);
  const shares = groups.map(({ share }) => share);
  const minutesOf = (kind: NextReading["kind"]): number => {
    const own = options.minutes?.[kind];
    return own !== undefined && own > 0 ? own : MINUTES[kind];
  };
  yield;
  const outcomes = outcomeModel(model, read, conflicts);
  const rated: { reading: PossibleReading; bits: number; rate: number; rows: (readonly number[])[] }[] = [];
  const possible = possibleReadings({
    model,
    suspects: diagnosis.ranked.map(({ suspect }) => suspect),
    conflicts,
    findings: input.findings,
    read,
    powered: options.powered ?? false,
    most: MOST_READINGS,
  });
  for (const reading of possible) {
    yield;
    const rows = groups.map((group) => averageOutcomes(outcomes, reading, group));
    const bits = expectedInformation(shares, rows);
    if (bits > LEAST_BITS) rated.push({ reading, bits, rate: bits / minutesOf(reading.kind), rows });
  }
  rated.sort((a, b) => Number(settles(b.reading)) - Number(settles(a.reading)) || b.rate - a.rate);
  const advised = rated
    .slice(0, 1 + (options.runnersUp ?? 3))
    .map(({ reading, bits, rows }) => described(reading, bits, minutesOf(reading.kind), groups, rows));
  // What was measured wrong says nothing, and stands in the way of all that rests on it.
  const first = conflicts.flatMap(
    (conflict) => againFirst(conflict, diagnosis, minutesOf("table-again")) ?? [],
  );
  const [best, ...runnersUp] = [...first, ...advised].slice(0, 1 + (options.runnersUp ?? 3));
  return defined({ bits: entropy(shares), best, runnersUp });
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
  readonly suspects: readonly Suspect[];
  readonly nets: ReadonlySet<Net>;
  readonly share: number;
}

/** Candidates that lead to the same repair are one: which reading was a slip need not be found out. */
function repairGroups(model: BoardModel, all: readonly Candidate[]): Group[] {
  const candidates = all.slice(0, MOST_CANDIDATES);
  const total = candidates.reduce((sum, { probability }) => sum + probability, 0);
  const groups = new Map<string, { repairs: Suspect[]; share: number; members: Member[] }>();
  for (const { suspects, probability } of candidates) {
    const repairs = suspects.filter(isRepair);
    const key = repairs.map(({ id }) => id).join();
    const group = groups.get(key) ?? { repairs, share: 0, members: [] };
    group.share += probability / total;
    group.members.push({ suspects, nets: netsOf(model, suspects), share: probability / total });
    groups.set(key, group);
  }
  return [...groups.values()];
}

function averageOutcomes(model: OutcomeModel, reading: PossibleReading, group: Group): readonly number[] {
  const [first] = group.members;
  if (group.members.length === 1 && first) return outcomesOf(model, reading, first);
  const average: number[] = [];
  for (const member of group.members) {
    outcomesOf(model, reading, member).forEach((chance, outcome) => {
      average[outcome] = (average[outcome] ?? 0) + (chance * member.share) / group.share;
    });
  }
  return average;
}

function outcomesOf(model: OutcomeModel, reading: PossibleReading, member: Member): readonly number[] {
  const { suspects, nets } = member;
  if (reading.kind === "diode-check") {
    return nets.has(reading.net) ? pinOutcomes(model, reading.part, reading.net, suspects) : NOTHING_ON_NET;
  }
  if (reading.kind === "read-again") return againOutcomes(reading.conflict, suspects);
  if (reading.kind === "gate-states") return gateOutcomes(reading.part, suspects);
  return liftOutcomes(reading.conflict, reading.part.part.ref, suspects);
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
  const told = splits(reading.kind, groups, rows);
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

/** Which suspects a wrong outcome would speak for, and which against. The last outcome is the one where nothing is seen. */
function splits(
  kind: PossibleReading["kind"],
  groups: readonly Group[],
  rows: readonly (readonly number[])[],
): string {
  const wrong = rows.map((row) => 1 - (row.at(-1) ?? 1));
  const average = groups.reduce((sum, { share }, i) => sum + share * (wrong[i] ?? 0), 0);
  const name = ({ repairs, share }: Group): string => {
    const blamed = repairs.map(suspectName).join(" with ") || "a slip or a cause off the board";
    return `${blamed} (${percentText(share)})`;
  };
  const list = (raised: boolean): string =>
    groups
      .filter((_, i) => wrong[i]! > average === raised)
      .slice(0, 2)
      .map(name)
      .join(" or ");
  const [up, down] = [list(true), list(false)];
  if (!up || !down) return "it weighs the candidates anew.";
  const outcome =
    kind === "diode-check" || kind === "read-again"
      ? "a reading out of limits"
      : kind === "gate-states"
        ? "a contradiction"
        : "the net coming back";
  return `${outcome} would speak for ${up} against ${down}.`;
}

// Readings it takes to reach a faulty part: as advised, and pin by pin. Both begin with the symptom alone and have
// the same readings to take: a diode check of one pin, or a part off a net that reads low and the net read again.
// Both have arrived when a reading points at one faulty part: its own pin high or open, or its net back without it.
import { diagnose } from "../../../server/src/compute/diagnosis";
import { nextReading } from "../../../server/src/compute/diagnosis/next-reading";
import { MINUTES } from "../../../server/src/compute/diagnosis/possible-readings";
import type { DiagnosisFinding, WithinLimits } from "../../../server/src/compute/diagnosis/types";
import { findingsOf } from "./measure";
import { deviceOf, regatta } from "./regatta";
import { type Bench, bench, type SimOptions, wiringOf } from "./simulator";

/** Where nothing was reached by then, the search counts with this many readings. */
const GIVE_UP = 600;
/** The leading part is replaced when this sure; a replacement counts as a reading, a needless one too. */
const SURE = 0.9;
/** Minutes for replacing a part. */
const REPLACING = 10;

const wiring = wiringOf(regatta);
const isFaulty = (board: Bench, ref: string): boolean => board.faults.some((fault) => fault.ref === ref);

/** What the search is to save. */
export type Thrift = "readings" | "minutes";
const ALIKE = { "diode-check": 1, "read-again": 1, pull: 1, lift: 1 };

export interface Search {
  readonly readings: number;
  readonly minutes: number;
  /** Parts replaced that were not faulty. */
  readonly needless: number;
}

/** The advice followed to the letter. */
export function asAdvised(options: SimOptions, thrift: Thrift): Search {
  const board = bench(regatta, options);
  const advice = { runnersUp: 0, ...(thrift === "readings" ? { minutes: ALIKE } : {}) };
  let minutes = 0;
  const done = (readings: number): Search => ({ readings, minutes, needless: replaced.length });
  const findings: DiagnosisFinding[] = findingsOf(board.symptoms, []);
  const withinLimits: WithinLimits[] = [];
  const replaced: string[] = [];
  for (let readings = 1; readings <= GIVE_UP; readings += 1) {
    const input = { board: regatta, deviceOf, findings, withinLimits, replaced };
    const diagnosis = diagnose(input);
    if (!diagnosis.ok) throw new Error(diagnosis.reason);
    const leader = diagnosis.ranked.find(
      ({ suspect }) => suspect.kind === "part" && !replaced.includes(suspect.ref),
    );
    const { best } = leader && leader.probability >= SURE ? {} : nextReading(input, diagnosis, advice);
    minutes += best ? best.minutes : REPLACING;
    if (!best) {
      if (!leader) break;
      if (isFaulty(board, leader.suspect.id)) return done(readings);
      replaced.push(leader.suspect.id);
    } else if (best.kind === "diode-check" || best.kind === "read-again") {
      const read = board.read(best.ref, best.pin ?? "");
      const { ref, pin, verdict } = read;
      if (verdict === "high" && isFaulty(board, ref)) return done(readings);
      if (verdict === "within") withinLimits.push({ ref, pin });
      else findings.push({ kind: "pin", ref, pin, verdict: "out-of-limits", direction: verdict });
    } else {
      const net = best.net ?? "";
      const cleared = board.clearedBy(best.ref, net);
      if (cleared) return done(readings);
      findings.push({ kind: "lift", ref: best.ref, net, cleared });
    }
  }
  return done(GIVE_UP);
}

/**
 * Every signal pin of the symptom's circuits in the order of the parts list, then of the rest of the board. On a net
 * that reads low its parts come off one by one, socketed ones first; pins on a net known to be low are left out.
 */
export function pinByPin(options: SimOptions): Search {
  const board = bench(regatta, options);
  const circuits = new Set(board.symptoms.flatMap((symptom) => symptom.circuits));
  const listed = [...wiring.chips, ...wiring.discretes];
  const inside = listed.filter((ref) => circuits.has(regatta.parts.get(ref)?.circuit ?? ""));
  const order = [...inside, ...listed.filter((ref) => !inside.includes(ref))];
  const low = new Set<string>();
  let readings = 0;
  let minutes = 0;
  for (const ref of order) {
    const pins = [...(wiring.pins.get(ref) ?? new Map())].sort((a, b) => Number(a[0]) - Number(b[0]));
    for (const [pin, net] of pins) {
      if (low.has(net.name)) continue;
      readings += 1;
      minutes += MINUTES["diode-check"];
      const { verdict } = board.read(ref, pin);
      if (verdict === "high" && isFaulty(board, ref)) return { readings, minutes, needless: 0 };
      if (verdict !== "low") continue;
      low.add(net.name);
      const members = [...new Set(net.pins.map((at: { ref: string }) => at.ref as string))] as string[];
      const removable = members.filter((member) => !/^(J|TP|SW)\d/.test(member));
      const socketed = (member: string): number => (regatta.parts.get(member)?.socketed ? 0 : 1);
      for (const member of removable.sort((a, b) => socketed(a) - socketed(b))) {
        readings += 1;
        minutes += MINUTES[socketed(member) === 0 ? "pull" : "lift"];
        if (board.clearedBy(member, net.name)) return { readings, minutes, needless: 0 };
      }
    }
  }
  return { readings: GIVE_UP, minutes, needless: 0 };
}

export interface Comparison {
  readonly boards: number;
  /** Means over the boards, in what was to be saved. */
  readonly advised: number;
  readonly pinByPin: number;
  /** One by the other. */
  readonly ratio: number;
  readonly medianAdvised: number;
  readonly medianPinByPin: number;
  /** Boards on which the advice ended without the part. */
  readonly givenUp: number;
  /** Parts replaced for nothing, a board. */
  readonly needless: number;
}

/** Both searches on boards with seeds from `from`, every third with two faults. */
export function comparison(from: number, boards: number, hidden: boolean, thrift: Thrift): Comparison {
  const options = Array.from(
    { length: boards },
    (_, i): SimOptions => ({ seed: from + i, faults: i % 3 === 2 ? 2 : 1, hidden }),
  );
  const advised = options.map((option) => asAdvised(option, thrift));
  const plain = options.map(pinByPin);
  const mean = (list: readonly Search[]) => list.reduce((sum, search) => sum + search[thrift], 0) / boards;
  const median = (list: readonly Search[]) =>
    list.map((search) => search[thrift]).sort((a, b) => a - b)[Math.floor(boards / 2)] ?? 0;
  return {
    boards,
    advised: mean(advised),
    pinByPin: mean(plain),
    ratio: mean(advised) / mean(plain),
    medianAdvised: median(advised),
    medianPinByPin: median(plain),
    givenUp: advised.filter(({ readings }) => readings >= GIVE_UP).length,
    needless: advised.reduce((sum, { needless }) => sum + needless, 0) / boards,
  };
}

// How likely a suspect is to be faulty before anything was measured on this board. Every factor is common
// practice, no source: it orders candidates, and the shop's own history moves it once there is some.
import type { BoardModel, PartModel } from "./board-model";
import type { PartKind } from "./part-kind";
import { isNear, sideBySide } from "./places";
import { isPotentiometer } from "./potentiometer";
import type { Suspect } from "./suspects";
import type { HistoryCount } from "./types";

/** One reason why a suspect is more or less likely than the next. */
export interface PriorFactor {
  readonly name: string;
  readonly factor: number;
  readonly source: string;
}

export interface Prior {
  /** Probability of a fault, between 0 and 0.5, both left out. */
  readonly probability: number;
  readonly factors: readonly PriorFactor[];
}

const SOURCE = "common practice, no source";

/** Chance that a plain logic chip of a board sent in for repair is a cause of the trouble. */
const BASE = 0.02;

const BY_KIND: Readonly<Record<PartKind, number>> = {
  processor: 1.2,
  memory: 1.8,
  interface: 1.8,
  logic: 1,
  analog: 1,
  regulator: 1.5,
  transistor: 0.8,
  diode: 0.5,
  electrolytic: 1,
  capacitor: 0.1,
  resistor: 0.08,
  "resistor-network": 0.15,
  crystal: 0.5,
  battery: 2,
  connector: 0.6,
  switch: 0.4,
  lamp: 0.2,
  fuse: 0.8,
  "test-point": 0.01,
  other: 0.3,
};

const TRACK = 0.001;
const JOINT = 0.0015;
/** Of two nets that somebody has a reason to name; and how much likelier where pins of both stand side by side. */
const BRIDGE = 0.0015;
const SIDE_BY_SIDE = 3;
/** A contact of a socket, and the joint of a header's pin, against any other joint. */
const SOCKET_CONTACT = 2;
const HEADER_JOINT = 3;
/** A switch, a lamp, a diode or a wire in the machine, where a reading points off the board. */
const OUTSIDE = 0.02;
const ELSEWHERE = 0.005;
const NEAR_BATTERY = 3;
/** Of copper and contacts near it, once green or a leaking cell was seen. */
const LEAK_SEEN = 3;
const SOCKETED = 1.3;
const DRIVES_LOAD = 2;
const FACES_OUTSIDE = 1.4;
/** A resistor with a wiper. */
const WIPER = 8;
/** A diode that works in its breakdown all its life. */
const ZENER = 2;
/** Years after which wet capacitors count as aged. */
const AGED_YEARS = 25;
const AGED = 2;
/** A new part may be bad as well, or one of two. */
const REPLACED = 0.02;

export interface PriorOptions {
  readonly history?: readonly HistoryCount[];
  readonly replaced?: readonly string[];
  /** The year the board is on the bench. */
  readonly year?: number;
  /** What the battery leaves was seen on the board. */
  readonly leakSeen?: boolean;
}

/** Gives the prior of a suspect; the board's batteries and the history are looked through once. */
export function priorsOf(model: BoardModel, options: PriorOptions = {}): (suspect: Suspect) => Prior {
  const batteries = [...model.parts.values()]
    .filter(({ kind }) => kind === "battery")
    .map(({ part }) => part);
  const learned = historyFactor(model, options.history ?? []);
  const { era } = model.board;
  const aged = options.year !== undefined && era !== undefined && options.year - era.from >= AGED_YEARS;
  const replaced = new Set((options.replaced ?? []).map((ref) => ref.toUpperCase()));
  const kept = new Map<string, Prior>();

  const ofPart = (part: PartModel): Prior => {
    const factors: PriorFactor[] = [{ name: part.kind, factor: BY_KIND[part.kind], source: SOURCE }];
    const add = (name: string, factor: number) => factors.push({ name, factor, source: SOURCE });
    if (part.part.socketed) add("in a socket, and contacts tire", SOCKETED);
    if (batteries.some((battery) => isNear(part.part, battery)))
      add("near the battery, so at more risk", NEAR_BATTERY);
    const outside = facesOutside(model, part);
    if (outside === "load") add("drives a load off the board, so at more risk", DRIVES_LOAD);
    if (outside === "line") add("wired off the board, so at more risk", FACES_OUTSIDE);
    if (isZener(part)) add("a reference diode, and those work in their breakdown", ZENER);
    if (isPotentiometer(part)) add("a wiper, and wipers wear", WIPER);
    if (aged && part.kind === "electrolytic") add("an electrolytic of this age", AGED);
    if (replaced.has(part.part.ref.toUpperCase())) add("replaced already, and the symptom stayed", REPLACED);
    const own = learned(part.part.ref);
    if (own) factors.push(own);
    return prior(BASE, factors);
  };

  const nearBattery = (isSeen: boolean): PriorFactor[] => [
    { name: "near the battery, so at more risk", factor: NEAR_BATTERY, source: SOURCE },
    ...(isSeen ? [{ name: "and that was seen to have leaked", factor: LEAK_SEEN, source: SOURCE }] : []),
  ];

  const ofJoint = (ref: string): Prior => {
    const part = model.part(ref);
    const factors: PriorFactor[] = [];
    if (part?.part.socketed)
      factors.push({ name: "in a socket, and contacts tire", factor: SOCKET_CONTACT, source: SOURCE });
    if (part?.kind === "connector")
      factors.push({
        name: "a header's joint, and headers are pulled",
        factor: HEADER_JOINT,
        source: SOURCE,
      });
    if (part && batteries.some((battery) => isNear(part.part, battery)))
      factors.push(...nearBattery(options.leakSeen === true));
    return prior(JOINT, factors);
  };

  const ofTrack = (net: string): Prior => {
    const members = model.board.nets.get(net);
    const leaked = members && model.onNet(members).some(({ part }) => batteries.some((b) => isNear(part, b)));
    return prior(TRACK, leaked ? nearBattery(options.leakSeen === true) : []);
  };

  const ofBridge = ([one, other]: readonly [string, string]): Prior => {
    const at = sideBySide(model, one, other)?.ref;
    return prior(
      BRIDGE,
      at === undefined
        ? []
        : [{ name: `pins of both side by side at ${at}`, factor: SIDE_BY_SIDE, source: SOURCE }],
    );
  };

  const work = (suspect: Suspect): Prior => {
    if (suspect.kind === "track") return ofTrack(suspect.net);
    if (suspect.kind === "bridge") return ofBridge(suspect.nets);
    if (suspect.kind === "joint") return ofJoint(suspect.ref);
    if (suspect.kind === "outside") return prior(OUTSIDE, []);
    if (suspect.kind === "misreading") return prior(suspect.prior, []);
    if (suspect.kind === "elsewhere") return prior(ELSEWHERE, []);
    const part = model.part(suspect.ref);
    return part ? ofPart(part) : prior(BASE, []);
  };
  return (suspect) => {
    let known = kept.get(suspect.id);
    if (!known) {
      known = work(suspect);
      kept.set(suspect.id, known);
    }
    return known;
  };
}

function prior(base: number, factors: readonly PriorFactor[]): Prior {
  const product = factors.reduce((value, { factor }) => value * factor, base);
  // Above one half a fault would be likelier than none, and a larger explanation likelier than a smaller.
  return { probability: Math.min(0.4, Math.max(1e-9, product)), factors };
}

/**
 * The shop's own jobs as a factor, with one case added for every part (Laplace's rule of succession): a part's
 * share of the cures against an even share, so no history is a factor of one, and a part that never cured it keeps
 * some. Counts that are not whole numbers above zero, or of parts the board does not have, are left out.
 */
function historyFactor(
  model: BoardModel,
  history: readonly HistoryCount[],
): (ref: string) => PriorFactor | undefined {
  const counts = new Map<string, number>();
  for (const { ref, count } of history) {
    if (!model.part(ref) || !Number.isSafeInteger(count) || count <= 0) continue;
    counts.set(ref.toUpperCase(), (counts.get(ref.toUpperCase()) ?? 0) + count);
  }
  const total = [...counts.values()].reduce((sum, count) => sum + count, 0);
  const parts = model.parts.size;
  return (ref) => {
    if (total === 0) return undefined;
    const count = counts.get(ref.toUpperCase()) ?? 0;
    return {
      name: `${count} of the ${total} replacements that cured this symptom before`,
      factor: (parts * (count + 1)) / (total + parts),
      source: "this shop's own jobs, with one case added for every part",
    };
  };
}

const isZener = ({ kind, device, part }: PartModel): boolean =>
  kind === "diode" &&
  /zener/i.test(`${part.device ?? ""} ${part.value ?? ""} ${device?.title ?? ""} ${device?.id ?? ""}`);

/** Whether an active part's pins leave the board, and whether as a driver that sinks or sources a load. */
function facesOutside(
  model: BoardModel,
  { kind, device, signalPins }: PartModel,
): "load" | "line" | undefined {
  if (kind === "connector" || kind === "test-point" || !device) return undefined;
  const leaving = signalPins.filter(({ net }) =>
    model.onNet(net).some((other) => other.kind === "connector"),
  );
  if (leaving.length === 0) return undefined;
  const drives = leaving.some(({ pin }) => {
    const direction = device.pins.get(pin)?.direction;
    return direction === "open-collector" || direction === "open-emitter";
  });
  return drives ? "load" : "line";
}

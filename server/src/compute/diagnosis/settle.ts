// Long, because each kind of part has its own reading, one beside the other. The readings that settle one suspect at its own pins: what a part measures by itself, whether a joint rings through,
// whether it works with another part in the place. Only for suspects that something measured points to.
import type { Candidate } from ".";
import type { BoardModel, PartModel } from "./board-model";
import type { Conflict } from "./conflict";
import { sideBySide } from "./places";
import type { ReadNets } from "./read-nets";
import type { Suspect } from "./suspects";
import type { DiagnosisFinding } from "./types";

export type SettlingKind =
  | "capacitance-esr"
  | "continuity"
  | "crossing"
  | "diode-check"
  | "inspection"
  | "lift"
  | "read-again"
  | "resistance"
  | "swap"
  | "transistor-junctions"
  | "voltage";

export interface Settling {
  readonly kind: SettlingKind;
  readonly ref: string;
  readonly pin?: string;
  readonly net?: string;
  readonly live: boolean;
  /** Before anything else is done. */
  readonly first?: true;
  readonly minutes: number;
  /** What to do, without a full stop. */
  readonly action: string;
  /** What would be seen where the suspect is at fault, without a full stop. */
  readonly wrong: string;
  /** By suspect, that it would be seen; anything else shows it by chance only. */
  readonly shows: ReadonlyMap<string, number>;
}

/** Minutes at the bench and how surely a fault is seen. Common practice, no source. */
const COST = {
  continuity: { minutes: 0.5, sure: 0.95 },
  resistance: { minutes: 0.5, sure: 0.9 },
  "diode-check": { minutes: 0.5, sure: 0.85 },
  "transistor-junctions": { minutes: 0.75, sure: 0.9 },
  "capacitance-esr": { minutes: 1, sure: 0.85 },
  voltage: { minutes: 0.75, sure: 0.85 },
  inspection: { minutes: 1, sure: 0.5 },
  crossing: { minutes: 2, sure: 0.9 },
  swapSocketed: { minutes: 1.5, sure: 0.95 },
  swapSmall: { minutes: 4, sure: 0.95 },
  swapChip: { minutes: 6, sure: 0.95 },
  lift: { minutes: 3, sure: 0.95 },
  pin: { minutes: 0.5, sure: 0.5 },
} as const;
/** That a reading shows something where the suspect is not at fault. */
export const BY_CHANCE = 0.03;
/** Suspects that are gone into, likeliest first. */
const MOST = 14;

interface Scope {
  readonly model: BoardModel;
  readonly conflicts: readonly Conflict[];
  readonly read: ReadNets;
}

const isMeasured = ({ findings: [finding] }: Conflict): boolean =>
  finding !== undefined &&
  finding.kind !== "symptom" &&
  finding.kind !== "pin" &&
  finding.kind !== "table" &&
  finding.kind !== "chip";

/** Something other than drops at pins was found, so that there is more to do than to read more drops. */
export const hasMeasured = (conflicts: readonly Conflict[]): boolean => conflicts.some(isMeasured);

/**
 * Likeliest suspects first; none for those that only a symptom or a drop points to.
 * @param sure id of a suspect that there is little doubt of: where it is no part, whatever points to it
 */
export function settlings(
  scope: Scope,
  ranked: readonly { readonly suspect: Suspect }[],
  sure?: string,
): Settling[] {
  const pointed = new Set(
    scope.conflicts.filter(isMeasured).flatMap(({ members }) => members.map(({ suspect }) => suspect.id)),
  );
  const found = new Map<string, Settling>();
  const isGoneInto = ({ id, kind }: Suspect): boolean => pointed.has(id) || (id === sure && kind !== "part");
  for (const { suspect } of ranked.filter((one) => isGoneInto(one.suspect)).slice(0, MOST)) {
    for (const one of ofSuspect(scope, suspect)) {
      const key = `${one.kind} ${one.ref} ${one.pin ?? ""} ${one.net ?? ""}`;
      const known = found.get(key);
      found.set(key, known ? { ...known, shows: new Map([...known.shows, ...one.shows]) } : one);
    }
  }
  return [...found.values()];
}

const SETTING = /^the setting of (\S+)$/;

function ofSuspect(scope: Scope, suspect: Suspect): Settling[] {
  const { model } = scope;
  switch (suspect.kind) {
    case "joint": {
      const net = model.netAt(suspect.ref, suspect.pin);
      const cost = COST.continuity;
      const [kind, part] = ["continuity" as const, model.part(suspect.ref)];
      const contact = part?.part.socketed ? "the leg" : "the pin";
      return [
        {
          kind,
          ref: suspect.ref,
          pin: suspect.pin,
          ...(net ? { net: net.name } : {}),
          live: false,
          minutes: cost.minutes,
          action: `Ring ${suspect.ref} pin ${suspect.pin} through to the rest of ${net?.name ?? "its net"}, on ${contact} itself, unpowered`,
          wrong: "no beep",
          shows: new Map([[suspect.id, cost.sure], ...(net ? [[`track ${net.name}`, 0.5] as const] : [])]),
        },
      ];
    }
    case "track": {
      const net = model.board.nets.get(suspect.net);
      const [from] = pinsRead(scope, suspect.net) ?? net?.pins ?? [];
      if (!net || !from) return [];
      const joints = net.pins.map(({ ref, pin }) => [`joint ${ref}.${pin}`, 0.6] as const);
      return [
        {
          kind: "continuity",
          ref: from.ref,
          pin: from.pin,
          net: net.name,
          live: false,
          minutes: COST.continuity.minutes * 1.5,
          action: `Ring ${net.name} through from ${from.ref} pin ${from.pin} to its other ends, and to its neighbours, unpowered`,
          wrong: "an end that does not beep, or a neighbour that does",
          shows: new Map([[suspect.id, COST.continuity.sure], ...joints]),
        },
      ];
    }
    case "bridge":
      return [bridge(scope, suspect)];
    case "outside": {
      const bank = SETTING.exec(suspect.of)?.[1];
      if (bank !== undefined)
        return [
          {
            kind: "inspection",
            ref: bank,
            live: false,
            minutes: COST.inspection.minutes,
            action: `Look at how ${bank} is set, and ask whether it is meant so`,
            wrong: "a setting that makes it do so",
            shows: new Map([[suspect.id, COST.crossing.sure]]),
          },
        ];
      return [
        {
          kind: "crossing",
          ref: suspect.of,
          live: false,
          minutes: COST.crossing.minutes,
          action: `Look in the machine: ${suspect.of}`,
          wrong: "a fault there",
          shows: new Map([[suspect.id, COST.crossing.sure]]),
        },
      ];
    }
    case "part": {
      const part = model.part(suspect.ref);
      return part ? ofPart(scope, part) : [];
    }
    default:
      return [];
  }
}

/** Two nets are rung against each other; where that was done, what is left is to look where their pins stand side by side. */
function bridge({ model, conflicts }: Scope, { id, nets }: Extract<Suspect, { kind: "bridge" }>): Settling {
  const [one, other] = nets.map((name) => model.board.nets.get(name));
  const net = one && !model.isSupply(one) ? one : (other ?? one);
  const rung = conflicts
    .flatMap(({ findings }) => findings)
    .find(
      (finding) =>
        finding.kind === "sign" &&
        finding.sign === "continuity-short" &&
        nets.every((name) => finding.nets?.includes(name)),
    );
  const isRung = rung !== undefined;
  // Where it was rung on one part, that is where its pins stand side by side.
  const [from, to] = rung?.kind === "sign" ? (rung.pins ?? []) : [];
  const at = from && from.ref === to?.ref ? from : (sideBySide(model, ...nets) ?? from ?? net?.pins[0]);
  const { minutes, sure } = isRung ? { ...COST.inspection, sure: COST.crossing.sure } : COST.continuity;
  return {
    kind: isRung ? "inspection" : "continuity",
    ref: at?.ref ?? "",
    ...(at ? { pin: at.pin } : {}),
    ...(net ? { net: net.name } : {}),
    live: false,
    minutes,
    action: isRung
      ? `Look along ${nets.join(" and ")} with a glass for what joins them, first at ${at?.ref} pin ${at?.pin}`
      : `Ring ${nets[0]} against ${nets[1]}, unpowered`,
    wrong: isRung ? "solder, dirt or a hair between the two" : "a beep",
    shows: new Map([[id, sure]]),
  };
}

/** Pins of the net that something was found at. */
function pinsRead({ conflicts }: Scope, net: string) {
  for (const { findings } of conflicts)
    for (const finding of findings)
      if (finding.kind === "sign" && finding.nets?.includes(net) && finding.pins?.[0]) return finding.pins;
  return undefined;
}

/** Measured by itself already, and found wrong: what is left is to renew it and see. */
const isSettled = (findings: readonly DiagnosisFinding[], ref: string): boolean =>
  findings.some((finding) =>
    finding.kind === "part"
      ? finding.ref === ref && finding.verdict === "out-of-limits"
      : finding.kind === "lift"
        ? finding.ref === ref && finding.cleared
        : finding.kind === "sign" &&
          (finding.sign === "failed-alone" ||
            finding.sign === "swap-better" ||
            finding.sign === "coil-diode") &&
          finding.refs?.includes(ref),
  );

function ofPart(scope: Scope, part: PartModel): Settling[] {
  const { ref } = part.part;
  const findings = scope.conflicts.flatMap((conflict) => conflict.findings);
  const one = (
    kind: SettlingKind,
    cost: { readonly minutes: number; readonly sure: number },
    action: string,
    wrong: string,
    more: { readonly pin?: string; readonly net?: string; readonly live?: boolean } = {},
  ): Settling => ({
    live: false,
    ...more,
    kind,
    ref,
    minutes: cost.minutes,
    action,
    wrong,
    shows: new Map([[ref, cost.sure]]),
  });
  const swap = () =>
    one(
      "swap",
      part.part.socketed ? COST.swapSocketed : part.pins.length > 4 ? COST.swapChip : COST.swapSmall,
      `With power off, put another part, one that works elsewhere, in the place of ${ref}, then read again what was wrong`,
      "all well with the other part",
    );
  if (isSettled(findings, ref)) return [swap()];
  switch (part.kind) {
    case "resistor":
    case "resistor-network":
    case "lamp":
      return [
        one(
          "resistance",
          COST.resistance,
          `Measure the resistance of ${ref}, unpowered`,
          "a value above its own",
        ),
      ];
    case "electrolytic":
    case "capacitor":
      return findings.some(
        (finding) => finding.kind === "sign" && (finding.sign === "rail-short" || finding.state === "low"),
      )
        ? [
            one(
              "lift",
              COST.lift,
              `With power off and discharged, lift one leg of ${ref} and read again what was low`,
              "what was low coming back",
            ),
            one(
              "capacitance-esr",
              COST["capacitance-esr"],
              `Measure ${ref}: capacitance and series resistance, discharged`,
              "too little of it, or a short",
            ),
          ]
        : [
            one(
              "capacitance-esr",
              COST["capacitance-esr"],
              `Measure ${ref}: capacitance and series resistance, discharged`,
              "too little of it, or a short",
            ),
          ];
    case "diode":
      return [
        one(
          "diode-check",
          COST["diode-check"],
          `Diode check ${ref} by itself, both ways round, unpowered`,
          "no drop, or a drop both ways",
        ),
      ];
    case "transistor":
      return [
        one(
          "transistor-junctions",
          COST["transistor-junctions"],
          `Read the junctions of ${ref}, unpowered`,
          "a junction that is open or shorted",
        ),
      ];
    case "fuse":
      return [one("continuity", { minutes: 0.25, sure: 0.97 }, `Ring ${ref} through, unpowered`, "no beep")];
    case "regulator": {
      return [
        one(
          "voltage",
          COST.voltage,
          `With power on, read the input, the ground pin and the output of ${ref}`,
          "an input in its limits and a wrong output",
          { live: true },
        ),
      ];
    }
    case "switch":
      return [
        one(
          "continuity",
          COST.continuity,
          `Ring the contacts of ${ref} through, open and closed, unpowered`,
          "a contact that does not follow",
        ),
      ];
    case "connector":
      return [
        one(
          "inspection",
          COST.inspection,
          `Look at the pins and joints of ${ref} with a glass, and press on them`,
          "a cracked, burnt or loose pin",
        ),
      ];
    case "test-point":
      return [];
    case "crystal":
    case "battery":
      return [swap()];
    default: {
      const at = pinOf(scope, part);
      if (!at) return [swap()];
      const { pin, net } = at;
      const place = { pin, net: net.name };
      // Read there already: off its pad the pin tells by itself whether it or the net was wrong.
      if (at.isRead)
        return part.part.socketed
          ? [swap()]
          : [
              one(
                "lift",
                COST.lift,
                `With power off, lift ${ref} pin ${pin} (${net.name}) and read the pin and the net again, each by itself`,
                "the net right without it",
                place,
              ),
              swap(),
            ];
      const check = one(
        "diode-check",
        COST.pin,
        `Diode check ${ref} pin ${pin} (${net.name}), and the same pin of its like, unpowered`,
        "a drop unlike its like",
        place,
      );
      return part.part.socketed ? [swap(), check] : [check, swap()];
    }
  }
}

/** The chip's pin that something was found at, else its pin on the net that most points to; whether its drop was read. */
function pinOf({ conflicts, read }: Scope, part: PartModel) {
  const { ref } = part.part;
  const nets = new Map<string, number>();
  const wrong = new Set<string>();
  for (const conflict of conflicts) {
    if (!conflict.members.some(({ suspect }) => suspect.id === ref)) continue;
    for (const finding of conflict.findings)
      if (finding.kind === "pin" && finding.ref === ref && !finding.powered) wrong.add(finding.pin);
    if (!isMeasured(conflict)) continue;
    for (const { suspect, weight } of conflict.members)
      if (suspect.kind === "track") nets.set(suspect.net, Math.max(nets.get(suspect.net) ?? 0, weight));
  }
  const isRead = (pin: string): boolean => wrong.has(pin) || read.pins.has(`${ref}.${pin}`.toUpperCase());
  const [best] = part.signalPins
    .filter(({ pin, net }) => wrong.has(pin) || nets.has(net.name))
    .map(({ pin, net }) => ({
      pin,
      net,
      isRead: isRead(pin),
      weight: wrong.has(pin) ? 1 : nets.get(net.name)!,
    }))
    .sort((one, other) => other.weight - one.weight);
  return best;
}

/** That a set of suspects shows at a reading. */
export const showsAt = ({ shows }: Settling, set: Candidate["suspects"]): number =>
  1 - set.reduce((rest, { id }) => rest * (1 - (shows.get(id) ?? 0)), 1 - BY_CHANCE);

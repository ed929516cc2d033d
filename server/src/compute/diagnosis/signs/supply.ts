// Long, because each kind of part that makes a rail stands beside the others. A rail that reads wrong: what makes it, stage by stage back to the transformer, and what hangs on its own net; never
// what hangs on another.
import type { Net, Rail } from "../../../knowledge/types";
import { isPnp, opposite, otherEnds, pinRoleOf, powerPins } from "../around";
import type { BoardModel, PartModel } from "../board-model";
import { type Member, membersOf } from "../conflict";
import { lowShare } from "../pin-model";
import type { ReadNets } from "../read-nets";
import { elsewhereSuspect, jointSuspect, outsideSuspect, partSuspect, trackSuspect } from "../suspects";
import type { SignFinding } from "../types";
import { upstreamOf } from "../upstream";
import { fedFrom } from "../working";
import { withDeadRail } from "./dead-rail";

type Wrong = "low" | "high" | "ripple" | "mains";

type Effects = Readonly<Record<Wrong, number>>;
const by = (low: number, high: number, ripple: number, mains: number): Effects => ({
  low,
  high,
  ripple,
  mains,
});

/** What each makes of a rail behind it. Common practice, no source. */
const MAKER = {
  regulator: by(0.6, 0.8, 0.15, 0.02),
  regulatorJoint: by(0.3, 0.02, 0.05, 0.01),
  groundJoint: by(0.05, 0.6, 0.1, 0.02),
  reservoir: by(0.35, 0, 0.75, 0.1),
  output: by(0.25, 0, 0.12, 0.01),
  rectifier: by(0.35, 0, 0.25, 0.8),
  // A winding that does not reach it takes half of the peaks, or all of them.
  rectifierJoint: by(0.25, 0, 0.1, 0.6),
  // In one half of a winding with a tap: half of the peaks are gone.
  fuse: by(0.6, 0, 0.05, 0.7),
  header: by(0.3, 0, 0.05, 0.2),
  // What a discrete regulator passes its current through, and what drives that.
  pass: by(0.5, 0.5, 0.1, 0.02),
  series: by(0.5, 0.02, 0.05, 0.02),
  diode: by(0.6, 0.1, 0.1, 0.3),
  // One of several that feed the net: without it half of the peaks are left.
  oneOfDiodes: by(0.3, 0.05, 0.2, 0.8),
  load: by(0.12, 0.01, 0.02, 0),
  // From what feeds the regulator straight to what it makes.
  beside: by(0.05, 0.6, 0.1, 0.01),
  outside: by(0.3, 0.1, 0.1, 0.2),
} as const;

/** A short to ground on the net itself, by kind of part. */
const SHORT: Readonly<Record<string, number>> = {
  electrolytic: 0.5,
  capacitor: 0.45,
  diode: 0.35,
  regulator: 0.2,
  transistor: 0.3,
  connector: 0.03,
  "test-point": 0.005,
  resistor: 0.01,
  "resistor-network": 0.01,
};
const SHORT_CHIP = 0.25;
/** Low only under power, where the resistance to ground was in its window: hardly a short. */
const NO_SHORT = 0.15;
const PER_STAGE = 0.95;

/** What is left of what can only lower a rail where it reads nothing, or at least not take all of it: half a rectifier, a dry reservoir. */
const DEAD = { oneOfDiodes: 0.3, reservoir: 0.7, notShort: 0.1 } as const;

/** What is left of a capacitor on a rail that is low and has next to no ripple. */
const CALM = 0.2;

/** What is left of a fuse before a bridge whose minus is ground, where half of the peaks are missing. */
const UNTAPPED = 0.05;

const isBridge = (part: PartModel | undefined): boolean => part?.kind === "diode" && part.pins.length > 2;

/** A bridge on the net has neither end on ground: the winding has a tap, which is. */
const isTapped = (model: BoardModel, net: Net): boolean =>
  model
    .onNet(net)
    .some(
      ({ kind, pins }) =>
        kind === "diode" && pins.length === 4 && !pins.some((pin) => model.isGround(pin.net)),
    );

interface Stage {
  readonly net: Net;
  readonly rail?: Rail;
  readonly left: number;
  readonly wrong: Wrong;
}

const railOn = (model: BoardModel, net: Net): Rail | undefined =>
  [...model.board.rails.values()].find((rail) => rail.net === net.name);

function made(model: BoardModel, rail: Rail, wrong: Wrong, read: ReadNets, isDead = false): Member[] {
  const members: Member[] = [];
  const first = model.board.nets.get(rail.net ?? "");
  const add = (part: PartModel, weight: number) =>
    members.push({ suspect: partSuspect(part.part.ref), weight });
  if (!first) {
    for (const ref of [rail.regulator, rail.reservoir]) {
      const part = ref === undefined ? undefined : model.part(ref);
      if (part) add(part, MAKER[part.kind === "regulator" ? "regulator" : "reservoir"][wrong]);
    }
    const input = model.board.rails.get(rail.input ?? "");
    if (input && !read.railsRight.has(input.name)) members.push(...made(model, input, wrong, read, isDead));
  }
  const stages: Stage[] = first ? [{ net: first, rail, left: 1, wrong }] : [];
  const seen = new Set<Net>(first ? [first] : []);
  for (let i = 0; i < stages.length && i < 12; i += 1) {
    const { net, rail: own, left, wrong: how } = stages[i]!;
    const go = (next: Net | undefined, share: number, before?: Wrong) => {
      if (!next || seen.has(next) || model.isGround(next)) return;
      seen.add(next);
      const there = railOn(model, next);
      // What reads right is not behind it: only what stands between is left.
      if (there && read.railsRight.has(there.name) && (how !== "ripple" || read.railsCalm.has(there.name)))
        return;
      stages.push({
        net: next,
        ...(there ? { rail: there } : {}),
        left: left * share * PER_STAGE,
        wrong: before ?? how,
      });
    };
    const byHeader = model.onNet(net).some(({ kind }) => kind === "connector");
    const feeding = net.pins.filter(({ ref, pin }) => {
      const part = model.part(ref);
      return part?.kind === "diode" && part.pins.length === 2 && feedsThrough(model, part, pin);
    });
    const isPassed = net.pins.some(({ ref, pin }) => isBehindPass(model, ref, pin));
    const isMade = net.pins.some(({ ref, pin }) => {
      const part = model.part(ref);
      // A fuse on the way back to the winding is what was come through.
      return part !== undefined && makes(part, pin) && !(i > 0 && part.kind === "fuse");
    });
    for (const { ref, pin } of net.pins) {
      const part = model.part(ref);
      if (!part) continue;
      const effect = (effects: Effects) => effects[how] * left;
      const joint = (at: string, weight: number) =>
        members.push({ suspect: jointSuspect(part.part.ref, at), weight });
      switch (part.kind) {
        case "regulator": {
          if (part.device?.pins.get(pin)?.direction !== "output") break;
          add(part, effect(MAKER.regulator));
          joint(pin, effect(MAKER.regulatorJoint));
          const { ground, supply } = powerPins(part);
          for (const at of ground) joint(at, effect(MAKER.groundJoint));
          for (const at of supply) {
            joint(at, effect(MAKER.regulatorJoint));
            go(model.netAt(part.part.ref, at), 1);
          }
          break;
        }
        case "electrolytic":
          if (isReservoir(model, part, net, own)) add(part, effect(MAKER.reservoir) * dried(own));
          else add(part, effect(MAKER.output) * drained(own));
          if (isReservoir(model, part, net, own)) joint(pin, effect(MAKER.reservoir) * 0.3);
          break;
        case "capacitor":
          add(part, effect(MAKER.load) * 2 * drained(own));
          break;
        case "diode":
          if (part.pins.length > 2) {
            add(part, effect(MAKER.rectifier));
            for (const other of part.pins)
              if (other.net !== net && !model.isGround(other.net)) {
                joint(other.pin, effect(MAKER.rectifierJoint));
                members.push({ suspect: trackSuspect(other.net.name), weight: effect(MAKER.rectifierJoint) });
                go(other.net, 0.9);
              }
          } else if (!isMade && feedsThrough(model, part, pin)) {
            const isOne = feeding.length > 1;
            add(
              part,
              effect(isOne ? MAKER.oneOfDiodes : MAKER.diode) * (isOne && isDead ? DEAD.oneOfDiodes : 1),
            );
            go(otherEnds(part, pin)[0]?.net, 0.6);
          } else if (isBeside(model, part, net)) add(part, effect(MAKER.beside));
          else add(part, effect(MAKER.load) * 2);
          break;
        case "fuse":
          // Behind the rectifier it feeds what hangs on the rail, and not the rail.
          if (i === 0 && net.pins.some((at) => isBridge(model.part(at.ref)))) break;
          // Without a tap on the winding there is no half of it to lose.
          add(part, effect(MAKER.fuse) * (how === "mains" && !isTapped(model, net) ? UNTAPPED : 1));
          go(otherEnds(part, pin)[0]?.net, 0.9);
          break;
        case "connector":
          if (isMade) break;
          add(part, effect(MAKER.header));
          joint(pin, effect(MAKER.header));
          members.push({
            suspect: outsideSuspect(`what comes in at ${part.part.ref} pin ${pin}`),
            weight: effect(MAKER.outside),
          });
          break;
        case "resistor": {
          const end = otherEnds(part, pin)[0];
          if (!end || model.isGround(end.net)) break;
          // A supply through a resistor has nothing else that makes it.
          if (isBehindPass(model, ref, pin) && i === 0) {
            add(part, effect(MAKER.series));
            go(end.net, 0.9);
          } else if (isMade || isPassed || byHeader || feeding.length > 0)
            add(part, effect(MAKER.load) * 0.3);
          else {
            add(part, effect(MAKER.series));
            if (!model.isSupply(end.net)) go(end.net, 0.7);
          }
          break;
        }
        case "transistor": {
          const role = pinRoleOf(part, pin);
          const base = part.pins.find((one) => pinRoleOf(part, one.pin) === "base");
          const other = part.pins.find(
            (one) => one.net !== net && ["collector", "emitter"].includes(pinRoleOf(part, one.pin)),
          );
          const isPass =
            base &&
            other &&
            (role === "emitter" || (role === "collector" && isPnp(part))) &&
            !model.isGround(other.net) &&
            base.net !== other.net &&
            isFedFrom(model, other.net);
          if (!isPass) {
            if (i === 0) add(part, effect(MAKER.load) * lowShare(part.kind) * 2);
            break;
          }
          add(part, effect(MAKER.pass));
          joint(pin, effect(MAKER.regulatorJoint));
          if (how === "low" || how === "high") {
            const state = isPnp(part) ? opposite(how) : how;
            const known = isDead ? withDeadRail(model, first, read) : read;
            for (const one of upstreamOf(model, { ref: part.part.ref, pin: base.pin, state }, known))
              members.push({ ...one, weight: one.weight * left });
          }
          go(other.net, 1);
          break;
        }
        case "battery":
          add(part, effect(MAKER.reservoir));
          break;
        case "switch":
          add(part, effect(MAKER.series));
          go(otherEnds(part, pin)[0]?.net, 0.8);
          break;
        case "test-point":
          break;
        default:
          if (i === 0) add(part, effect(MAKER.load) * lowShare(part.kind) * 2);
      }
    }
    if (i > 0 || !model.isSupply(net)) members.push({ suspect: trackSuspect(net.name), weight: 0.1 * left });
  }
  return members;

  /** A capacitor on what is regulated takes its rail down by a short, and shows by its ripple where it has dried out. */
  function drained(own: Rail | undefined): number {
    if (wrong !== "low" || own === undefined) return 1;
    if (isDead && read.railsNotShort.has(own.name)) return DEAD.notShort;
    return read.railsCalm.has(own.name) ? CALM : 1;
  }

  /** Nothing is left of a rail by a short alone, and one that was seen not to be there takes that too. */
  function dried(own: Rail | undefined): number {
    if (!isDead || wrong !== "low") return 1;
    return own !== undefined && read.railsNotShort.has(own.name) ? DEAD.notShort : DEAD.reservoir;
  }
}

/** A part of two leads from this net to what feeds a regulator, or a pass transistor, that makes it. */
function isBeside(model: BoardModel, part: PartModel, net: Net): boolean {
  const other = part.pins.length === 2 ? part.pins.find((one) => one.net !== net)?.net : undefined;
  return (
    other !== undefined &&
    !model.isGround(other) &&
    model.onNet(net).some((maker) => {
      const at = (wanted: Net) => maker.pins.some((pin) => pin.net === wanted);
      return maker !== part && (maker.kind === "regulator" || maker.kind === "transistor") && at(other);
    })
  );
}

/** A resistor of which the other end is the emitter of what passes the current. */
function isBehindPass(model: BoardModel, ref: string, pin: string): boolean {
  const part = model.part(ref);
  const [end] = part?.kind === "resistor" ? otherEnds(part, pin) : [];
  return (end?.net.pins ?? []).some((at) => {
    const other = model.part(at.ref);
    return other !== undefined && pinRoleOf(other, at.pin) === "emitter";
  });
}

/** A net that is a supply of its own: by its name, or by a rectifier or a reservoir on it. */
const isFedFrom = (model: BoardModel, net: Net): boolean =>
  model.isSupply(net) ||
  model.onNet(net).some(({ kind, pins }) => kind === "electrolytic" || (kind === "diode" && pins.length > 2));

const isCathode = ({ device }: PartModel, pin: string): boolean =>
  /^(?:K|C|CATHODE)$/i.test(device?.pins.get(pin)?.name ?? (pin === "1" ? "K" : ""));

/** Its cathode is here, and what is behind it comes from a winding, a fuse, a header or another rail. */
function feedsThrough(model: BoardModel, part: PartModel, pin: string): boolean {
  const other = part.pins.find((one) => one.pin !== pin);
  if (!isCathode(part, pin) || !other || model.isGround(other.net)) return false;
  return (
    model.isSupply(other.net) ||
    model.onNet(other.net).some(({ kind }) => kind === "connector" || kind === "fuse")
  );
}

/** Whether the part feeds the net there rather than hangs on it: a diode with two leads may do either. */
const makes = (part: PartModel, pin: string): boolean =>
  part.kind === "regulator"
    ? part.device?.pins.get(pin)?.direction === "output"
    : part.kind === "fuse" || (part.kind === "diode" && part.pins.length > 2);

/** By the board's word, or because a rectifier feeds the net it stands on. */
const isReservoir = (model: BoardModel, part: PartModel, net: Net, rail: Rail | undefined): boolean =>
  rail?.reservoir !== undefined
    ? rail.reservoir.toUpperCase() === part.part.ref.toUpperCase()
    : model.onNet(net).some(({ kind, pins }) => kind === "diode" && pins.length > 2);

/** Of a part of two leads that leads from the rail to no other supply: what is behind it would have to be shorted too. */
const LEADS_AWAY = 0.05;

function short(model: BoardModel, rail: Rail, read: ReadNets): readonly Member[] {
  const net = model.board.nets.get(rail.net ?? "");
  if (!net) return made(model, rail, "low", { ...read, ...NOTHING });
  return [
    ...model.onNet(net).map(({ part, kind, pins }) => ({
      suspect: partSuspect(part.ref),
      weight:
        (SHORT[kind] ?? SHORT_CHIP) *
        (pins.length === 2 && pins.some((pin) => !model.isSupply(pin.net)) ? LEADS_AWAY : 1),
    })),
    { suspect: elsewhereSuspect(rail.name), weight: 1 },
    { suspect: trackSuspect(net.name), weight: 0.1 },
  ];
}

const NOTHING = { railsRight: new Set<string>(), railsCalm: new Set<string>() };

const railOf = (model: BoardModel, { rail }: SignFinding): Rail | undefined =>
  model.board.rails.get(rail ?? "");

/** Rails that are dead together: what comes in from off the board, by which header, and what only all of them share. */
function allRails(model: BoardModel, { refs = [] }: SignFinding, read: ReadNets): readonly Member[] {
  const rails = refs.flatMap((name) => model.board.rails.get(name) ?? []);
  const shares = new Map<string, { member: Member; rails: number }>();
  for (const rail of rails) {
    for (const member of membersOf(made(model, rail, "low", read))) {
      const known = shares.get(member.suspect.id);
      shares.set(member.suspect.id, { member, rails: (known?.rails ?? 0) + 1 });
    }
  }
  return [
    ...[...shares.values()].flatMap(({ member, rails: count }): Member[] => {
      const share = count / Math.max(1, rails.length);
      const { suspect } = member;
      const isHeader = suspect.kind === "part" && model.part(suspect.ref)?.kind === "connector";
      const weight = isHeader ? ALL.header : ALL.shared;
      return share < ALL.least ? [] : [{ suspect, weight: weight * share }];
    }),
    { suspect: outsideSuspect("the mains, its fuse and switch, the transformer"), weight: ALL.outside },
  ];
}

/** How well each explains a backup that does not last. Common practice, no source. */
const BACKUP = { store: 0.7, resistor: 0.5, joint: 0.4, diode: 0.2, load: 0.05 } as const;

/** What is left, or made, of what would explain half of the peaks on one rail. */
const HALF = { bridge: 0.12, reservoir: 0.02, before: 1, header: 3, arrives: 0.05 } as const;

const ALIKE = { outside: 0.9, board: 0.1 } as const;
const ALL = { header: 0.8, shared: 0.3, outside: 0.6, least: 0.5 } as const;

export const SUPPLY_SIGNS = {
  "rail-wrong": (model: BoardModel, finding: SignFinding, read: ReadNets) => {
    const rail = railOf(model, finding);
    if (!rail) return [];
    const wrong = finding.state === "high" ? "high" : "low";
    const notShort = read.railsNotShort.has(rail.name) ? NO_SHORT : 1;
    return made(model, rail, wrong, read, finding.dead).map(({ suspect, weight }) => ({
      suspect,
      weight: suspect.kind === "part" && isLoad(model, suspect.ref, rail) ? weight * notShort : weight,
    }));
  },
  "rail-short": (model: BoardModel, finding: SignFinding, read: ReadNets) => {
    const rail = railOf(model, finding);
    return rail ? short(model, rail, read) : [];
  },
  // Up while it is charged and gone without: the store and its way, and what drains it.
  "backup-lost": (model: BoardModel, finding: SignFinding) => {
    const net = model.board.nets.get(railOf(model, finding)?.net ?? "");
    const stores = (finding.refs ?? []).flatMap((ref) => model.part(ref) ?? []);
    return [
      ...stores.flatMap((part): Member[] => [
        {
          suspect: partSuspect(part.part.ref),
          weight: part.kind === "resistor" ? BACKUP.resistor : BACKUP.store,
        },
        ...part.pins.map(({ pin }) => ({
          suspect: jointSuspect(part.part.ref, pin),
          weight: BACKUP.joint,
        })),
      ]),
      ...(net ? model.onNet(net) : []).flatMap((part): Member[] =>
        stores.includes(part) || part.kind === "test-point"
          ? []
          : [
              {
                suspect: partSuspect(part.part.ref),
                weight: part.kind === "diode" ? BACKUP.diode : BACKUP.load,
              },
            ],
      ),
    ];
  },
  "rails-all": allRails,
  // A header that loses one winding loses not all of them by one share.
  "rails-low-alike": (model: BoardModel, finding: SignFinding, read: ReadNets) => [
    ...allRails(model, finding, read).flatMap(({ suspect, weight }): Member[] =>
      suspect.kind === "outside" ? [] : [{ suspect, weight: weight * ALIKE.board }],
    ),
    ...(finding.outside === undefined
      ? []
      : [{ suspect: outsideSuspect(finding.outside), weight: ALIKE.outside }]),
  ],
  ripple: (model: BoardModel, finding: SignFinding, read: ReadNets) => {
    const rail = railOf(model, finding);
    return rail ? made(model, rail, "ripple", read) : [];
  },
  // Of two rails from one winding with a tap, both have lost the same half: what they share lies before the bridge.
  "winding-half": (model: BoardModel, finding: SignFinding, read: ReadNets) => {
    const rail = railOf(model, finding);
    const comes = fedFrom(model, read);
    return (rail ? made(model, rail, "mains", read) : []).flatMap(({ suspect, weight }): Member[] => {
      const net = suspect.kind === "track" ? model.board.nets.get(suspect.net) : undefined;
      if (net && model.isSupply(net)) return [];
      const ref = suspect.kind === "part" || suspect.kind === "joint" ? suspect.ref : "";
      const kind = model.part(ref)?.kind;
      const at = suspect.kind === "joint" ? model.netAt(ref, suspect.pin) : undefined;
      // The half that something else is seen to run from arrives.
      const own = at
        ? [at]
        : net
          ? [net]
          : kind === "fuse"
            ? (model.part(ref)?.pins.map((pin) => pin.net) ?? [])
            : [];
      if (own.some((one) => comes.has(one))) return [{ suspect, weight: weight * HALF.arrives }];
      const left =
        kind === "connector" || suspect.kind === "outside"
          ? HALF.header
          : kind === "electrolytic"
            ? HALF.reservoir
            : suspect.kind === "part" && kind === "diode"
              ? HALF.bridge
              : at && model.isSupply(at)
                ? HALF.reservoir
                : HALF.before;
      return [{ suspect, weight: Math.min(0.9, weight * left) }];
    });
  },
  "ripple-mains": (model: BoardModel, finding: SignFinding, read: ReadNets) => {
    const rail = railOf(model, finding);
    return rail ? made(model, rail, "mains", read) : [];
  },
};

function isLoad(model: BoardModel, ref: string, { net }: Rail): boolean {
  const part = model.part(ref);
  return (
    part?.pins.some((pin) => pin.net.name === net) === true &&
    !["regulator", "fuse", "connector", "resistor", "resistor-network"].includes(part.kind) &&
    part.pins.length !== 4 &&
    // It feeds the rail through, and hangs on nothing.
    !part.pins.some(
      (pin) =>
        pin.net.name === net &&
        ((part.kind === "diode" && feedsThrough(model, part, pin.pin)) ||
          (part.kind === "transistor" &&
            pinRoleOf(part, pin.pin) !== "base" &&
            part.pins.some((one) => one.net !== pin.net && isFedFrom(model, one.net)))),
    )
  );
}

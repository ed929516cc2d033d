// A section of a chip that is clocked or triggered and not held back, and whose outputs stand still all the same: a flip-flop
// that does not take over, a one-shot that does not fire.

import { defined } from "../../../base/defined";
import type { SeenLevel, SignFinding } from "../../../compute/diagnosis/types";
import { boardIndex } from "../../../knowledge/board-index";
import type { Board, Device } from "../../../knowledge/types";
import type { LocatedObservation } from "../observation";

const RUNS = /^(?:\d?(?:CLK|CK|CP|CLOCK|C|TR|\+?TR)|\d-\dEN)$/i;
const TRIGGERS = /^[/~]?\d?(?:A|B|A1|A2|TR|\+?TR|-TR|TRIG)$/i;
const TIMES = /^\d?(?:RC|R\/?CEXT|REXT|CEXT|RX|CX|RXCX|RX\/CX)$/i;
const SETS = /^[/~]?\d?(?:CLR|CD|R|RES|RESET|MR|PR|PRE|SD|S|SET)$/i;
const DATA = /^\d?D$/i;
const OUT = /^[/~]?\d?Q$/i;
const isNot = (name: string): boolean => /^[/~]/.test(name);

interface Seen {
  readonly one: LocatedObservation;
  readonly level: SeenLevel;
  readonly name: string;
}

export function stillSections(
  all: readonly LocatedObservation[],
  board: Board,
  deviceOf: (part: string) => Device | undefined,
): LocatedObservation[] {
  const sections = new Map<string, { readonly ref: string; readonly device: Device; seen: Seen[] }>();
  for (const one of all) {
    const { level } = one;
    const device = level && deviceOf(board.parts.get(level.ref)?.device ?? "");
    const pin = device?.pins.get(level?.pin ?? "");
    if (!level || !device || !pin || device.gates.some(({ outputs }) => outputs.includes(pin.number)))
      continue;
    const key = `${level.ref} ${pin.unit ?? ""}`;
    const known = sections.get(key) ?? { ref: level.ref, device, seen: [] };
    sections.set(key, known);
    known.seen.push({ one, level, name: pin.name });
  }
  // What enables or clocks several sections is of each of them: "1-2EN", or a clock that names none.
  const shared = [...sections].flatMap(([key, { ref, seen }]) =>
    [...seen].map((at) => ({
      ref,
      at,
      isOfAll: key === `${ref} ` && (LATCHES.test(at.name) || SETS.test(at.name)),
    })),
  );
  for (const [key, section] of sections) {
    const unit = key.slice(section.ref.length + 1);
    if (unit === "") continue;
    for (const { ref, at, isOfAll } of shared) {
      const units = /^(\d)-(\d)EN$/i.exec(at.name)?.slice(1);
      if (ref === section.ref && (isOfAll || units?.includes(unit))) section.seen.push(at);
    }
  }
  return [...sections.values()].flatMap(({ ref, device, seen }): LocatedObservation[] => {
    const byNumber = [...stillBits(ref, seen), ...stillCounts(ref, seen)];
    if (byNumber.length > 0) return byNumber;
    const outputs = seen.filter(({ name }) => OUT.test(name));
    const [at] = outputs;
    const moves = outputs.some(
      ({ one, level }) => (level.state === "pulsing" && !one.needle) || level.state === "floating",
    );
    if (!at || moves) return [];
    const names = [...device.pins.values()].map(({ name }) => name);
    const times = names.some((name) => TIMES.test(name));
    const isStarted = seen.some(
      ({ name, level }) => level.state === "pulsing" && (times ? TRIGGERS : RUNS).test(name),
    );
    const isHeld = seen.some(
      ({ name, level }) => SETS.test(name) && level.state === (isNot(name) ? "low" : "high"),
    );
    if (!isStarted || isHeld || !(times || obeys(seen, outputs) === false)) return [];
    const of = `${ref} pin ${at.level.pin}`;
    const state = at.level.state === "low" ? "low" : "high";
    const needle = outputs.find(({ one }) => one.needle);
    if (times && needle && !needle.one.finding) return [tooShort(ref, needle)];
    return [
      defined({
        ...at.one,
        key: `section ${ref}.${at.level.pin}`.toUpperCase(),
        finding: {
          kind: "sign",
          sign: "section-still",
          ref,
          pin: at.level.pin,
          state,
          of,
          says: `${of} stands ${state}, though its section of ${ref} is ${times ? "triggered" : "clocked"} and not held back.`,
        } satisfies SignFinding,
      }),
    ];
  });
}

/** It is fired and falls back at once: what sets its time does not hold. */
function tooShort(ref: string, { one, level }: Seen): LocatedObservation {
  const of = `the time of ${ref} pin ${level.pin}`;
  const says = `${ref} pin ${level.pin} gives no more than a needle when it is triggered.`;
  return {
    ...one,
    key: `section ${ref}.${level.pin}`.toUpperCase(),
    finding: { kind: "sign", sign: "clock-off", ref, pin: level.pin, state: "high", of, says },
  };
}

/** Lines of a bus that pass, beside one that does not, at least. */
const LEAST_PASSING = 3;

/** Of what passes a bus both ways: a line that moves on one side and stands still on the other, where others move on both. */
export function stillPasses(
  all: readonly LocatedObservation[],
  board: Board,
  deviceOf: (part: string) => Device | undefined,
): LocatedObservation[] {
  const index = boardIndex(board);
  const moving = new Set<string>();
  for (const { level } of all)
    if (level?.state === "pulsing") moving.add(index.net(level.ref, level.pin)?.name ?? "");
  return all.flatMap((one): LocatedObservation[] => {
    const { level } = one;
    const device = level && deviceOf(board.parts.get(level.ref)?.device ?? "");
    const [, side, bit] = /^([A-Z]+)(\d)$/i.exec(device?.pins.get(level?.pin ?? "")?.name ?? "") ?? [];
    if (!level || !device || bit === undefined || one.finding) return [];
    if (level.state !== "low" && level.state !== "high") return [];
    const isOf = (name: string, of: string): boolean => name.replace(/\d$/, "") === side && name.endsWith(of);
    const lines = [...device.pins.values()].filter(({ direction }) => direction === "bidirectional");
    const moves = (own: boolean, of: string): boolean =>
      lines.some(
        ({ number, name }) =>
          /^[A-Z]+\d$/i.test(name) &&
          name.endsWith(of) &&
          isOf(name, of) === own &&
          moving.has(index.net(level.ref, number)?.name ?? ""),
      );
    const others = "01234567".split("").filter((of) => of !== bit && moves(true, of));
    if (moves(true, bit) || !moves(false, bit) || others.length < LEAST_PASSING) return [];
    // Or another chip on the line holds it.
    const onNet = (index.net(level.ref, level.pin)?.pins ?? []).flatMap(({ ref }) =>
      /^(?:U|IC)\d/i.test(ref) ? [ref] : [],
    );
    const of = `${level.ref} pin ${level.pin}`;
    return [
      {
        ...one,
        key: `passes ${of}`.toUpperCase(),
        finding: {
          kind: "sign",
          sign: "stage",
          refs: [...new Set([level.ref, ...onNet])],
          pins: [{ ref: level.ref, pin: level.pin }],
          of: `the state of ${of}`,
          says: `${of} stands ${level.state}, though its line moves on the other side of ${level.ref} and the lines beside it on both.`,
        } satisfies SignFinding,
      },
    ];
  });
}

const LATCHES = /^[/~]?(?:CLK|CK|CP|CLOCK|LE|C|G|E)$/i;

/** Of a latch of many bits: its clock runs, the bit's own data moves, and the bit does not. */
function stillBits(ref: string, seen: readonly Seen[]): LocatedObservation[] {
  const isHeld = seen.some(
    ({ name, level }) => SETS.test(name) && level.state === (isNot(name) ? "low" : "high"),
  );
  if (isHeld || !seen.some(({ name, level }) => LATCHES.test(name) && level.state === "pulsing")) return [];
  return seen.flatMap(({ one, name, level }): LocatedObservation[] => {
    const number = /^[/~]?(?:Q(\d)|(\d)Q)$/i
      .exec(name)
      ?.slice(1)
      .find((bit) => bit !== undefined);
    const { state } = level;
    if (number === undefined || one.finding || (state !== "low" && state !== "high")) return [];
    const data = seen.find((other) => new RegExp(`^(?:D${number}|${number}D)$`, "i").test(other.name));
    if (data?.level.state !== "pulsing") return [];
    const of = `${ref} pin ${level.pin}`;
    return [
      {
        ...one,
        key: `section ${ref}.${level.pin}`.toUpperCase(),
        finding: {
          kind: "sign",
          sign: "section-still",
          ref,
          pin: level.pin,
          state,
          // A slip of its own: what the pin read without power is another reading.
          of: `the state of ${of}`,
          says: `${of} stands ${state}, though ${ref} is clocked and its data there moves.`,
        } satisfies SignFinding,
      },
    ];
  });
}

const COUNTS = /^Q([A-D])$/i;

/** Of a counter: what counts on from a clock that runs, all of it still. QA may have a clock of its own. */
function stillCounts(ref: string, seen: readonly Seen[]): LocatedObservation[] {
  const isReset = seen.filter(({ name }) => /^R0\(\d\)$/i.test(name));
  const isHeld = isReset.length > 0 && isReset.every(({ level }) => level.state === "high");
  const isAsked = (clock: RegExp): boolean =>
    seen.some(({ name, level }) => clock.test(name) && level.state === "pulsing");
  const own = seen.some(({ name }) => /^[/~]?CKB$/i.test(name));
  const isStill = ({ level, one }: Seen): boolean =>
    !one.finding && (level.state === "low" || level.state === "high");
  const bits = seen.filter(({ name }) => COUNTS.test(name) && !(own && /^QA$/i.test(name)));
  const counts =
    bits.length > 1 && bits.every(isStill) && isAsked(own ? /^[/~]?CKB$/i : /^[/~]?(?:CLK|CK|CP|CKA)$/i);
  // A first bit with a clock of its own halves it, whatever hangs on it.
  const halves = seen.find((one) => own && /^QA$/i.test(one.name) && isStill(one) && isAsked(/^[/~]?CKA$/i));
  const first = counts ? bits[0] : halves;
  if (!first || isHeld) return [];
  const of = `${ref} pin ${first.level.pin}`;
  const state = first.level.state === "low" ? "low" : "high";
  return [
    {
      ...first.one,
      key: `section ${ref}.${first.level.pin}`.toUpperCase(),
      finding: {
        kind: "sign",
        sign: "section-still",
        ref,
        pin: first.level.pin,
        state,
        of,
        says: `${ref} is clocked, and none of what it counts moves.`,
      } satisfies SignFinding,
    },
  ];
}

/** Whether the outputs are what a still data input asks for; undefined where that is not known. */
function obeys(seen: readonly Seen[], outputs: readonly Seen[]): boolean | undefined {
  const data = seen.find(({ name }) => DATA.test(name))?.level.state;
  if (data === "pulsing") return false;
  if (data !== "low" && data !== "high") return undefined;
  return outputs.every(({ name, level }) => (level.state === data) !== isNot(name));
}

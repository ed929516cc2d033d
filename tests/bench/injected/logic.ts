// The logic of a board, worked out net by net from what its chips do.
import { type Board, numberOf, pinsOf, refOf, sizeOf } from "./board";
import { CHIPS, type Drives, type Levels, MEMORY_DATA, type Memory } from "./chips";
import { die, type Fault, leg } from "./fault";

export type State = "H" | "L" | "pulse" | "floating";
export type Level = 0 | 1 | "z";

/** A clip lead with a diode across the switch connectors: the row is low while the column is. Lines from 1. */
export interface Clip {
  readonly column: number;
  readonly row: number;
}

/** 2 is let go. */
type Value = 0 | 1 | 2;

interface Unit {
  readonly ref: string;
  readonly device: string;
  readonly memory: Memory;
  readonly run: (level: Levels, memory: Memory) => Drives;
  readonly pins: readonly number[];
  /** Node by pin, of what is inside. */
  readonly inside: readonly number[];
  /** What each pin drives, by pin; its place in the node's list of drivers. */
  readonly slots: readonly number[];
  readonly level: Levels;
}

interface Node {
  /** Slots that drive it. */
  readonly drivers: number[];
  /** Units that look at it. */
  readonly listeners: Set<Unit>;
  forced?: 0 | 1;
  pull?: 0 | 1;
  value: Value;
  /** 1 low, 2 high, 4 let go: what was seen there. */
  seen: number;
}

const MOST_ROUNDS = 60;
const SERIES = ["R8"];
const SUPPLIES = ["vcc", "v12", "vmem"];

export class Bench {
  readonly #nodes: Node[] = [];
  readonly #ids = new Map<string, number>();
  readonly #same = new Map<string, string>();
  readonly #slots: Value[] = [];
  readonly #units: Unit[] = [];
  readonly #outside = new Map<number, number>();
  readonly #touched = new Set<number>();
  /** Nodes whose value the probe has not yet been told. */
  readonly #changed = new Set<number>();
  #waiting = new Set<Unit>();
  #clip: Clip | undefined;

  /** @param clips whether a clip lead may be set across the switch connectors */
  constructor(
    readonly board: Board,
    readonly fault: Fault,
    clips = false,
  ) {
    for (const edit of fault.edits)
      if (edit.kind === "short") this.#join(leg(board, fault, edit.from), leg(board, fault, edit.to));
    for (const { ref, device } of board.parts.values()) {
      const chip = device === undefined ? undefined : CHIPS[device];
      if (!chip?.run) continue;
      const at = (pin: number) => die(board, fault, `${ref}.${pin}`);
      // A chip without its ground or its supply drives nothing.
      const fed =
        chip.ground.every((pin) => at(pin) === "0") && chip.supply.every((pin) => SUPPLIES.includes(at(pin)));
      this.#add(ref, device!, fed ? chip.run : () => ({}), at, pinsOf(board, ref));
    }
    // A resistor between two signals hands the level on.
    for (const ref of SERIES)
      this.#add(
        ref,
        "series",
        (level) => ({ 2: level(1) }),
        (pin) => die(board, fault, `${ref}.${pin}`),
        [1, 2],
      );
    if (clips)
      for (let n = 0; n < 64; n += 1) {
        const [column, row] = [(n & 7) + 1, (n >> 3) + 1];
        const ends = [`J2.${column}`, `J3.${row}`].map((pin) => leg(board, fault, pin));
        const set = () => this.#clip?.column === column && this.#clip.row === row;
        const run: Unit["run"] = (level) => ({ 2: set() && level(1) === 0 ? 0 : "z" });
        this.#add("clip", "clip", run, (pin) => ends[pin - 1]!, [1, 2]);
      }
    this.#supply();
    for (const part of board.parts.values()) this.#pull(part.ref, part.value);
    for (const edit of fault.edits)
      if (edit.kind === "burnt") this.#at(die(board, fault, edit.pin)).forced ??= edit.level;
    for (const [i] of this.#nodes.entries()) this.#resolve(i);
    for (const unit of this.#units) this.#waiting.add(unit);
    const interfaceChip = this.#units.find(({ ref }) => ref === "U11");
    if (interfaceChip) interfaceChip.memory.outputsA = 1;
  }

  #join(a: string, b: string): void {
    const [one, other] = [a, b].map((name) => this.#root(name)) as [string, string];
    // Ground and supplies keep their names.
    if (one !== other) this.#same.set(one === "0" ? other : one, one === "0" ? one : other);
  }
  #root(name: string): string {
    const next = this.#same.get(name);
    return next === undefined ? name : this.#root(next);
  }
  #id(name: string): number {
    const root = this.#root(name);
    let id = this.#ids.get(root);
    if (id === undefined) {
      id = this.#nodes.length;
      this.#ids.set(root, id);
      this.#nodes.push({ drivers: [], listeners: new Set(), value: 2, seen: 4 });
    }
    return id;
  }
  #at = (name: string): Node => this.#nodes[this.#id(name)]!;

  #supply(): void {
    this.#at("0").forced ??= 0;
    for (const name of SUPPLIES) this.#at(name).forced ??= 1;
  }

  #add(
    ref: string,
    device: string,
    run: Unit["run"],
    name: (pin: number) => string,
    pins: readonly number[],
  ): void {
    const inside: number[] = [];
    const slots: number[] = [];
    const nodes = this.#nodes;
    const level: Levels = (pin) => (inside[pin] !== undefined && nodes[inside[pin]]!.value === 0 ? 0 : 1);
    const unit: Unit = { ref, device, memory: {}, run, pins, inside, slots, level };
    for (const pin of pins) {
      const id = this.#id(name(pin));
      inside[pin] = id;
      slots[pin] = this.#slots.length;
      nodes[id]!.drivers.push(this.#slots.length);
      nodes[id]!.listeners.add(unit);
      this.#slots.push(2);
    }
    this.#units.push(unit);
  }

  /** Resistors to a supply or to ground that a driver overcomes. */
  #pull(ref: string, value: string | undefined): void {
    const at = (pin: number) => this.#at(die(this.board, this.fault, `${ref}.${pin}`));
    const ends: [number, number][] = /^R\d/.test(ref)
      ? [
          [1, 2],
          [2, 1],
        ]
      : /^RN/.test(ref) && value?.includes("common")
        ? [2, 3, 4, 5, 6, 7, 8, 9].map((pin) => [1, pin])
        : [];
    if (/^R\d/.test(ref) && sizeOf(value!) > 20e3) return;
    for (const [a, b] of ends) {
      const level = at(a).forced;
      if (level !== undefined && at(b).forced === undefined) at(b).pull ??= level;
    }
  }

  #resolve(id: number): void {
    const node = this.#nodes[id]!;
    let value: Value = 2;
    for (const slot of node.drivers) {
      const driven = this.#slots[slot]!;
      if (driven === 0) value = 0;
      else if (driven === 1 && value === 2) value = 1;
    }
    if (value === 2 && node.pull !== undefined) value = node.pull;
    value = node.forced ?? value;
    if (value === node.value) return;
    node.value = value;
    this.#changed.add(id);
    for (const unit of node.listeners) this.#waiting.add(unit);
  }

  /** Drives a pin's net from outside until told otherwise; broken tracks and joints stand between. */
  drive(pin: string, level: Level): void {
    const id = this.#id(die(this.board, this.fault, pin));
    let slot = this.#outside.get(id);
    if (slot === undefined) {
      slot = this.#slots.length;
      this.#slots.push(2);
      this.#outside.set(id, slot);
      this.#nodes[id]!.drivers.push(slot);
    }
    this.#slots[slot] = level === "z" ? 2 : level;
    this.#touched.add(id);
  }

  /** Level that an input on this pin takes; what floats counts as high. */
  read(pin: string): 0 | 1 {
    return this.#at(die(this.board, this.fault, pin)).value === 0 ? 0 : 1;
  }

  /** What a probe on the leg has seen so far. */
  state(pin: string): State {
    const { seen } = this.#at(leg(this.board, this.fault, pin));
    if (seen & 1) return seen & 6 ? "pulse" : "L";
    return seen & 2 ? "H" : "floating";
  }

  /** Takes the clip lead from where it was to here. */
  clip(to: Clip): void {
    this.#clip = to;
    for (const unit of this.#units) if (unit.ref === "clip") this.#waiting.add(unit);
  }

  forget(): void {
    for (const node of this.#nodes) node.seen = seenAs(node.value);
  }

  /** One moment: everything settles, and what the probe would see is kept. */
  settle(): void {
    for (const id of this.#touched) this.#resolve(id);
    this.#touched.clear();
    for (let round = 0; round < MOST_ROUNDS && this.#waiting.size > 0; round += 1) {
      const now = this.#waiting;
      this.#waiting = new Set();
      const moved = new Set<number>();
      for (const unit of now) this.#run(unit, moved);
      for (const id of moved) this.#resolve(id);
    }
    for (const id of this.#changed) this.#nodes[id]!.seen |= seenAs(this.#nodes[id]!.value);
    this.#changed.clear();
  }

  /** Time passes for what remembers for a while: called once a cycle. */
  tick(): void {
    for (const unit of this.#units)
      if (unit.memory.left !== undefined && unit.memory.left > 0) {
        unit.memory.left -= 1;
        this.#waiting.add(unit);
      }
  }

  #run(unit: Unit, moved: Set<number>): void {
    const drives = unit.run(unit.level, unit.memory);
    for (const edit of this.fault.edits) spoil(edit, unit, drives);
    for (const pin of unit.pins) {
      const slot = unit.slots[pin]!;
      const wanted = drives[pin] ?? "z";
      const value: Value = wanted === "z" ? 2 : wanted;
      if (this.#slots[slot] === value) continue;
      this.#slots[slot] = value;
      moved.add(unit.inside[pin]!);
    }
  }
}

const seenAs = (value: Value): number => (value === 0 ? 1 : value === 1 ? 2 : 4);

/** What a chip would drive, as the fault lets it. */
function spoil(edit: Fault["edits"][number], { ref, device }: Unit, drives: Drives): void {
  if (edit.kind === "frozen" && refOf(edit.pin) === ref) {
    const pin = numberOf(edit.pin);
    if (CHIPS[device]?.open?.includes(pin)) drives[pin] = edit.level === 0 ? 0 : "z";
    else if ((drives[pin] ?? "z") !== "z") drives[pin] = edit.level;
  }
  if (edit.kind === "cell" && edit.ref === ref) {
    const pin = MEMORY_DATA[device]![edit.bit]!;
    if ((drives[pin] ?? "z") !== "z") drives[pin] = edit.level;
  }
}

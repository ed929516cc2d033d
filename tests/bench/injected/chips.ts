// One file, over 300 lines, for it is one table. What the chips of the demo boards do, from their generic data sheets
// (from memory): which pins are supply and ground, and outputs from inputs. Written for this bench alone; it shares
// nothing with the program's own tables.

/** Inputs by pin; an open input of these families reads high. */
export type Levels = (pin: number) => 0 | 1;
/** By pin; `z` lets go. A chip keeps what it must remember in `memory`. */
export type Drives = Record<number, 0 | 1 | "z">;
export type Memory = Record<string, number>;

export interface Chip {
  readonly ground: readonly number[];
  readonly supply: readonly number[];
  readonly mos?: boolean;
  /** Pins that can only pull low. */
  readonly open?: readonly number[];
  readonly run?: (level: Levels, memory: Memory) => Drives;
}

const bit = (condition: boolean | number): 0 | 1 => (condition ? 1 : 0);
const low = (condition: boolean): 0 | "z" => (condition ? 0 : "z");

/** True once at each rise of a pin. */
function rose(memory: Memory, name: string, now: 0 | 1): boolean {
  const before = memory[name] ?? now;
  memory[name] = now;
  return before === 0 && now === 1;
}

const inverters = (pairs: readonly (readonly [number, number])[]): Chip => ({
  ground: [7],
  supply: [14],
  run: (level) => Object.fromEntries(pairs.map(([a, y]) => [y, bit(!level(a))])),
});
const SIX = [
  [1, 2],
  [3, 4],
  [5, 6],
  [9, 8],
  [11, 10],
  [13, 12],
] as const;

/** One to ten low, by a number of four bits. */
const DECADE = [1, 2, 3, 4, 5, 6, 7, 9, 10, 11];
const bcd: Chip = {
  ground: [8],
  supply: [16],
  open: DECADE,
  run(level) {
    const n = level(15) + 2 * level(14) + 4 * level(13) + 8 * level(12);
    return Object.fromEntries(DECADE.map((pin, i) => [pin, low(i === n)]));
  },
};

const EIGHT_D = [3, 4, 7, 8, 13, 14, 17, 18];
const EIGHT_Q = [2, 5, 6, 9, 12, 15, 16, 19];

const ADDRESS_2716 = [8, 7, 6, 5, 4, 3, 2, 1, 23, 22, 19];
const DATA_2716 = [9, 10, 11, 13, 14, 15, 16, 17];
const ADDRESS_2114 = [5, 6, 7, 4, 3, 2, 1, 17, 16, 15];
const DATA_2114 = [14, 13, 12, 11];
const ADDRESS_5101 = [4, 3, 2, 1, 21, 5, 6, 7];
export const DATA_6802 = [33, 32, 31, 30, 29, 28, 27, 26];
export const ADDRESS_6802 = [9, 10, 11, 12, 13, 14, 15, 16, 17, 18, 19, 20, 22, 23];
const DATA_6821 = [33, 32, 31, 30, 29, 28, 27, 26];
/** Data pins of memories, the lowest bit first, as one reads them. */
export const MEMORY_DATA: Readonly<Record<string, readonly number[]>> = {
  "2114": DATA_2114,
  "5101": [10, 12, 14, 16],
};

function number(level: Levels, pins: readonly number[]): number {
  let sum = 0;
  for (let i = 0; i < pins.length; i += 1) sum |= level(pins[i]!) << i;
  return sum;
}
function spread(pins: readonly number[], value: number, into: Drives = {}): Drives {
  for (let i = 0; i < pins.length; i += 1) into[pins[i]!] = ((value >> i) & 1) as 0 | 1;
  return into;
}
const NOTHING: Drives = {};
/** What is not named lets go. */
const released = (): Drives => NOTHING;

/** Bytes of a program that nobody wrote: what matters is that every bit of every address moves. */
const program = (address: number): number => (address * 73 + (address >> 3) * 151 + 29) & 255;

function pia(): Chip {
  const A = [2, 3, 4, 5, 6, 7, 8, 9];
  const B = [10, 11, 12, 13, 14, 15, 16, 17];
  return {
    ground: [1],
    supply: [20],
    mos: true,
    open: [37, 38],
    run(level, memory) {
      const selected = level(22) === 1 && level(24) === 1 && level(23) === 0;
      const register = level(36) + 2 * level(35);
      const write = selected && level(21) === 0;
      const fell = (memory.e ?? 0) === 1 && level(25) === 0;
      memory.e = level(25);
      // The select and the data are those of the moment before E falls.
      if (fell && memory.armed) memory[`r${memory.register}`] = memory.data!;
      memory.armed = bit(write && level(25) === 1);
      memory.register = register;
      if (memory.armed) memory.data = number(level, DATA_6821);
      if (level(34) === 0) for (const r of [0, 1, 2, 3]) memory[`r${r}`] = 0;
      const reads = selected && level(21) === 1 && level(25) === 1;
      const out: Drives = { 19: bit((memory.r3 ?? 0) & 8) };
      if (memory.outputsA === 1) spread(A, memory.r0 ?? 0, out);
      spread(B, memory.r2 ?? 0, out);
      if (reads) spread(DATA_6821, register === 0 ? number(level, A) : 0, out);
      return out;
    },
  };
}

/** A memory by its select, write and data pins. */
function ram(
  address: readonly number[],
  inputs: readonly number[],
  outputs: readonly number[],
  select: (level: Levels) => boolean,
  write: number,
  off: (level: Levels) => boolean,
): NonNullable<Chip["run"]> {
  return (level, memory) => {
    const at = `m${number(level, address)}`;
    const selected = select(level);
    if (selected && level(write) === 0) memory[at] = number(level, inputs);
    if (!selected || level(write) === 0 || off(level)) return released();
    return spread(outputs, memory[at] ?? 0);
  };
}

export const CHIPS: Readonly<Record<string, Chip>> = {
  "7407": {
    ground: [7],
    supply: [14],
    open: SIX.map(([, y]) => y),
    run: (level) => Object.fromEntries(SIX.map(([a, y]) => [y, low(!level(a))])),
  },
  "74LS04": inverters(SIX),
  "74LS14": inverters(SIX),
  "74LS00": {
    ground: [7],
    supply: [14],
    run: (level) =>
      Object.fromEntries(
        (
          [
            [1, 2, 3],
            [4, 5, 6],
            [9, 10, 8],
            [12, 13, 11],
          ] as const
        ).map(([a, b, y]) => [y, bit(!(level(a) && level(b)))]),
      ),
  },
  "74LS138": {
    ground: [8],
    supply: [16],
    run(level) {
      const on = level(6) === 1 && level(4) === 0 && level(5) === 0;
      const n = number(level, [1, 2, 3]);
      return Object.fromEntries([15, 14, 13, 12, 11, 10, 9, 7].map((pin, i) => [pin, bit(!(on && i === n))]));
    },
  },
  "74LS139": {
    ground: [8],
    supply: [16],
    run(level) {
      const half = (enable: number, a: number, b: number, outputs: readonly number[]) =>
        outputs.map((pin, i) => [pin, bit(!(level(enable) === 0 && i === level(a) + 2 * level(b)))] as const);
      return Object.fromEntries([...half(1, 2, 3, [4, 5, 6, 7]), ...half(15, 14, 13, [12, 11, 10, 9])]);
    },
  },
  "74145": bcd,
  "74LS273": {
    ground: [10],
    supply: [20],
    run(level, memory) {
      if (rose(memory, "clock", level(11))) memory.q = number(level, EIGHT_D);
      if (level(1) === 0) memory.q = 0;
      return spread(EIGHT_Q, memory.q ?? 0);
    },
  },
  "74LS75": {
    ground: [12],
    supply: [5],
    run(level, memory) {
      const drives: Drives = {};
      for (const [d, enable, q, other] of [
        [2, 13, 16, 1],
        [3, 13, 15, 14],
        [6, 4, 10, 11],
        [7, 4, 9, 8],
      ] as const) {
        if (level(enable) === 1) memory[`q${d}`] = level(d);
        drives[q] = bit(memory[`q${d}`] ?? 0);
        drives[other] = bit(!(memory[`q${d}`] ?? 0));
      }
      return drives;
    },
  },
  ULN2803A: {
    ground: [9],
    supply: [10],
    open: [11, 12, 13, 14, 15, 16, 17, 18],
    run: (level) =>
      Object.fromEntries([1, 2, 3, 4, 5, 6, 7, 8].map((pin) => [19 - pin, low(level(pin) === 1)])),
  },
  "74LS244": {
    ground: [10],
    supply: [20],
    run(level) {
      const half = (enable: number, pairs: readonly (readonly [number, number])[]) =>
        pairs.map(([a, y]) => [y, level(enable) === 0 ? level(a) : "z"] as const);
      return Object.fromEntries([
        ...half(1, [
          [2, 18],
          [4, 16],
          [6, 14],
          [8, 12],
        ]),
        ...half(19, [
          [11, 9],
          [13, 7],
          [15, 5],
          [17, 3],
        ]),
      ]);
    },
  },
  "74LS123": {
    ground: [8],
    supply: [16],
    // A monostable that is started again all the while: out as long as something has started it lately.
    run(level, memory) {
      const start = bit(level(1) === 0 && level(2) === 1 && level(3) === 1);
      if (rose(memory, "start", start)) memory.left = memory.steps ?? 100;
      if (level(3) === 0) memory.left = 0;
      const on = (memory.left ?? 0) > 0;
      return { 13: bit(on), 4: bit(!on), 5: 0, 12: 1 };
    },
  },
  NE555: { ground: [1], supply: [8] },
  "7493": {
    ground: [10],
    supply: [5],
    run(level, memory) {
      const fell = (name: string, now: 0 | 1) => {
        const before = memory[name] ?? now;
        memory[name] = now;
        return before === 1 && now === 0;
      };
      if (fell("a", level(14))) memory.qa = 1 - (memory.qa ?? 0);
      if (fell("b", level(1))) memory.n = ((memory.n ?? 0) + 1) & 7;
      if (level(2) && level(3)) Object.assign(memory, { qa: 0, n: 0 });
      const n = memory.n ?? 0;
      return { 12: bit(memory.qa ?? 0), 9: bit(n & 1), 8: bit(n & 2), 11: bit(n & 4) };
    },
  },
  "74LS151": {
    ground: [8],
    supply: [16],
    run(level) {
      const n = number(level, [11, 10, 9]);
      const on = level(7) === 0 && level([4, 3, 2, 1, 15, 14, 13, 12][n]!) === 1;
      return { 5: bit(on), 6: bit(!on) };
    },
  },
  LM386: { ground: [4], supply: [6] },
  "6802": { ground: [1, 21], supply: [8], mos: true },
  "6821": pia(),
  "2716": {
    ground: [12],
    supply: [24],
    mos: true,
    run: (level) =>
      level(18) === 0 && level(20) === 0
        ? spread(DATA_2716, program(number(level, ADDRESS_2716)))
        : released(),
  },
  "2114": {
    ground: [9],
    supply: [18],
    mos: true,
    run: ram(
      ADDRESS_2114,
      DATA_2114,
      DATA_2114,
      (level) => level(8) === 0,
      10,
      () => false,
    ),
  },
  "5101": {
    ground: [8],
    supply: [22],
    mos: true,
    run: ram(
      ADDRESS_5101,
      [9, 11, 13, 15],
      [10, 12, 14, 16],
      (level) => level(19) === 0 && level(17) === 1,
      20,
      (level) => level(18) === 1,
    ),
  },
};

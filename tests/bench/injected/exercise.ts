// What the exerciser does with a controller, and what is seen while it does: probe states, memory by bit, switch
// crossings, lamps and segments.
import type { Board } from "./board";
import { Exerciser } from "./exerciser";
import type { Fault } from "./fault";
import { Bench, type Level, type State } from "./logic";

const RAM = 0x0000;
const COUNTERS = 0x0400;
const SWITCHES = 0x0804;
const COILS = 0x0808;
const PORTS = 0x1000;
const PROGRAM = 0x3000;
/** A write here takes the lamp columns, and so on; a read of the last two the settings and the watchdog. */
const STROBE = { column: 0, row: 1, segments: 2, digit: 3 } as const;
const READ = { first: 0, second: 1, watchdog: 2 } as const;

export interface MemoryLine {
  readonly ref: string;
  readonly wrote: number;
  readonly got: number;
  readonly address: number;
}

export interface Seen {
  state(pin: string): State;
  /** The first failure of each chip, or a pattern that came back. The test is made when it is asked for. */
  memory(): readonly MemoryLine[];
}

/** What moves besides the bus: the tone oscillator, the zero crossings. */
const around = (clock: boolean): Record<string, (turn: number) => Level> => ({
  "U14.11": (turn) => ((turn >> 3) & 1) as Level,
  "U21.3": clock ? (turn) => (turn & 1) as Level : () => 0,
});

function exerciser(board: Board, fault: Fault, { clips = false, clock = true } = {}): Exerciser {
  const bench = new Bench(board, fault, clips);
  bench.drive("U1.37", 0);
  const bus = new Exerciser(bench, around(clock));
  bench.settle();
  return bus;
}

/** All of the board once round, with every latch, port and memory in turn. */
export function exercise(board: Board, fault: Fault, clock = true): Seen {
  const bus = exerciser(board, fault, { clock });
  const { bench } = bus;
  const addresses = [0, ...Array.from({ length: 11 }, (_, i) => 1 << i)];
  const frame = (n: number) => {
    const walk = 1 << (n & 7);
    bus.write(PORTS + STROBE.column, walk);
    bus.write(PORTS + STROBE.row, 255 - walk);
    bus.write(PORTS + STROBE.segments, walk);
    bus.write(PORTS + STROBE.digit, n & 7);
    bus.write(SWITCHES + 2, n);
    bus.write(SWITCHES + 2, 8 + (n & 1));
    bus.write(SWITCHES + 3, n & 1 ? 8 : 0);
    bus.write(COILS, walk);
    bus.write(COILS + 2, (n * 3) & 15);
    bus.write(COILS + 2, 31 - n);
    bus.read(SWITCHES);
    bus.read(PORTS + READ.first);
    bus.read(PORTS + READ.second);
    bus.read(PORTS + READ.watchdog);
    // Each address line by itself, up and down, in either program memory.
    for (const i of [n, n + 4, n + 8]) {
      const one = addresses[i % addresses.length]! ^ (n & 1 ? 0x7ff : 0);
      bus.read(PROGRAM + one);
      bus.read(PROGRAM + 0x800 + one);
    }
    bus.write(RAM + ((n * 67) & 0x3ff), n * 17);
    bus.read(RAM + ((n * 67) & 0x3ff));
    bus.write(COUNTERS + ((n * 5) & 0xff), n);
    bus.read(COUNTERS + ((n * 5) & 0xff));
  };
  frame(7);
  bench.forget();
  for (let n = 0; n < 8; n += 1) frame(n);
  const states = new Map<string, State>();
  for (const pin of board.netOf.keys()) states.set(pin, bench.state(pin));
  return { state: (pin) => states.get(pin) ?? bench.state(pin), memory: () => testMemory(bus) };
}

const CHIPS = [
  { ref: "U7", base: RAM, size: 1024, shift: 0 },
  { ref: "U8", base: RAM, size: 1024, shift: 4 },
  { ref: "U9", base: COUNTERS, size: 256, shift: 0 },
] as const;

/** Patterns, then a number at each address that differs from all others in one bit. */
function testMemory(bus: Exerciser): MemoryLine[] {
  return CHIPS.map(({ ref, base, size, shift }) => {
    const mask = 15 << shift;
    const places = [0];
    for (let bit = 1; bit < size; bit <<= 1) places.push(bit);
    let wrong: MemoryLine | undefined;
    const hold = (address: number, wrote: number, got: number) => {
      if ((wrote ^ got) & mask)
        wrong ??= {
          ref,
          wrote: (wrote & mask) >> shift,
          got: (got & mask) >> shift,
          address: base + address,
        };
    };
    for (const pattern of [0x55, 0xaa])
      for (const place of places) {
        bus.write(base + place, pattern);
        // The bus itself remembers for a while; a read of the program takes that away.
        bus.read(PROGRAM + place);
        hold(place, pattern, bus.read(base + place));
      }
    const mark = (i: number) => ((i + 1) * 0x11) & 255;
    for (const [i, place] of places.entries()) bus.write(base + place, mark(i));
    for (const [i, place] of places.entries()) hold(place, mark(i), bus.read(base + place));
    return wrong ?? { ref, wrote: 5, got: 5, address: base };
  });
}

/** Which crossings answer: a clip lead with a diode at each in turn. Rows of columns. */
export function switches(board: Board, fault: Fault): boolean[][] {
  const bus = exerciser(board, fault, { clips: true });
  const lines = [1, 2, 3, 4, 5, 6, 7, 8];
  return lines.map((row) =>
    lines.map((column) => {
      bus.bench.clip({ row, column });
      const answers = (strobed: number) => {
        bus.write(SWITCHES + 2, strobed - 1);
        return (bus.read(SWITCHES) >> (row - 1)) & 1;
      };
      const idle = answers((column % 8) + 1);
      return answers(column) === 1 && idle === 0;
    }),
  );
}

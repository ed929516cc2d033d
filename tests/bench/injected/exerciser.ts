// A bus exerciser in the processor's socket: it makes the cycles, as a technician's would, so that the program need not
// run for readings to be taken.
import { ADDRESS_6802, DATA_6802 } from "./chips";
import type { Bench, Level } from "./logic";

/** Drives and reads the bus through the processor's socket. */
export class Exerciser {
  #turn = 0;

  constructor(
    readonly bench: Bench,
    /** What else moves while it works, by pin and by the number of the cycle. */
    readonly around: Readonly<Record<string, (turn: number) => Level>> = {},
  ) {
    bench.drive("U1.5", 1);
    bench.drive("U1.34", 1);
    bench.drive("U1.37", 0);
  }

  #begin(address: number): void {
    this.#turn += 1;
    this.bench.tick();
    for (const [pin, level] of Object.entries(this.around)) this.bench.drive(pin, level(this.#turn));
    ADDRESS_6802.forEach((pin, i) => {
      this.bench.drive(`U1.${pin}`, (address >> i) & 1 ? 1 : 0);
    });
  }

  #data(value: number | undefined): void {
    DATA_6802.forEach((pin, i) => {
      this.bench.drive(`U1.${pin}`, value === undefined ? "z" : (value >> i) & 1 ? 1 : 0);
    });
  }

  write(address: number, value: number): void {
    const { bench } = this;
    this.#begin(address);
    bench.drive("U1.34", 0);
    bench.settle();
    bench.drive("U1.37", 1);
    this.#data(value);
    bench.settle();
    // The data stay a little longer than the clock, as of a real processor.
    bench.drive("U1.37", 0);
    bench.settle();
    this.#data(undefined);
    bench.drive("U1.34", 1);
    bench.settle();
  }

  read(address: number): number {
    const { bench } = this;
    this.#begin(address);
    bench.settle();
    bench.drive("U1.37", 1);
    bench.settle();
    const value = DATA_6802.reduce((sum, pin, i) => sum + (bench.read(`U1.${pin}`) << i), 0);
    bench.drive("U1.37", 0);
    bench.settle();
    return value;
  }
}

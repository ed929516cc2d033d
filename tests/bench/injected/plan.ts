// What is measured of a board with one fault, and what log comes of it. A plan asks the meter first and reads its
// answers afterwards, so that all boards go through few runs of the simulator.

import { type Board, pinsOf } from "./board";
import { CHIPS } from "./chips";
import type { Experiment } from "./experiment";
import { type Fault, leg } from "./fault";
import { type Cell, drop, esr, farads, ohms, type Reading, type Scene, type Table } from "./log";
import { Meter, Unpowered } from "./meter";
import { type Deck, type Results, runDecks } from "./spice";

/** An answer once the run is over. */
export type Later<T> = () => T;

export class Session {
  readonly #decks: Deck[] = [];
  readonly #meter = new Meter();
  #results: Results[] = [];
  #read: number[] = [];

  run<T>({ deck, read }: Experiment<T>): Later<T> {
    const at = this.#decks.length;
    this.#decks.push(deck);
    return () => read(this.#results[at]!);
  }

  /** A reading of the unpowered board. */
  probe(
    circuit: Unpowered,
    kind: "diode" | "ohms" | "farads" | "esr",
    red: string,
    black: string,
  ): Later<number> {
    if (red === black) return () => 0;
    const at = this.#meter.ask(circuit, { kind, red, black });
    return () => this.#read[at]!;
  }

  get empty(): boolean {
    return this.#decks.length === 0;
  }

  go(): void {
    const decks = [...this.#decks, ...this.#meter.decks()];
    if (decks.length === 0) return;
    const results = runDecks(decks);
    this.#results = results.slice(0, this.#decks.length);
    this.#read = this.#meter.readings(results.slice(this.#decks.length));
  }
}

/** A scene, or what has to be measured next because of what was found. */
export type Step = (session: Session) => Later<Scene | Step>;
export type Recipe = (board: Board, fault: Fault) => Step;

/** Takes all plans to their scenes, in as few runs as they have steps. */
export function carryOut(steps: readonly Step[]): Scene[] {
  const scenes: (Scene | undefined)[] = steps.map(() => undefined);
  let waiting = steps.map((step, i) => ({ step, i }));
  while (waiting.length > 0) {
    const session = new Session();
    const answers = waiting.map(({ step, i }) => ({ later: step(session), i }));
    session.go();
    waiting = [];
    for (const { later, i } of answers) {
      const outcome = later();
      if (typeof outcome === "function") waiting.push({ step: outcome, i });
      else scenes[i] = outcome;
    }
  }
  return scenes.map((scene) => scene!);
}

/** Tables of the unpowered board. */
export class Unplugged {
  readonly #circuit: Unpowered;

  constructor(
    readonly session: Session,
    readonly board: Board,
    readonly fault: Fault,
  ) {
    this.#circuit = new Unpowered(board, fault);
  }

  #leg(pin: string): string {
    return leg(this.board, this.fault, pin);
  }

  #table(heading: string, columns: readonly string[], rows: readonly Later<readonly Cell[]>[]): Later<Table> {
    return () => ({ heading, columns, rows: rows.map((row) => row()) });
  }

  /** A column for each chip, red lead on ground. */
  diodes(refs: readonly string[]): Later<Table> {
    const most = Math.max(...refs.map((ref) => Math.max(...pinsOf(this.board, ref))));
    const cell = (ref: string, number: number): Later<Cell> => {
      const pin = `${ref}.${number}`;
      const device = this.board.parts.get(ref)?.device ?? "";
      const [ground] = CHIPS[device]?.ground ?? [];
      // What is wired to nothing and stands in no net is not read.
      if (!this.board.netOf.has(pin) && number !== ground) return () => "-";
      const volts = this.session.probe(this.#circuit, "diode", "0", this.#leg(pin));
      return () => drop(volts());
    };
    return this.#table(
      "Diode check",
      ["Pin", ...refs],
      Array.from({ length: most }, (_, i) => {
        const cells = refs.map((ref) => cell(ref, i + 1));
        return () => [String(i + 1), ...cells.map((one) => one())];
      }),
    );
  }

  /** A row for each pin, red lead on ground. */
  drops(pins: readonly string[]): Later<Table> {
    return this.#table(
      "Diode check",
      ["Ref", "Pin", "Reading"],
      pins.map((pin) => {
        const volts = this.session.probe(this.#circuit, "diode", "0", this.#leg(pin));
        return () => [...pin.split("."), drop(volts())];
      }),
    );
  }

  /** Base to emitter, base to collector, collector to emitter, as an NPN is read; a PNP with the leads the other way. */
  junctions(refs: readonly string[]): Later<Table> {
    return this.#table(
      "Transistor junctions",
      ["Ref", "B-E", "B-C", "C-E"],
      refs.map((ref) => {
        const device = this.board.parts.get(ref)!.device!;
        const power = device.startsWith("TIP");
        const [b, c, e] = (power ? [1, 2, 3] : [2, 3, 1]).map((n) => this.#leg(`${ref}.${n}`)) as [
          string,
          string,
          string,
        ];
        const pnp = device === "TIP107" || device === "2N4403";
        const read = (red: string, black: string) =>
          pnp
            ? this.session.probe(this.#circuit, "diode", black, red)
            : this.session.probe(this.#circuit, "diode", red, black);
        const all = [read(b, e), read(b, c), read(c, e)];
        return () => [ref, ...all.map((one) => drop(one()))];
      }),
    );
  }

  /** Both ways across diodes. */
  rectifiers(refs: readonly string[]): Later<Table> {
    return this.#table(
      "Diodes both ways",
      ["Ref", "Forward", "Reverse"],
      refs.map((ref) => {
        const [cathode, anode] = [this.#leg(`${ref}.1`), this.#leg(`${ref}.2`)];
        const forward = this.session.probe(this.#circuit, "diode", anode, cathode);
        const reverse = this.session.probe(this.#circuit, "diode", cathode, anode);
        return () => [ref, drop(forward()), drop(reverse())];
      }),
    );
  }

  resistors(refs: readonly string[]): Later<Table> {
    return this.#table(
      "Resistance",
      ["Ref", "Reading"],
      refs.map((ref) => {
        const value = this.session.probe(this.#circuit, "ohms", this.#leg(`${ref}.1`), this.#leg(`${ref}.2`));
        return () => [ref, ohms(value())];
      }),
    );
  }

  /** Between the ends of a coil, as its table has it. */
  coils(rows: readonly { ref: string; from: string; to: string }[]): Later<Table> {
    return this.#table(
      "Coil resistance",
      ["Ref", "Reading"],
      rows.map(({ ref, from, to }) => {
        const value = this.session.probe(this.#circuit, "ohms", this.#leg(from), this.#leg(to));
        return () => [ref, ohms(value())];
      }),
    );
  }

  capacitors(refs: readonly string[]): Later<Table> {
    return this.#table(
      "Capacitance and ESR",
      ["Ref", "Capacitance", "ESR"],
      refs.map((ref) => {
        const [a, b] = [this.#leg(`${ref}.1`), this.#leg(`${ref}.2`)];
        const size = this.session.probe(this.#circuit, "farads", a, b);
        const series = this.session.probe(this.#circuit, "esr", a, b);
        return () => {
          const [c, r] = [size(), series()];
          // Nothing there to charge, or a short: a meter shows overload.
          const none = !(c > 0) || c > 0.03 || c < 1e-10;
          return [ref, none ? "OL" : farads(c), r < 0 || r > 20 ? "OL" : esr(r)];
        };
      }),
    );
  }

  /** @param rails the node of each by the name that the log has for it */
  rails(rails: Readonly<Record<string, string>>): Later<Table> & { readonly shorted: Later<boolean> } {
    const read = Object.entries(rails).map(([name, node]) => ({
      name,
      value: this.session.probe(this.#circuit, "ohms", node, "0"),
    }));
    const table = this.#table(
      "Resistance to ground",
      ["Rail", "Reading"],
      read.map(
        ({ name, value }) =>
          () =>
            [name, ohms(value())] as readonly (string | Reading)[],
      ),
    );
    return Object.assign(table, { shorted: () => read.some(({ value }) => value() < SHORT) });
  }
}

/** Ohms to ground below which nobody switches on. */
const SHORT = 10;

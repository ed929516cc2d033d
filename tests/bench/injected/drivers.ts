// The driver board's coil and lamp drivers under power, with all of them asked for or none. Loads are invented.
import type { Board } from "./board";
import { CHIPS } from "./chips";
import { leaks, line, MODELS, netlist } from "./elements";
import { type Experiment, value, within } from "./experiment";
import { die, type Fault, leg } from "./fault";

export interface Drivers {
  /** Volts by pin. */
  at(pin: string): number;
}

/** @param asked whether all coils, lamp rows and lamp columns are asked for */
export function drivers(board: Board, fault: Fault, asked: boolean): Experiment<Drivers> {
  const circuits = ["coil-drivers", "lamp-rows", "lamp-columns", "blanking", "coil-relay"];
  const elements = netlist(board, fault, within(...circuits));
  const lines = [...MODELS, ...leaks(elements), ...elements.map((element) => line(element))];
  const feed = (node: string, volts: number, ohms: number) =>
    lines.push(`vf_${node} f_${node} 0 ${volts}`, `rf_${node} f_${node} ${node} ${ohms}`);
  feed("vcc", 5, 0.02);
  feed("v12", 12, 0.1);
  feed("vcoil", 33.5, 0.4);
  feed("vlamp", 13, 0.2);
  lines.push("vhigh high 0 1.5");
  const at = (pin: string) => die(board, fault, pin);
  lines.push(`sk1 ${at("K1.3")} ${at("K1.4")} ${at("K1.1")} ${at("K1.2")} relay off`);
  lines.push(".model relay sw(vt=6 vh=1 ron=0.02 roff=1g)");
  // From the controller: BLANK at rest, the relay closed, the lines as asked.
  const drive = (pin: string, volts: number) =>
    lines.push(
      `vd_${pin.replace(".", "_")} s_${pin.replace(".", "_")} 0 ${volts}`,
      `rd_${pin.replace(".", "_")} s_${pin.replace(".", "_")} ${leg(board, fault, pin)} 100`,
    );
  drive("J4.10", 4.2);
  drive("J4.11", 3.5);
  for (const ref of ["U1", "U2", "U3", "U4"]) {
    const chip = CHIPS["7407"]!;
    for (const output of chip.open!) {
      const input = output < 7 ? output - 1 : output + 1;
      const source = board.netOf.get(`${ref}.${input}`);
      const line = [...board.nets.get(source!)!].find((pin) => /^J[34]\./.test(pin))!;
      drive(line, asked ? 3.5 : 0.2);
      const frozen = fault.edits.find((edit) => edit.kind === "frozen" && edit.pin === `${ref}.${output}`);
      // An input that has lost its line floats high.
      const driven = at(`${ref}.${input}`) === leg(board, fault, line);
      const low = frozen?.kind === "frozen" ? frozen.level === 0 : driven && !asked;
      // What an open TTL input stands at (common practice, no source).
      lines.push(
        `ri_${ref}_${input} ${at(`${ref}.${input}`)} high 20k`,
        `rl_${ref}_${input} ${leg(board, fault, `${ref}.${input}`)} 0 100meg`,
      );
      lines.push(`ro_${ref}_${output} ${at(`${ref}.${output}`)} 0 ${low ? 12 : "10meg"}`);
      for (const edit of fault.edits)
        if (edit.kind === "burnt" && edit.pin === `${ref}.${output}`)
          lines.push(`rb_${ref}_${output} ${at(edit.pin)} ${edit.level ? "vcc" : "0"} 4`);
    }
  }
  for (let n = 1; n <= 8; n += 1) {
    lines.push(`rcoil${n} vcoil_sw ${leg(board, fault, `J5.${n}`)} 100`);
    lines.push(`rrow${n} vlamp ${leg(board, fault, `J6.${n}`)} 50`);
    lines.push(`rcol${n} ${leg(board, fault, `J6.${n + 10}`)} 0 50`);
  }
  return {
    deck: { lines: [...new Set(lines)], commands: ["op"], write: true },
    read: (results) => ({
      at: (pin) => {
        const node = leg(board, fault, pin);
        return node === "0" ? 0 : value(results, `v(${node})`);
      },
    }),
  };
}

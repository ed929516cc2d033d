// The driver board's supplies from the transformer on, loaded. Windings and loads are invented, as the boards are; how a
// regulator behaves is from memory of its data sheet.
import type { Board } from "./board";
import { amount, leaks, line, MODELS, netlist, REGULATORS } from "./elements";
import { type Experiment, value, within } from "./experiment";
import { die, type Fault, leg } from "./fault";

/** Exact enough for a meter, and quick. */
const LOOSE = ".options reltol=2e-3 abstol=1e-8 vntol=1e-5 gmin=1e-10 method=gear";

/** Volts (rms) without load and ohms of the windings, which give their nominal voltage at load. */
const WINDINGS = [
  { from: "J1.1", to: "J1.2", volts: 9.9, ohms: 0.08 },
  { from: "J1.3", to: "J1.4", volts: 16.2, ohms: 0.6 },
  { from: "J1.4", to: "J1.5", volts: 16.2, ohms: 0.6 },
  { from: "J1.6", to: "J1.7", volts: 26.4, ohms: 0.35 },
  { from: "J1.8", to: "J1.9", volts: 15.2, ohms: 0.12 },
] as const;
const MAINS = 50;
/** Ohms to ground of what each rail feeds. */
const LOADS = { vcc: 2.27, v12: 24, vneg12: 120, vcoil_sw: 22, vlamp: 2 } as const;
const SETTLED = 0.1;
const END = 0.18;

export interface Supplies {
  /** Volts, mean and peak to peak, and hertz of the ripple, by the net's node. */
  readonly rails: Readonly<Record<string, { mean: number; ripple: number; hertz: number | undefined }>>;
  /** Amperes (rms) through each fuse. */
  readonly fuses: Readonly<Record<string, number>>;
  /** Of the zero-crossing line. */
  readonly crossings: number;
}

const RAILS = ["vraw5", "vcc", "v12", "vneg12", "vcoil", "vlamp"] as const;
const FUSES = ["F1", "F2", "F3", "F4", "F5"] as const;

/** @param blown fuses that are open */
export function supplies(board: Board, fault: Fault, blown: readonly string[] = []): Experiment<Supplies> {
  const circuits = ["logic-supply", "analog-supply", "coil-supply", "lamp-supply", "zero-crossing"];
  const elements = netlist(board, fault, within(...circuits)).filter(
    ({ name }) => !blown.some((ref) => name === `r${ref.toLowerCase()}`),
  );
  const at = (pin: string) => leg(board, fault, pin);
  const lines = [...MODELS, LOOSE, ...leaks(elements), ...elements.map((element) => line(element))];
  WINDINGS.forEach(({ from, to, volts, ohms }, i) => {
    lines.push(
      `vw${i} w${i} ${at(to)} sin(0 ${amount(volts * Math.SQRT2)} ${MAINS})`,
      `rw${i} w${i} ${at(from)} ${ohms}`,
    );
    lines.push(`rwl${i} ${at(from)} 0 10meg`, `rwk${i} ${at(to)} 0 10meg`);
  });
  for (const ref of ["VR1", "VR2", "VR3"]) lines.push(...regulator(board, fault, ref));
  // The relay's contact is closed.
  lines.push(`rk1c ${die(board, fault, "K1.3")} ${die(board, fault, "K1.4")} 0.02`);
  for (const [node, ohms] of Object.entries(LOADS)) lines.push(`rload_${node} ${node} 0 ${ohms}`);
  for (const [node, volts] of [
    ["vraw5", 10],
    ["vrawp", 19],
    ["vrawn", -19],
    ["vcoil", 33],
  ] as const)
    lines.push(`.ic v(${node})=${volts}`);
  const commands = [`tran 200u ${END} 0 200u uic`];
  const meas = (name: string, what: string) => {
    commands.push(`meas tran ${name} ${what} from=${SETTLED} to=${END}`);
  };
  for (const rail of RAILS) {
    meas(`mean_${rail}`, `avg v(${rail})`);
    meas(`pp_${rail}`, `pp v(${rail})`);
  }
  // How much of the ripple is at the mains frequency and how much at twice that.
  for (const rail of ["vraw5", "vcoil"])
    for (const times of [1, 2])
      for (const wave of ["sin", "cos"]) {
        const name = `x${times}${wave}_${rail}`;
        lines.push(`b${name} ${name} 0 v=v(${rail})*${wave}(${amount(2 * Math.PI * MAINS * times)}*time)`);
        meas(name, `avg v(${name})`);
      }
  for (const ref of FUSES) {
    const name = `i_${ref.toLowerCase()}`;
    lines.push(
      `b${name} ${name} 0 v=v(${die(board, fault, `${ref}.1`)},${die(board, fault, `${ref}.2`)})/0.03`,
    );
    meas(name, `rms v(${name})`);
  }
  const crossing = at("Q51.3");
  commands.push(`meas tran z1 when v(${crossing})=2.4 rise=2`, `meas tran z2 when v(${crossing})=2.4 rise=3`);
  return {
    deck: { lines, commands },
    read(results) {
      const size = (times: number, rail: string) =>
        Math.hypot(value(results, `x${times}sin_${rail}`), value(results, `x${times}cos_${rail}`));
      const [z1, z2] = [results.get("z1"), results.get("z2")];
      return {
        rails: Object.fromEntries(
          RAILS.map((rail) => [
            rail,
            {
              mean: value(results, `mean_${rail}`),
              ripple: value(results, `pp_${rail}`),
              hertz: !results.has(`x1sin_${rail}`)
                ? undefined
                : size(1, rail) > size(2, rail)
                  ? MAINS
                  : 2 * MAINS,
            },
          ]),
        ),
        fuses: Object.fromEntries(
          FUSES.map((ref) => [ref, blown.includes(ref) ? 0 : value(results, `i_${ref.toLowerCase()}`)]),
        ),
        crossings: z1 === undefined || z2 === undefined ? 0 : 1 / (z2 - z1),
      };
    },
  };
}

/** A regulator as what it does: its own voltage, or what its input leaves, and the same current at both. */
function regulator(board: Board, fault: Fault, ref: string): string[] {
  const { volts, drop, pins } = REGULATORS[board.parts.get(ref)!.device!]!;
  const [input, output, ground] = pins.map((pin) => die(board, fault, `${ref}.${pin}`)) as [
    string,
    string,
    string,
  ];
  const told = fault.edits.find((edit) => edit.kind === "output" && edit.ref === ref);
  const wanted = told?.kind === "output" ? told.volts : volts;
  const sign = Math.sign(volts);
  const id = ref.toLowerCase();
  const over = (node: string) => `(${sign}*(v(${node})-v(${ground === "0" ? "gnd0" : ground})))`;
  const gnd0 = ground === "0" ? [`rgnd_${id} gnd0 0 1`] : [];
  return [
    ...gnd0,
    `r${id}in ${input} 0 1meg`,
    `r${id}out ${output} 0 1meg`,
    // 60 dB of what is left of the ripple goes through (LM323K data sheet, from memory).
    `b${id} o_${id} ${ground} v=${sign}*max(0,min(${Math.abs(wanted)}+0.001*(${over(input)}-${Math.abs(wanted) + 4}),${over(input)}-${drop}))`,
    `v${id} o_${id} p_${id} 0`,
    `r${id} p_${id} ${output} 0.02`,
    `bi${id} ${input} ${ground} i=i(v${id})*min(1,max(0,${over(input)}))`,
  ];
}

// The faults that are injected into analogue parts, by what is looked at; chosen before any was diagnosed.
import { type Board, numberOf, refOf } from "./board";
import { type Fault, part } from "./fault";
import { bond, burnt, cut, drift, frozen, joint, leg, make, open, short } from "./fault-kinds";

export function supplyFaults(): Fault[] {
  const reservoirs = ["C1", "C2", "C3", "C7"];
  return [
    ...reservoirs.map((ref) => drift("capacitor", ref, 0.2, ref === "C1" ? 0.6 : 2)),
    ...["C1", "C7"]
      .map((ref) => drift("capacitor", ref, 0.5, 0.3))
      .map((one) => ({ ...one, id: `${one.id}, half` })),
    ...reservoirs.map((ref) => open("capacitor", ref, 1, 2)),
    ...reservoirs.map((ref) => short("capacitor", ref)),
    ...["C4", "C5", "C6"].map((ref) => drift("capacitor", ref, 0.1, 15)),
    ...["C4", "C5", "C6", "C10", "C11", "C12", "C13"].map((ref) => short("capacitor", ref)),
    ...["BR1", "BR2", "BR3", "BR4"].flatMap((ref) => [
      leg(ref, "a", "open"),
      leg(ref, "d", "open"),
      leg(ref, "b", "short"),
    ]),
    ...["F1", "F2", "F3", "F4", "F5"].map((ref) => open("fuse", ref, 1, 2)),
    ...[
      ["VR1", 4.2],
      ["VR2", 9.5],
      ["VR3", -9.5],
    ].map(([ref, volts]) =>
      make("regulator", "low", String(ref), [part(String(ref))], {
        kind: "output",
        ref: String(ref),
        volts: Number(volts),
      }),
    ),
    open("regulator", "VR1", 2),
    open("regulator", "VR2", 3),
    open("regulator", "VR3", 3),
    short("regulator", "VR1"),
    short("regulator", "VR2", 1, 3),
    short("regulator", "VR3", 2, 3),
    short("diode", "D12"),
    short("diode", "D13"),
    ...["R1", "R2", "R3", "R4"].map((ref) => open("resistor", ref, 1, 2)),
    short("diode", "D14"),
    short("transistor", "Q51", 1, 3),
    open("transistor", "Q51", 2),
    cut("VRAW5", "VR1.1"),
    cut("AC9_AF", "BR1.2"),
    cut("AC24_B", "BR3.3"),
    cut("VRAWN", "VR3.2"),
  ];
}

export function driverFaults(board: Board): Fault[] {
  const on = (name: string, letter: RegExp) => board.nets.get(name)!.find((one) => letter.test(one))!;
  const buffer = (name: string) => on(name, /^U/);
  const pull = (name: string) => on(name, /^RN/);
  const pulled = (name: string) => open("resistor", refOf(pull(name)), numberOf(pull(name)));
  return [
    ...[1, 5].flatMap((n) => [
      short("transistor", `Q${n}`, 2, 3),
      open("transistor", `Q${n + 1}`, 1),
      open("transistor", `Q${n + 2}`, 2),
    ]),
    short("transistor", "Q4", 1, 3),
    short("transistor", "Q13", 1, 3),
    open("transistor", "Q12", 2),
    open("transistor", "Q17", 1),
    short("transistor", "Q18", 2, 1),
    short("diode", "D2"),
    open("diode", "D6", 1, 2),
    drift("resistor", "R13", 5),
    open("resistor", "R14", 1, 2),
    pulled("CP_6"),
    burnt(buffer("CP_2"), 0),
    burnt(buffer("CP_7"), 1),
    frozen(buffer("CP_3"), 0),
    frozen(buffer("CP_8"), 1),
    bond(buffer("CP_5")),
    bond(buffer("COIL_4")),
    joint(board, buffer("COIL_6")),
    joint(board, "Q5.2"),
    joint(board, "J4.3"),
    cut("CP_1", "Q11.2"),
    cut("COIL_OUT_7", "J5.7"),
    short("transistor", "Q23", 2, 3),
    open("transistor", "Q25", 1),
    pulled("LR_4"),
    burnt(buffer("LR_6"), 0),
    frozen(buffer("LR_2"), 1),
    cut("LR_7", "Q27.1"),
    short("transistor", "Q43", 2, 3),
    open("transistor", "Q45", 1),
    short("transistor", "Q36", 1, 3),
    open("transistor", "Q32", 2),
    open("resistor", "R34", 1, 2),
    open("resistor", "R41", 1, 2),
    drift("resistor", "R37", 20),
    burnt(buffer("LC_8"), 0),
    joint(board, "J3.5"),
    open("transistor", "Q53", 2),
    open("transistor", "Q54", 2),
    short("transistor", "Q54", 1, 3),
    open("resistor", "R8", 1, 2),
    open("resistor", "R7", 1, 2),
    short("capacitor", "C9"),
    open("resistor", "R19", 1, 2),
    open("transistor", "Q52", 2),
    open("resistor", "R5", 1, 2),
    open("relay", "K1", 1, 2),
    open("relay", "K1", 3, 4),
    short("diode", "D11"),
  ];
}

export const railFaults = (): Fault[] =>
  ["C13", "C14", "C15", "C16", "C17", "C18", "C19", "C20", "C21", "C22", "C7"].map((ref) =>
    short("capacitor", ref),
  );

export function resetFaults(board: Board): Fault[] {
  return [
    short("capacitor", "C1"),
    open("capacitor", "C1", 1, 2),
    drift("capacitor", "C1", 0.25, 30),
    { ...drift("capacitor", "C1", 2.5), id: "C1 drift up" },
    open("resistor", "R5", 1, 2),
    drift("resistor", "R5", 2),
    ...["R1", "R2", "R3", "R4"].map((ref) => open("resistor", ref, 1, 2)),
    drift("resistor", "R1", 8),
    short("transistor", "Q1", 1, 3),
    open("transistor", "Q1", 2),
    short("transistor", "Q2", 1, 3),
    open("transistor", "Q2", 2),
    open("transistor", "Q2", 3),
    short("diode", "D1"),
    open("diode", "D1", 1, 2),
    frozen("U14.6", 0),
    frozen("U14.6", 1),
    frozen("U14.8", 0),
    burnt("U14.5", 0),
    burnt("U14.8", 0),
    bond("U14.5"),
    joint(board, "U14.5"),
    cut("RESET", "U14.9"),
    cut("RST_RC", "C1.1"),
  ];
}

export function backupFaults(board: Board): Fault[] {
  return [
    open("diode", "D2", 1, 2),
    short("diode", "D2"),
    open("resistor", "R10", 1, 2),
    drift("resistor", "R10", 2e4),
    drift("capacitor", "C2", 0.002, 400),
    open("capacitor", "C2", 1, 2),
    short("capacitor", "C2"),
    short("capacitor", "C7"),
    open("resistor", "R8", 1, 2),
    open("resistor", "R9", 1, 2),
    drift("resistor", "R8", 40),
    burnt("U9.17", 0),
    joint(board, "U9.22"),
    cut("VBAK", "C2.1"),
    cut("VMEM", "D2.1"),
  ];
}

export function soundFaults(board: Board): Fault[] {
  return [
    open("resistor", "R18", 1, 2),
    open("resistor", "R19", 1, 2),
    drift("resistor", "R19", 2.2),
    drift("resistor", "R18", 3),
    short("capacitor", "C8"),
    open("capacitor", "C8", 1, 2),
    drift("capacitor", "C8", 0.4),
    short("capacitor", "C9"),
    frozen("U22.12", 0),
    frozen("U22.9", 1),
    burnt("U22.11", 0),
    frozen("U23.5", 0),
    burnt("U23.4", 0),
    bond("U22.14"),
    joint(board, "U22.1"),
    cut("TONE", "U23.15"),
    cut("TONE_8", "U23.2"),
  ];
}

import { diagnose } from "../../../server/src/compute/diagnosis";
import type { DiagnosisFinding, DiagnosisInput } from "../../../server/src/compute/diagnosis/types";
import { loadBoard } from "../../../server/src/knowledge/load-board";
import type { Board, Device } from "../../../server/src/knowledge/types";
import { deviceOf as library } from "./regatta";

const TEXT = `mendlog-board: 1
id: bench
title: Bench board
era: { from: 1979, to: 1983 }
grounds: [GND]
rails:
  "+5V": { nominal: 5 V, tolerance: 5 %, net: VCC }
circuits:
  rows: { title: Rows }
  other: { title: Other }
parts:
  U1: { device: 74LS04, circuit: rows, location: A1 }
  U2: { device: 74LS04, circuit: rows, location: C5 }
  U3: { device: 74LS04, circuit: rows, socketed: true, location: C7 }
  U4: { device: 74LS04, circuit: other, location: G7 }
  C1: { value: 10 uF 16 V, circuit: rows }
  R1: { value: 10k, circuit: rows }
  BT1: { value: 3.6 V NiCd, circuit: other, location: A2 }
nets:
  GND: [U1.7, U2.7, U3.7, U4.7, BT1.2, C1.2]
  VCC: [U1.14, U2.14, U3.14, U4.14, R1.2]
  A: [U1.2, U2.1, U3.1, R1.1]
  B: [U1.4, U2.3]
  C: [U1.6, U3.3]
  D: [U2.2, U3.5]
  E: [U3.6, U4.1]
  F: [U1.1, C1.1]
symptoms:
  row-dead: { title: Row dead, circuits: [rows] }
`;

const loaded = loadBoard(TEXT);
if (!loaded.value || loaded.problems.length > 0) throw new Error(JSON.stringify(loaded.problems));
/** Four inverters in a row of nets, a battery beside U1; U3 is socketed. */
export const board: Board = loaded.value;
export const deviceOf = (part: string): Device | undefined => library(part);

export const low = (ref: string, pin: string): DiagnosisFinding => ({
  kind: "pin",
  ref,
  pin,
  verdict: "out-of-limits",
  direction: "low",
});
export const high = (ref: string, pin: string): DiagnosisFinding => ({
  kind: "pin",
  ref,
  pin,
  verdict: "out-of-limits",
  direction: "high",
});
export const rowDead: DiagnosisFinding = { kind: "symptom", symptom: "row-dead", circuits: ["rows"] };

export function diagnosed(findings: readonly DiagnosisFinding[], rest: Partial<DiagnosisInput> = {}) {
  const result = diagnose({ board, deviceOf, findings, ...rest });
  if (!result.ok) throw new Error(result.reason);
  return result;
}

/** Share of a part or track over all candidates. */
export const share = (diagnosis: ReturnType<typeof diagnosed>, id: string): number =>
  diagnosis.ranked.find(({ suspect }) => suspect.id === id)?.probability ?? 0;

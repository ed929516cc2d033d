import type { DiagnosisInput, Finding, WithinLimits } from "../../../server/src/compute/diagnosis/types";
import { loadBoard } from "../../../server/src/knowledge/load-board";
import type { Board } from "../../../server/src/knowledge/types";
import { random } from "./random";
import { deviceOf } from "./regatta";

const PARTS = 300;
const NETS = 600;
const FINDINGS = 20;
/** Fourteen pins with ground at 7 and supply at 14. */
const DEVICES = ["74LS04", "74LS00", "74LS08", "74LS32"];
const SIGNAL_PINS = [1, 2, 3, 4, 5, 6, 8, 9, 10, 11, 12, 13];
const CIRCUITS = 12;

/** The file of an invented board of 300 chips in twelve circuits, whose 600 nets tie two to nine of their pins together. */
export function largeBoardText(seed: number): string {
  const rng = random(seed);
  const pick = (most: number) => Math.floor(rng() * most);
  const refs = Array.from({ length: PARTS }, (_, i) => `U${i + 1}`);
  const free = refs.flatMap((ref) => SIGNAL_PINS.map((pin) => `${ref}.${pin}`));
  for (let i = free.length - 1; i > 0; i -= 1) {
    const j = pick(i + 1);
    [free[i], free[j]] = [free[j]!, free[i]!];
  }
  const nets = Array.from({ length: NETS }, (_, i) => {
    const pins = free.splice(0, rng() < 0.15 ? 9 : 2 + pick(4));
    return `  N${i + 1}: [${pins.join(", ")}]`;
  });
  const lines = [
    "mendlog-board: 1",
    "id: large",
    "title: Large board",
    "era: { from: 1979, to: 1983 }",
    "grounds: [GND]",
    "rails:",
    '  "+5V": { nominal: 5 V, tolerance: 5 %, net: VCC }',
    "circuits:",
    ...Array.from({ length: CIRCUITS }, (_, i) => `  c${i}: { title: Circuit ${i} }`),
    "parts:",
    ...refs.map(
      (ref, i) => `  ${ref}: { device: ${DEVICES[i % DEVICES.length]}, circuit: c${i % CIRCUITS} }`,
    ),
    "nets:",
    `  GND: [${refs.map((ref) => `${ref}.7`).join(", ")}]`,
    `  VCC: [${refs.map((ref) => `${ref}.14`).join(", ")}]`,
    ...nets,
    "symptoms:",
    "  dead: { title: Dead, circuits: [c0, c1] }",
  ];
  return `${lines.join("\n")}\n`;
}

export function largeBoard(seed: number): Board {
  const { value, problems } = loadBoard(largeBoardText(seed), { deviceOf });
  if (!value || problems.length > 0) throw new Error(JSON.stringify(problems.slice(0, 3)));
  return value;
}

/** Twenty findings of every common kind on that board, and some eighty pins that read within limits. */
export function largeInput(seed: number): DiagnosisInput {
  const board = largeBoard(seed);
  const rng = random(seed + 1);
  const pins = [...board.nets.values()]
    .filter(({ name }) => name.startsWith("N"))
    .flatMap(({ name, pins }) => pins.map(({ ref, pin }) => ({ net: name, ref, pin })));
  const some = () => pins[Math.floor(rng() * pins.length)]!;
  const findings = Array.from({ length: FINDINGS }, (_, i): Finding => {
    const { ref, pin, net } = some();
    if (i === 0) return { kind: "symptom", symptom: "dead", circuits: ["c0", "c1"] };
    if (i === 1) return { kind: "net", net, pins: board.nets.get(net)!.pins };
    if (i === 2) return { kind: "gate", ref, gate: "A", pins: ["1", "2"] };
    const direction = rng() < 0.6 ? "low" : "high";
    return { kind: "pin", ref, pin, verdict: rng() < 0.8 ? "out-of-limits" : "suspect", direction };
  });
  const withinLimits = Array.from({ length: 80 }, (): WithinLimits => {
    const { ref, pin } = some();
    return { ref, pin };
  });
  return { board, deviceOf, findings, withinLimits };
}

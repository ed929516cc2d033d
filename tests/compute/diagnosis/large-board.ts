import type {
  DiagnosisFinding,
  DiagnosisInput,
  WithinLimits,
} from "../../../server/src/compute/diagnosis/types";
import { loadBoard } from "../../../server/src/knowledge/load-board";
import type { Board } from "../../../server/src/knowledge/types";
import { random } from "./random";
import { deviceOf } from "./regatta";

/** How much there is of a board and of what was found on it. */
export interface Extent {
  readonly parts: number;
  readonly nets: number;
  readonly findings: number;
}

export const LARGE: Extent = { parts: 300, nets: 600, findings: 20 };
/** The largest that a bench may bring: several boards in one rack, traced as one. */
export const LARGEST: Extent = { parts: 1000, nets: 2000, findings: 120 };
/** Pins that read within limits, for each finding. */
const WITHIN = 4;
/** Fourteen pins with ground at 7 and supply at 14. */
const DEVICES = ["74LS04", "74LS00", "74LS08", "74LS32"];
const SIGNAL_PINS = [1, 2, 3, 4, 5, 6, 8, 9, 10, 11, 12, 13];
const CIRCUITS = 12;

/** The file of an invented board of chips in twelve circuits, whose nets tie two to nine of their pins together. */
export function largeBoardText(seed: number, { parts, nets: count }: Extent = LARGE): string {
  const rng = random(seed);
  const pick = (most: number) => Math.floor(rng() * most);
  const refs = Array.from({ length: parts }, (_, i) => `U${i + 1}`);
  const free = refs.flatMap((ref) => SIGNAL_PINS.map((pin) => `${ref}.${pin}`));
  for (let i = free.length - 1; i > 0; i -= 1) {
    const j = pick(i + 1);
    [free[i], free[j]] = [free[j]!, free[i]!];
  }
  const nets = Array.from({ length: count }, (_, i) => {
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

export function largeBoard(seed: number, extent: Extent = LARGE): Board {
  const { value, problems } = loadBoard(largeBoardText(seed, extent), { deviceOf });
  if (!value || problems.length > 0) throw new Error(JSON.stringify(problems.slice(0, 3)));
  return value;
}

/** Findings of every common kind on that board, and pins that read within limits. */
export function largeInput(seed: number, extent: Extent = LARGE): DiagnosisInput {
  const board = largeBoard(seed, extent);
  const rng = random(seed + 1);
  const pins = [...board.nets.values()]
    .filter(({ name }) => name.startsWith("N"))
    .flatMap(({ name, pins }) => pins.map(({ ref, pin }) => ({ net: name, ref, pin })));
  const some = () => pins[Math.floor(rng() * pins.length)]!;
  const findings = Array.from({ length: extent.findings }, (_, i): DiagnosisFinding => {
    const { ref, pin, net } = some();
    if (i === 0) return { kind: "symptom", symptom: "dead", circuits: ["c0", "c1"] };
    if (i === 1) return { kind: "net", net, pins: board.nets.get(net)!.pins };
    if (i === 2) return { kind: "gate", ref, gate: "A", pins: ["1", "2"] };
    const direction = rng() < 0.6 ? "low" : "high";
    return { kind: "pin", ref, pin, verdict: rng() < 0.8 ? "out-of-limits" : "suspect", direction };
  });
  const withinLimits = Array.from({ length: WITHIN * extent.findings }, (): WithinLimits => {
    const { ref, pin } = some();
    return { ref, pin };
  });
  return { board, deviceOf, findings, withinLimits };
}

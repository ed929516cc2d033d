// A reading that moves while the meter shows it, as technicians write it. Common practice, no source.

export type Drift = "rising" | "falling";

const UP =
  "rising|rises|rose|climbing|climbs|climbed|charging(?: up)?|increasing|creeping up|creeps up|counting up|counts up|running up|runs up|going up|goes up|went up";
const DOWN =
  "falling|falls|fell|dropping|drops|dropped|sinking|sinks|sank|decreasing|discharging|creeping down|creeps down|counting down|counts down|running down|runs down|going down|goes down|went down";
const HOW = "(?:slowly|steadily|quickly|fast|still)";

/** "0.5 rising", "1.2k and still climbing", "0.55, rising slowly", "15k (rising)", "15k \u2191". */
const STILL = new RegExp(
  `^(.*?[^\\s,;(])[\\s,;]*\\(?(?:(?:and|but|then|${HOW})\\s+)*(?:\\b(?:(${UP})|(${DOWN}))\\b|([\u2191\u2197])|([\u2193\u2198]))(?:\\s+${HOW})?\\)?$`,
  "i",
);
/** "rising to 1.2", "0.3 rising to 1.2", "climbs slowly up to 15k". */
const TO = new RegExp(
  `^(?:.*?[^\\s,;][\\s,;]+)??(?:${HOW}\\s+)*(?:(${UP})|(${DOWN}))(?:\\s+${HOW})?\\s+(?:(?:up|down)\\s+)?to\\s+(\\S.*)$`,
  "i",
);
const ALONE = new RegExp(`^(?:${HOW}\\s+)*(?:${UP}|${DOWN})(?:\\s+${HOW})?$`, "i");

export interface DriftWords {
  readonly drift: Drift;
  /** What stands beside the word: where it was when it was written, or where it came to rest. */
  readonly figure: string;
  readonly settled: boolean;
}

/** Undefined for words that tell of no movement. */
export function driftOf(text: string): DriftWords | undefined {
  const to = TO.exec(text);
  if (to?.[3] !== undefined)
    return { drift: to[1] === undefined ? "falling" : "rising", figure: to[3].trim(), settled: true };
  const still = STILL.exec(text);
  if (!still) return undefined;
  const [, figure = "", up, , arrow] = still;
  return { drift: (up ?? arrow) === undefined ? "falling" : "rising", figure, settled: false };
}

export const namesDriftOnly = (text: string): boolean => ALONE.test(text);

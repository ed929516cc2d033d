// A shop's folder as the benches of many logs use it: invented jobs of about 4 kB each, two of their boards with files.
import { cpSync, mkdirSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

const FILED = ["regatta-controller", "regatta-driver"];
/** Boards that no file describes. */
const UNFILED = 10;
const SYMPTOMS = ["dead", "resets", "row 3 dead", "no display", "coil 2 stays on", "forgets its settings"];
const CHIPS = [
  ["U14", "7404", 14],
  ["U7", "2114", 18],
  ["U9", "74LS138", 16],
  ["U4", "74LS244", 20],
];

/** The same figures for the same number, on every machine. */
function figures(seed) {
  let state = (seed * 2654435761 + 1) >>> 0;
  return (below) => {
    state = (state * 1664525 + 1013904223) >>> 0;
    return Math.floor((state / 4294967296) * below);
  };
}

const day = (n) => new Date(Date.UTC(2016, 0, 1) + n * 86_400_000).toISOString().slice(0, 10);

/** One job's log, about 4 kB. */
export function logText(n) {
  const pick = figures(n);
  const board = pick(3) === 0 ? FILED[pick(2)] : `cabinet-${pick(UNFILED)}`;
  const came = pick(3600);
  const [, , ...rest] = CHIPS;
  const chips = [CHIPS[0], CHIPS[1], rest[pick(2)]];
  const table = ([ref, part, pins]) =>
    `## Diode check ${ref} (${part})\n\n| Ref | Pin | Reading | Note |\n|-----|-----|---------|------|\n${Array.from(
      { length: pins },
      (_, i) =>
        `| ${ref} | ${String(i + 1).padEnd(3)} | ${i + 1 === pins / 2 ? "0.001 " : pick(40) === 0 ? "OL    " : (0.52 + pick(90) / 1000).toFixed(3)} | ${pick(12) === 0 ? "again after the heat" : ""} |\n`,
    ).join("")}`;
  return `---
mendlog: 1
job: ${2016 + Math.floor(came / 365)}-${String(n).padStart(5, "0")}
board: ${board}
serial: ${1000 + pick(5000)}
owner: Owner ${pick(400)}
symptoms: [${SYMPTOMS[pick(SYMPTOMS.length)]}]
received: ${day(came)}
stage: ${pick(10) === 0 ? "diagnosing" : "returned"}
---

# ${board} ${n}

The board came in with its loom cut off and dust in every socket. It was brushed, washed and left to dry for a day.

## Rails

| Rail | Reading | Note |
|------|---------|------|
| +5V  | ${(4.9 + pick(25) / 100).toFixed(2)} V  | at the edge connector |
| +12V | ${(11.6 + pick(90) / 100).toFixed(2)} V |      |

${chips.map(table).join("\n")}
## Logic

| Ref | Pin | State |
|-----|-----|-------|
${Array.from({ length: 14 }, (_, i) => `| U14 | ${i + 1}   | ${["high", "low", "pulsing"][pick(3)]} |\n`).join("")}
## Work

| Date       | Ref | Action   | Part | Note |
|------------|-----|----------|------|------|
| ${day(came + 3)} | U${1 + pick(20)} | replaced | ${CHIPS[pick(4)][1]} | socket fitted |
| ${day(came + 3)} | C${1 + pick(9)}  | replaced | 100uF |      |

## Proving

| Item         | Result |
|--------------|--------|
| soak test    | pass   |
| switch test  | pass   |
| lamp test    | ${pick(20) === 0 ? "fail" : "pass"} |

The board ran for two hours in the bench frame and was packed with its old parts in a bag. Advice: keep the
connector dry, renew the fan's filter, and look at the +5 V supply once a year. Nothing else was found to be wrong,
and what was not read is not said to be good.
`;
}

/** Writes so many logs in folders of years, with two board files. */
export function writeLogs(folder, count) {
  cpSync(fileURLToPath(new URL("../../../demo/boards", import.meta.url)), join(folder, "boards"), {
    recursive: true,
  });
  const made = new Set();
  for (let n = 1; n <= count; n += 1) {
    const year = join(folder, "logs", String(n % 10));
    if (!made.has(year)) mkdirSync(year, { recursive: true });
    made.add(year);
    writeFileSync(join(year, `${n}.md`), logText(n));
  }
}

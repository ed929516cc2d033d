// An invented shop of a few years: logs of two boards, one of them without a board file, with everything the questions
// ask about in them. The same every time.

import { EXAMPLE_BOARD } from "../../server/src/checks/example-board";

const SHOP = `mendlog-shop: 1
name: Bench by the canal
meters:
  bench: { display: 6000 counts, source: invented, ranges: { voltage-dc: [{ full: 6 V, percent: 0.5, counts: 2 }] } }
`;

/** Numbers from 0 to 1 by a 32-bit generator (mulberry), from memory. */
export function numbersFrom(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
}

export interface Made {
  /** By path. */
  readonly files: Readonly<Record<string, string>>;
  /** Words that no export may hold unless the owner is asked for. */
  readonly secrets: readonly string[];
}

const day = (number: number): string => new Date(number * 86_400_000).toISOString().slice(0, 10);
/** 2022-01-03. */
const FIRST = 18_995;

/** @param count of logs */
export function madeShop(count: number, seed = 20_261): Made {
  const random = numbersFrom(seed);
  const pick = <T>(of: readonly T[]): T => of[Math.floor(random() * of.length)]!;
  const near = (centre: number, spread: number): number =>
    centre + spread * (random() + random() + random() + random() - 2);
  const files: Record<string, string> = {
    "boards/example.board.yaml": EXAMPLE_BOARD,
    "mendlog.shop.yaml": SHOP,
  };
  const jobs: { job: string; board: string; serial: string; symptom: string; left: number }[] = [];
  for (let i = 1; i <= count; i++) {
    const received = FIRST + Math.floor((i * 1500) / count) + Math.floor(random() * 9);
    const left = received + 3 + Math.floor(random() * 30);
    const again = random() < 0.12 ? jobs.findLast(({ left: gone }) => gone < received) : undefined;
    const job = `J-${1000 + i}`;
    const board = again?.board ?? (random() < 0.7 ? "example" : "regatta-tower");
    const serial = again?.serial ?? `SN${String(i).padStart(4, "0")}`;
    const symptom = again && random() < 0.5 ? again.symptom : pick(["row-dead", "no sound", "resets"]);
    const stage = random() < 0.85 ? "returned" : pick(["proving", "diagnosing", "scrapped"]);
    const revision = pick(["A", "B"]);
    const named = again && random() < 0.6 ? `comeback-of: ${again.job}\n` : "";
    const meter = pick(["meter: bench\n", "meter: bench\n", "meter: pocket\n", ""]);
    const drift = 0.00001 * (received - FIRST);
    const drop = (centre: number): string => {
      const odd = random();
      if (odd < 0.04) return "OL";
      return (odd < 0.08 ? near(centre, 0.01) * 1.6 : near(centre, 0.01)).toFixed(3);
    };
    const fixes = [pick(["U14", "U15", "U20"]), ...(random() < 0.3 ? ["Q5"] : [])];
    const number: Readonly<Record<string, string>> = {
      U14: "74LS04",
      U15: "74ls04",
      U20: "74LS74",
      Q5: "TIP102",
    };
    const tried =
      random() < 0.2 ? "| U30 | swapped for a known-good one, no change, put back | 74LS14 |\n" : "";
    const both = random() < 0.1 ? "| U32, U33 | replaced | 2114 |\n" : "";
    const hours =
      random() < 0.8
        ? `\n## Hours\n\n- ${day(received + 1)}: ${pick(["0.25", "0.5", "1.1"])} h looked at it\n- ${day(received + 2)}: ${pick(["0.7", "1.5", "2.2"])} h repaired for Zacharias\n`
        : "";
    jobs.push({ job, board, serial, symptom, left });
    files[`logs/${job}-zacharias.md`] = `---
mendlog: 1
job: ${job}
board: ${board}
serial: "${serial}"
revision: ${revision}
owner: Zacharias Quill
contact: { phone: "0555 010 020", email: quill@example.org, note: never before noon }
return-address: 7 Lantern Yard
complaint: It weeps at night
received: ${day(received)}
${stage === "returned" ? `returned: ${day(left)}\n` : ""}stage: ${stage}
symptoms: [${symptom}${random() < 0.2 ? ", hums" : ""}]
${meter}${named}---

# Board of Zacharias Quill

Zacharias says it fell off a cart. ![the board](photos/zacharias.jpg)

## Diode check

| Ref | Pin | Reading | Note |
|-----|-----|---------|------|
| U14 | 1   | ${drop(0.58)} | Zacharias was here |
| U14 | 2   | ${drop(0.61)} | |
| U15 | 3   | ${near(0.55 + drift, 0.004).toFixed(3)} | |
| U41 | 1   | 0.6 | |

## Supply rails, loaded

| Rail | Reading |
|------|---------|
| +5V  | ${near(5.02, 0.04).toFixed(2)} |

## Logic states

| Ref | Pin | State |
|-----|-----|-------|
| U20 | 5   | ${pick(["H", "L", "P"])} |

## Work done

| Ref | Action | Part | Note |
|-----|--------|------|------|
${fixes.map((ref) => `| ${ref} | replaced | ${number[ref]} | as Zacharias asked |\n`).join("")}${tried}${both}| J3 | reflowed | | |
| U34 | to be replaced | 2716 | |

## Parts fitted

| Part | Ref |
|------|-----|
| DIP-14 socket | ${fixes[0]} |
${hours}
## Diode check after repair

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | ${drop(0.58)} |
| ${fixes[0]} | 4 | ${near(0.6, 0.01).toFixed(3)} |
`;
  }
  return {
    files,
    secrets: [
      "Zacharias",
      "zacharias",
      "Quill",
      "quill",
      "0555 010",
      "noon",
      "Lantern",
      "weeps",
      "cart",
      "SN00",
      "looked at it",
    ],
  };
}

const edge = (front: string, work = ""): string => `---
mendlog: 1
board: example
${front}---

## Work done

| Ref | Action | Part |
|-----|--------|------|
${work}| U20 | replaced | 74LS74 |
`;

/** Logs at the edges of what the questions ask: each of them is counted by one rule and would not be by another. */
export const EDGES: Readonly<Record<string, string>> = {
  // The earlier job never left, so the later one is no comeback; serial numbers are spelt as one likes.
  "logs/Z-1.md": edge(
    'job: Z-1\nserial: "E1"\nreceived: 2023-01-02\nstage: scrapped\nsymptoms: [row-dead]\n',
  ),
  "logs/Z-2.md": edge(
    'job: Z-2\nserial: "E1"\nreceived: 2024-01-02\nstage: diagnosing\nsymptoms: [row-dead]\n',
  ),
  "logs/Z-3.md": edge(
    'job: Z-3\nserial: "e2"\nreceived: 2023-02-01\nreturned: 2023-03-01\nstage: returned\n',
  ),
  "logs/Z-4.md": edge('job: Z-4\nserial: "E2 "\nreceived: 2023-04-01\nstage: repairing\n'),
  // Named in other letters, and without a day.
  "logs/Z-5.md": edge('job: Z-5\ncomeback-of: "z-3 "\nstage: received\n'),
  // Without a number, without a serial number, without anything.
  "logs/Z-6.md": edge('serial: "E3"\nreceived: 2023-01-02\nreturned: 2023-02-02\nstage: returned\n'),
  "logs/Z-7.md": edge('job: Z-7\nserial: "E3"\nreceived: 2024-01-02\nstage: proving\n'),
  "logs/Z-8.md": edge(
    "job: Z-8\nstage: returned\nsymptoms: [resets]\n",
    "| U14, U15 | replaced | 74LS04 |\n",
  ),
  // Left on the very day the next one came; a comeback names no job of this shop.
  "logs/Z-9.md": edge(
    'job: Z-9\nserial: "E4"\nreceived: 2023-05-01\nreturned: 2023-06-01\nstage: returned\n',
  ),
  "logs/ZA-1.md": edge('job: ZA-1\nserial: "E4"\nreceived: 2023-06-01\nstage: repairing\n'),
  "logs/ZA-2.md": edge("job: ZA-2\ncomeback-of: nobody's\nreceived: 2023-06-01\nstage: repairing\n"),
  // The symptom came back with another job's name, so nothing was cured.
  "logs/ZA-3.md": edge(
    "job: ZA-3\nreceived: 2023-06-01\nreturned: 2023-07-01\nstage: returned\nsymptoms: [smells]\n",
  ),
  "logs/ZA-4.md": edge(
    "job: ZA-4\ncomeback-of: ZA-3\nreceived: 2023-09-01\nstage: repairing\nsymptoms: [smells]\n",
  ),
  // Logs about several boards, and those that come back from one.
  "logs/ZB-1.md": set("job: ZB-1\nreceived: 2023-02-01\nreturned: 2023-03-01\nstage: returned\n", "E5", "E6"),
  "logs/ZB-2.md": set("job: ZB-2\ncomeback-of: zb-1\nreceived: 2023-05-01\nstage: returned\n", "E5", "E6"),
  "logs/ZB-3.md": edge("job: ZB-3\ncomeback-of: ZB-1\nreceived: 2023-06-01\nstage: repairing\n"),
  "logs/ZB-4.md": edge("job: ZB-4\ncomeback-of: ZB-1\nreceived: 2023-06-02\nstage: repairing\n").replace(
    "board: example",
    "board: bell-box",
  ),
  "logs/ZB-5.md": set("job: ZB-5\ncomeback-of: Z-3\nreceived: 2023-06-03\nstage: repairing\n", "E7", "E8"),
  "logs/ZB-6.md": set("job: ZB-6\nreceived: 2023-07-01\nstage: proving\n", "E9", "E6"),
  "logs/ZB-7.md": set("job: ZB-7\ncomeback-of: ZB-4\nreceived: 2023-08-01\nstage: proving\n", "F1", "F2"),
};

/** A log about two boards, with hours, work, readings and findings under each and before both. */
function set(front: string, tower: string, example: string): string {
  const sections = (ref: string, drop: string): string => `
### Diode check

| Ref | Pin | Reading |
|-----|-----|---------|
| ${ref} | 1 | ${drop} |
| ${ref} | 99 | 0.5 |
| U15 | 3 | 0.551 |

### Work

| Ref | Action | Part |
|-----|--------|------|
| ${ref} | replaced | 74LS04 |

### Hours

- 2023-02-02: 1.5 h repaired it
`;
  return `---
mendlog: 1
${front}boards:
  tower: { board: regatta-tower, serial: "${tower}" }
  other: { board: example, revision: B, serial: "${example}" }
symptoms: [row-dead]
owner: Zacharias Quill
---

# Two boards of Zacharias Quill

## Hours

- 2023-02-01: 0.25 h unpacked both

## Tower
${sections("U1", "0.7")}
## Other
${sections("U14", "0.59")}`;
}

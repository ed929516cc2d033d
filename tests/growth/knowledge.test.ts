// What knowledge files and the tables they judge cost, four times as large: no more than in proportion, and a little.
import { expect, test } from "vitest";
import { Service } from "../../server/src/service";
import { cpuTime } from "../support/cpu-time";

const rows = (n: number, row: (n: number) => string): string =>
  Array.from({ length: n }, (_, i) => row(i)).join("");
const hex = (n: number, digits: number): string => n.toString(16).padStart(digits, "0");
const BOARD = "mendlog-board: 1\nid: a\ntitle: A\nsource: from memory\n";

interface Case {
  readonly board: string;
  readonly log: string;
  readonly front?: string;
  readonly device?: string;
}

/** Each of them, at this size, took seconds and grew as the square. */
const CASES: Readonly<Record<string, { readonly most: number; make(n: number): Case }>> = {
  "rails fed through regulators": {
    most: 200,
    make: (n) => ({
      board: `${BOARD}rails:\n${rows(n, (i) => `  R${i}: { nominal: 5 V, tolerance: 5 %, net: V${i} }\n`)}parts:\n${rows(n - 1, (i) => `  U${i + 1}: { device: "7805" }\n`)}nets:\n${rows(n, (i) => `  V${i}: [${i > 0 ? `U${i}.3, ` : ""}${i < n - 1 ? `U${i + 1}.1` : ""}]\n`)}`,
      log: `## Supply rails, loaded\n\n| Rail | Reading |\n|---|---|\n${rows(n, (i) => `| R${i} | 0.1 |\n`)}`,
    }),
  },
  "images in a set": {
    most: 2000,
    make: (n) => ({
      front: "rom-set: s\n",
      board: `${BOARD}parts:\n${rows(n, (i) => `  U${i + 1}: { device: "2716" }\n`)}rom-sets:\n  s:\n    title: S\n    images:\n${rows(n, (i) => `      - { ref: U${i + 1}, size: 2048, sum16: "${hex(i, 4)}" }\n`)}`,
      log: `## ROM check\n\n| Ref | Sum | Result |\n|---|---|---|\n${rows(n, (i) => `| U${i + 1} | ${hex(i ^ 1, 4)} | ok |\n`)}`,
    }),
  },
  "rows of a memory test": {
    most: 2000,
    make: (n) => ({
      board: `${BOARD}parts:\n  U7: { device: "2114" }\n  U8: { device: "2114" }\nmemory:\n  - { ref: U7, data: [0, 1, 2, 3] }\n  - { ref: U8, data: [4, 5, 6, 7] }\n`,
      log: `## Memory test\n\n| Address | Wrote | Read | Result |\n|---|---|---|---|\n${rows(n, (i) => `| ${hex(i % 1024, 4)} | AA | ${hex(i % 256, 2)} | bad |\n`)}`,
    }),
  },
  "rows of a truth table": {
    most: 1024,
    make: (n) => {
      const inputs = Array.from({ length: Math.log2(n) }, (_, i) => `"${i + 1}"`);
      return {
        board: `${BOARD}parts:\n  U1: { device: big }\n`,
        log: "## Logic levels\n\n| Ref | Pin | Reading |\n|---|---|---|\n| U1 | 1 | 3.5 |\n| U1 | 13 | 1.5 |\n",
        device: `mendlog-device: 1\nid: big\ntitle: Big\nkind: logic\nfamilies: [TTL]\npackage: { name: DIP-24, pins: 24 }\npins:\n${rows(10, (i) => `  ${i + 1}: { name: A${i}, direction: input }\n`)}  12: { name: GND, direction: ground }\n  13: { name: Y, direction: output }\n  24: { name: VCC, direction: supply }\ntruth-tables:\n  - name: t\n    inputs: [${inputs}]\n    outputs: ["13"]\n    rows:\n${rows(n, (i) => `      - "${[...i.toString(2).padStart(inputs.length, "0")].join(" ")} | ${i % 2}"\n`)}source: from memory\n`,
      };
    },
  },
};

async function costOf({ board, log, front = "", device }: Case): Promise<number> {
  const texts = new Map([["mem:/ws/a.board.yaml", board]]);
  if (device !== undefined) texts.set("mem:/ws/big.device.yaml", device);
  const service = new Service({
    read: async (uri) => texts.get(uri),
    list: async () => [...texts.keys()],
    readBytes: async () => ({ ok: false, reason: "absent" }),
  });
  await service.load();
  return cpuTime(() => {
    for (const uri of texts.keys()) service.findings(uri);
    service.open("mem:/ws/log.md", `---\nmendlog: 1\nboard: a\n${front}---\n\n${log}`);
    expect(service.findings("mem:/ws/log.md").length).toBeGreaterThan(0);
  });
}

test.each(Object.entries(CASES))("%s", async (_, { most, make }) => {
  const cost = async (n: number) => Math.min(await costOf(make(n)), await costOf(make(n)));
  await costOf(make(most / 4));
  const more = await cost(most);
  expect(more).toBeLessThan(4000);
  // Four times as much: as a square it would be sixteen times; 5 to 8 where nothing else works, more where caches are shared.
  expect(more / Math.max(60, await cost(most / 4))).toBeLessThan(3.2 ** 2);
});

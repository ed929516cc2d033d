import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { type AddressFault, addressFaults, aliases } from "../../../server/src/compute/memory/address-lines";
import { addressPattern } from "../../../server/src/compute/memory/address-pattern";
import { inWords } from "../../../server/src/text/saying";
import { words } from "../../support/words";
import { accepted, reasonOf } from "../matrix/support";

/** A memory with the fault, written in order and then read: what a board's own test would record. */
function pass(fault: AddressFault | undefined, size: number, datum: (address: number) => number) {
  const place = (address: number): number => {
    if (fault === undefined) return address;
    if (fault.kind === "stuck") return address | (1 << fault.line);
    const [a, b] = fault.lines;
    const bits = [(address >> a) & 1, (address >> b) & 1];
    const level = fault.wins === "low" ? Math.min(...bits) : Math.max(...bits);
    const cleared = address & ~((1 << a) | (1 << b));
    return cleared | (level << a) | (level << b);
  };
  const cells = new Map<number, number>();
  for (let address = 0; address < size; address += 1) cells.set(place(address), datum(address));
  return Array.from({ length: size }, (_, address) => ({
    address,
    wrote: datum(address),
    read: cells.get(place(address))!,
  }));
}

const stuck = (line: number): AddressFault => ({ kind: "stuck", line });
const shorted = (a: number, b: number, wins: "low" | "high"): AddressFault => ({
  kind: "shorted",
  lines: [a, b],
  wins,
});
const own = (address: number): number => (address * 37 + 11) & 0xff;

describe("a whole pass, every place recorded", () => {
  test.each([stuck(0), stuck(5), shorted(1, 4, "low"), shorted(0, 6, "high")])(
    "%j is found, alone",
    (fault) => {
      const { suspects, failing } = accepted(addressFaults({ lines: 7, words: pass(fault, 128, own) }));
      expect(suspects.map((suspect) => suspect.fault)).toEqual([fault]);
      expect(suspects[0]?.explains).toBe(failing);
      expect(failing).toBeGreaterThan(0);
    },
  );

  test("any single fault of 6 lines is found, whatever distinct data are written", () => {
    const fault = fc.oneof(
      fc.integer({ min: 0, max: 5 }).map(stuck),
      fc
        .tuple(fc.integer({ min: 0, max: 4 }), fc.integer({ min: 1, max: 5 }), fc.constantFrom("low", "high"))
        .filter(([a, b]) => a < b)
        .map(([a, b, wins]) => shorted(a, b, wins as "low" | "high")),
    );
    fc.assert(
      fc.property(fault, fc.integer({ min: 0, max: 127 }), (bad, step) => {
        const words = pass(bad, 64, (address) => (address * (2 * step + 1)) & 0xff);
        const { suspects } = accepted(addressFaults({ lines: 6, words }));
        expect(suspects.map((suspect) => suspect.fault)).toEqual([bad]);
      }),
      { numRuns: 60 },
    );
  });

  test("the failing half alone, with the pattern that was written", () => {
    const words = pass(stuck(3), 256, own).filter(({ wrote, read }) => wrote !== read);
    const { suspects, says } = accepted(
      addressFaults({ lines: 8, words, pattern: { from: 0, to: 255, at: own } }),
    );
    const sentence = inWords(says);
    expect(suspects.map(({ fault }) => fault)).toEqual([stuck(3)]);
    expect(sentence).toBe(
      "0000 reads what was written to 0008. A3 stuck or open would explain 128 failing places. Probe the line at the memory, at its buffer and along the track.",
    );
  });
});

describe("what does not fit", () => {
  test("a stuck data bit is no address line", () => {
    const words = pass(undefined, 64, own).map((word) => ({ ...word, read: word.read | 0x10 }));
    const { suspects, failing, says } = accepted(addressFaults({ lines: 6, words }));
    const sentence = inWords(says);
    expect(suspects).toEqual([]);
    expect(failing).toBeGreaterThan(0);
    expect(sentence).toMatch(/^No single stuck or shorted address line fits/);
  });

  test("a whole pass without a failure accuses nothing and proves nothing", () => {
    const { suspects, says } = accepted(addressFaults({ lines: 6, words: pass(undefined, 64, own) }));
    const sentence = inWords(says);
    expect(suspects).toEqual([]);
    expect(sentence).toBe("Every place reads back as written. That does not prove the address lines.");
  });

  test("a pair that agrees on what neither was given contradicts the line", () => {
    const words = [
      { address: 0, wrote: 0x11, read: 0x22 },
      { address: 1, wrote: 0x22, read: 0x22 },
      { address: 2, wrote: 0x33, read: 0x77 },
      { address: 3, wrote: 0x44, read: 0x77 },
    ];
    expect(accepted(addressFaults({ lines: 1, words: words.slice(0, 2) })).suspects).toHaveLength(1);
    expect(accepted(addressFaults({ lines: 1, words })).suspects).toEqual([]);
  });

  test("failing places alone leave their partners open, and nothing is claimed", () => {
    const words = pass(stuck(3), 64, own).filter(({ wrote, read }) => wrote !== read);
    expect(accepted(addressFaults({ lines: 6, words })).suspects).toEqual([]);
  });

  test("one recorded pair leaves several faults, told apart by more places", () => {
    const pair = [
      { address: 0, wrote: 0x11, read: 0x22 },
      { address: 4, wrote: 0x22, read: 0x22 },
    ];
    const { suspects, says } = accepted(addressFaults({ lines: 4, words: pair }));
    const sentence = inWords(says);
    expect(suspects[0]?.fault).toEqual(stuck(2));
    expect(suspects.length).toBeGreaterThan(1);
    expect(sentence).toContain("A2 stuck or open would explain 1 failing place");
  });
});

test.each([
  ["a line that is stuck", stuck(2)],
  ["two lines shorted, the low one wins", shorted(0, 3, "low")],
  ["two lines shorted, the high one wins", shorted(1, 2, "high")],
])("%s sorts addresses into groups: every member names the same group", (_what, fault) => {
  for (let address = 0; address < 16; address += 1) {
    const group = [...aliases(fault, address)].sort();
    expect(group).toContain(address);
    for (const other of group) expect([...aliases(fault, other)].sort()).toEqual(group);
  }
});

test("a dump of 64 K places is taken whole", () => {
  const datum = (address: number): number => (address * 37 + (address >> 8)) & 0xff;
  const words = pass(stuck(5), 0x1_0000, datum);
  expect(accepted(addressFaults({ lines: 16, words })).suspects.map(({ fault }) => fault)).toEqual([
    stuck(5),
  ]);
});

describe("refuses", () => {
  const word = { address: 1, wrote: 2, read: 3 };
  test.each([
    ["no lines", { lines: 0, words: [] }, "0 address lines cannot be tested: 1 to 16 can."],
    ["too many", { lines: 17, words: [] }, "17 address lines"],
    ["one address twice", { lines: 4, words: [word, word] }, "Address 0001 is recorded twice"],
    ["half an address", { lines: 4, words: [{ ...word, address: 0.5 }] }, "0.5 is not an address"],
    ["no range", { lines: 4, words: [], pattern: { from: 4, to: 1, at: own } }, "which is no range"],
    [
      "a datum the pattern does not write",
      { lines: 4, words: [word], pattern: { from: 0, to: 3, at: () => 0x55 } },
      "02 at 0001 is not what the pattern writes there, 55.",
    ],
  ])("%s", (_, input, reason) => {
    expect(reasonOf(addressFaults(input))).toContain(reason);
  });
});

describe("what failing addresses have in common", () => {
  const range = { from: 0, to: 0x3ff };
  const list = (n: number, at: (i: number) => number) => Array.from({ length: n }, (_, i) => at(i));

  test("a line that all addresses agree on is told", () => {
    const { common, says } = accepted(
      addressPattern(
        list(64, (i) => (i * 7) | 0x200),
        range,
      ),
    );
    const sentence = inWords(says);
    expect(common).toEqual([{ line: 9, level: "high" }]);
    expect(sentence).toContain("All 64 failing addresses have A9 high");
  });

  test("lines the test never moved are left out", () => {
    expect(
      accepted(
        addressPattern(
          list(32, (i) => 0x400 + i),
          { from: 0x400, to: 0x41f },
        ),
      ).common,
    ).toEqual([]);
  });

  test("too few to tell, and repeats count once", () => {
    expect(words(accepted(addressPattern([1, 1, 1, 1, 1, 1, 1, 1], range)))).toContain(
      "1 failing addresses are too few",
    );
  });

  test("an address outside the test is refused", () => {
    expect(reasonOf(addressPattern([0x400], range))).toBe("Address 1024 is outside the test, 0 to 1023.");
  });
});

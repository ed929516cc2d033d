import { expect, test } from "vitest";
import { loadDevice } from "../../server/src/knowledge/load-device";
import { loadFamily } from "../../server/src/knowledge/load-family";
import { loadFrontMatter } from "../../server/src/knowledge/load-front-matter";
import { loadProcedure } from "../../server/src/knowledge/load-procedure";
import { loadShop } from "../../server/src/knowledge/load-shop";
import { applySuggestion, checkProblems } from "./problems";

const front = (yaml: string) => loadFrontMatter(yaml);

test("front matter: what is given is kept, what is empty counts as not given", () => {
  const value = checkProblems(
    front,
    `mendlog: 1
job: 2026-014
serial: 01873
board:
returned:
symptoms: [blank-display, lane 3 never scores]
rom-set: regatta-2
comeback-of: 2025-081
x-colour: green
`,
  );
  expect(value).toEqual({
    mendlog: 1,
    job: "2026-014",
    serial: "01873",
    symptoms: ["blank-display", "lane 3 never scores"],
    romSet: "regatta-2",
    comebackOf: "2025-081",
  });
});

test("a front matter's faults are told at their places", () => {
  const value = checkProblems(
    front,
    `mendlog: 1
bord: regatta
^^^^ unknown-key: A log's front matter has no key \`bord\`. Did you mean \`board\`?
stage: diagnosed
       ^^^^^^^^^ not-in-list: \`stage\` is \`diagnosed\`, which is not in its list. Did you mean \`diagnosing\`? It can be \`received\`, \`diagnosing\`, \`waiting-for-approval\`, \`waiting-for-parts\`
received: 2026-02-30
          ^^^^^^^^^^ wrong-form: \`received\` is \`2026-02-30\`, which is not a day written as year-month-day
returned: 3.4.2026
          ^^^^^^^^ wrong-form
symptoms: blank-display
          ^^^^^^^^^^^^^ wrong-type: \`symptoms\` must be a list, but it is the text \`blank-display\`. Put it in brackets: \`[blank-display]\`.
owner: ""
       ^^ empty-text: \`owner\` is empty.
`,
  );
  expect(value).toEqual({ mendlog: 1, symptoms: [] });
});

test("front matter: the order of the dates is left to the check that knows the log's other dates", () => {
  const { problems, value } = loadFrontMatter("mendlog: 1\nreceived: 2026-03-20\nreturned: 2026-03-02\n", 4);
  expect(problems).toEqual([]);
  expect(value?.returned).toBe("2026-03-02");
});

test("front matter: the edits offered put it right", () => {
  const done = (typed: string, code: string) => applySuggestion(front, typed, code);
  expect(done("mendlog: 1\nbord: a\n", "unknown-key")).toBe("mendlog: 1\nboard: a\n");
  expect(done("mendlog: 1\nstage: diagnosng\n", "not-in-list")).toBe("mendlog: 1\nstage: diagnosing\n");
  expect(done("mendlog: 1\nsymptoms: a b\n", "wrong-type")).toBe("mendlog: 1\nsymptoms: [a b]\n");
});

const DEVICE = `mendlog-device: 1
id: 7404
title: Hex inverter
kind: logic
families: [TTL, LS]
package: { name: DIP-14, pins: 14 }
source: from memory
`;

test("a device's faults are told at their places", () => {
  const value = checkProblems(
    loadDevice,
    `${DEVICE}pins:
  1: { name: 1A, direction: in }
                            ^^ not-in-list: \`direction\` of \`1\` is \`in\`, which is not in its list. It can be \`input\`
  2: { name: 1Y, direction: output, unit: 1 }
  15: { name: X, direction: input }
  ^^ no-such-pin: Pin 15 does not exist on a DIP-14 with 14 pins.
gates:
  - { name: 1, function: NOT, inputs: [2], outputs: [3] }
                                                     ^ unknown-pin: Entry 1 of \`outputs\` of entry 1 of \`gates\` names pin \`3\`, which is not in \`pins\`.
  - { name: 1, function: NOT, inputs: [2], outputs: [2] }
            ^ duplicate-gate: Two gates are named \`1\`.
limits: { supply: [5.25 V, 4.75 V], load: [1 V] }
                   ^^^^^^ low-above-high: Limit \`supply\` runs from \`5.25 V\` to \`4.75 V\`
                                          ^^^^^ wrong-count: \`load\` has 1 entry; it must have exactly 2. Least and most, as \`[low, high]\`.
substitutes:
  - { part: 74HCT04 }
    ^^^^^^^^^^^^^^^^^ missing-key: Entry 1 of \`substitutes\` needs the key \`caution\`. What is different about it.
`,
  );
  expect(value?.id).toBe("7404");
  expect([...(value?.pins.keys() ?? [])]).toEqual(["2", "15"]);
  expect(value?.pins.get("2")).toEqual({ number: "2", name: "1Y", direction: "output", unit: "1" });
  expect([...(value?.limits ?? [])]).toEqual([["supply", ["5.25 V", "4.75 V"]]]);
  expect(value?.substitutes).toEqual([]);
});

test("a family's faults are told at their places", () => {
  const value = checkProblems(
    loadFamily,
    `mendlog-family: 1
id: LS
title: Low-power Schottky
letters: ls
         ^^ wrong-form: \`letters\` is \`ls\`. These are capital letters only, like \`LS\`.
supply: [4.75 V, 5.25 ohm]
                 ^^^^^^^^ bad-quantity
diode: { signal: [0.7 V, 0.4 V], source: from memory }
                  ^^^^^ low-above-high: The drop of a signal pin
levels: { vih: 0.8 V, vil: 2 V, voh: 2.7 V, vol: 0.5 V, source: from memory }
                           ^^^ low-above-high
source: from memory
`,
  );
  expect(value).toMatchObject({ id: "LS", diode: { signal: ["0.7 V", "0.4 V"] } });
  expect(value?.supply).toBeUndefined();
});

test("a procedure's faults are told at their places", () => {
  const value = checkProblems(
    loadProcedure,
    `mendlog-procedure: 1
id: diode-check
title: Diode check
powered: never
         ^^^^^ not-in-list: \`powered\` is \`never\`, which is not in its list. It can be \`unpowered\`, \`powered\` or \`either\`.
columns:
  - { role: ref, headers: [Ref, Chip], required: true }
  - { role: reading, measure: drop, headers: [Reading, ref] }
                                                       ^^^ duplicate-header: Header \`ref\` is that of two columns (the first has role \`ref\`)
  - { role: reading, measure: drop, headers: [Drop] }
                              ^^^^ duplicate-measure
  - { role: reading, headers: [Value] }
            ^^^^^^^ no-measure
  - { role: chip, headers: [X] }
            ^^^^ not-in-list
wide: { rows: pin, columns: ref, cells: drp }
              ^^^ unknown-role: The wide form's \`rows\` hold \`pin\`, but no column has that role.
                                        ^^^ unknown-measure: The wide form's cells hold \`drp\`
purpose: p
source: from memory
`,
  );
  expect(value?.powered).toBe("either");
  expect(value?.columns.map((c) => c.role)).toEqual(["ref", "reading", "reading", "reading"]);
});

test("a shop's faults are told at their places", () => {
  const value = checkProblems(
    loadShop,
    `mendlog-shop: 1
name: Harbour Bench
labour: { rate: 48, per: hour }
                ^^ no-currency: There are prices but no \`currency\`. Add one at the top, like \`currency: EUR\`.
meters:
  bench:
    title: Bench meter
    ranges:
      - { function: volts, range: 20 V }
                    ^^^^^ not-in-list: which is not in its list. It can be \`dc-volts\`
      - { function: diode, range: 2 V, accuracy: { reading: 1 V, counts: 2 } }
                                                            ^^^ bad-quantity: \`1 V\` is a voltage, but a percentage is wanted here
stock:
  - { part: 74LS04, quantity: 6, price: 0.65 }
  - { part: 74ls04, quantity: -1 }
            ^^^^^^ duplicate-stock: \`74ls04\` is twice in \`stock\`, so its quantity is in doubt.
                              ^^ out-of-range: \`quantity\` of entry 2 of \`stock\` is -1; it must be at least 0.
`,
  );
  expect(value?.labour).toEqual({ rate: "48", per: "hour", actions: new Map() });
  expect(value?.stock).toEqual([{ part: "74LS04", quantity: 6, index: 0, price: "0.65" }]);
  expect(value?.meters.get("bench")?.ranges).toEqual([{ function: "diode", range: "2 V" }]);
});

test("shop: a price with a decimal comma or a sign", () => {
  checkProblems(
    loadShop,
    `mendlog-shop: 1
name: Harbour Bench
currency: EUR
stock:
  - part: 2114
    quantity: 3
    price: 0,65
           ^^^^ wrong-form: \`price\` of entry 1 of \`stock\` is \`0,65\`. An amount is digits with a decimal point
  - part: 2716
    quantity: 3
    price: -1
           ^^ wrong-form
`,
  );
});

test("shop: a quote, the hours of each kind of work, and what is wrong with them", () => {
  const value = checkProblems(
    loadShop,
    `mendlog-shop: 1
name: Harbour Bench
currency: EUX
          ^^^ unknown-currency: \`EUX\` is no currency of ISO 4217
labour: { rate: "48.00", per: hour, actions: { replace: "0.25", replaec: "1", socket: 6 min } }
                                                                ^^^^^^^ unknown-key: Did you mean \`replace\`?
                                                                                      ^^^^^ wrong-form
quote: { show: perhaps, rounding: half-even, tax: { title: VAT, rate: 0.2 } }
               ^^^^^^^ not-in-list
                                                                      ^^^ wrong-form: A tax rate is a percentage
`,
  );
  expect([...(value?.labour?.actions ?? [])]).toEqual([["replace", "0.25"]]);
  expect(value?.quote).toEqual({ show: false, rounding: "half-even", round: "line" });
});

test("shop: a quote is shown only where the file says yes", () => {
  const shows = (text: string) =>
    loadShop(`mendlog-shop: 1\nname: a\ncurrency: EUR\n${text}`).value?.quote?.show;
  expect([shows(""), shows("quote: { show: no }"), shows("quote: { show: yes }")]).toEqual([
    undefined,
    false,
    true,
  ]);
});

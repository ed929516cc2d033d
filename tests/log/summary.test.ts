import { describe, expect, it } from "vitest";
import { builtinLibrary } from "../../server/src/knowledge/library";
import { LogReader } from "../../server/src/log/document";
import { type LogSummary, summarise } from "../../server/src/log/summary";
import { namesReplacing } from "../../server/src/log/timeline/words";
import { applyEdits } from "../../server/src/text/edits";
import { demoLogs } from "../support/demo";

const URI = "mem:/log.md";
const summaryOf = (text: string): LogSummary => summarise(new LogReader(URI).read(text, builtinLibrary()));

const LOG = `---
mendlog: 1
job: 2026-031
board: regatta-driver
revision: B
serial: "00477"
owner: A. Owner
received: 2026-01-05
returned: 2026-02-01
stage: returned
symptoms: [coil-stuck, hums]
comeback-of: 2025-087
meter: bench
---

# Row 6 always lit

## Diode check before repair

| Ref         | Pin | Reading |
|-------------|-----|---------|
| U1 (74LS04) | 3   | 1.42    |
|             | 4   | OL      |
| U1          | 5   | 580 mV  |
| U1          | 6   | ~0.6    |
| U1          | 7   | short   |
| U1          | 8   | O.58    |
| U1          | 9   | 12 ohm  |
| U1          | 10  |         |

## Work done

| Ref | Action   | Part   |
|-----|----------|--------|
| U1  | replaced | 74LS04 |
| J2  | reflowed |        |

## Parts fitted

| Part          | Ref |
|---------------|-----|
| DIP-14 socket | U1  |

## Supply rails, loaded

| Rail | Reading     | Ripple |
|------|-------------|--------|
| +5V  | 5.02-5.04   | <20 mV |
| -12V | -12.1       |        |

## Proving

| Item | Result       |
|------|--------------|
| Lamps | ok          |
| Coils | intermittent |
| Soak  |              |
`;

describe("the summary of a log", () => {
  const summary = summaryOf(LOG);

  it("holds the front matter, the work and the proving", () => {
    expect(summary).toMatchObject({
      uri: URI,
      title: "Row 6 always lit",
      job: "2026-031",
      board: "regatta-driver",
      revision: "B",
      serial: "00477",
      owner: "A. Owner",
      received: "2026-01-05",
      returned: "2026-02-01",
      stage: "returned",
      symptoms: ["coil-stuck", "hums"],
      comebackOf: "2025-087",
      meter: "bench",
      work: [
        { ref: "U1", action: "replaced", part: "74LS04", replaced: true },
        { ref: "J2", action: "reflowed", replaced: false },
      ],
      fitted: [{ ref: "U1", part: "DIP-14 socket" }],
      proving: [
        { item: "Lamps", result: "ok", ok: true },
        { item: "Coils", result: "intermittent" },
      ],
    });
    expect(summary.proving[1]).not.toHaveProperty("ok");
  });

  it("holds every quantity read at its place, in SI base units with the digit typed", () => {
    const [diode, rails] = summary.tables;
    expect(summary.tables).toHaveLength(2);
    expect(diode).toEqual({
      procedure: "diode-check",
      repair: "before",
      behindWork: false,
      readings: [
        {
          ref: "U1",
          pin: "3",
          measure: "drop",
          kind: "value",
          low: 1.42,
          high: 1.42,
          resolution: 0.01,
          unit: "V",
        },
        { ref: "U1", pin: "4", measure: "drop", kind: "open", resolution: 0, unit: "" },
        {
          ref: "U1",
          pin: "5",
          measure: "drop",
          kind: "value",
          low: 0.58,
          high: 0.58,
          resolution: 0.001,
          unit: "V",
        },
        {
          ref: "U1",
          pin: "6",
          measure: "drop",
          kind: "about",
          low: 0.6,
          high: 0.6,
          resolution: 0.1,
          unit: "V",
        },
        { ref: "U1", pin: "7", measure: "drop", kind: "short", low: 0, high: 0, resolution: 0, unit: "" },
      ],
    });
    expect(rails).toMatchObject({ procedure: "supply-rails", load: "loaded", behindWork: true });
    expect(rails?.readings).toEqual([
      { rail: "+5V", measure: "dc", kind: "range", low: 5.02, high: 5.04, resolution: 0.01, unit: "V" },
      { rail: "+5V", measure: "ripple", kind: "under", high: 0.02, resolution: 0.001, unit: "V" },
      { rail: "-12V", measure: "dc", kind: "value", low: -12.1, high: -12.1, resolution: 0.1, unit: "V" },
    ]);
  });

  it.each([
    ["the log above", LOG],
    ...demoLogs,
    ["nothing", ""],
    ["a broken log", "---\nmendlog: 1\nboard: [\n---\n| a |\n"],
  ] as const)("is plain data that survives being written down: of %s", (_name, text) => {
    const made = summaryOf(text);
    expect(JSON.parse(JSON.stringify(made))).toEqual(made);
  });

  it("is the same after an edit as from scratch", () => {
    const reader = new LogReader(URI);
    let text = LOG;
    for (const [find, put] of [
      ["1.42", "0.59"],
      ["replaced", "cleaned"],
      ["Row 6", "Row 7"],
      ["## Work done", "## Notes"],
      ["board: regatta-driver", "board: other"],
    ] as const) {
      summarise(reader.read(text, builtinLibrary()));
      const at = text.indexOf(find);
      text = applyEdits(text, [{ span: { start: at, end: at + find.length }, newText: put }]);
      expect(summarise(reader.read(text, builtinLibrary()))).toEqual(summaryOf(text));
    }
  });
});

it.each([
  "replaced",
  "re-placed",
  "Renewed",
  "swapped for new",
  "exchange",
  "changed",
  "fitted new",
  "new part",
])("%s leaves another part in the place", (action) => expect(namesReplacing(action)).toBe(true));
it.each(["cleaned", "reflowed", "socketed", "removed", "placed", "jumper", ""])("%s does not", (action) =>
  expect(namesReplacing(action)).toBe(false),
);

describe("what the shop's numbers go by", () => {
  it("adds hours up as decimals, and has none where none are noted", () => {
    const noted = "## Hours\n\n- 2026-01-06: 0.1 h looked\n- 2026-01-07: 0.2 h read\n- 2026-01-08: later\n";
    expect(summaryOf(`${LOG}\n${noted}`).hours).toBe(0.3);
    expect(summaryOf(LOG)).not.toHaveProperty("hours");
  });

  it("names every place of a row of work", () => {
    const work =
      "## Work done\n\n| Ref | Action |\n|---|---|\n| U3, u4 | replaced |\n| C10-C12 | replaced |\n";
    expect(summaryOf(`---\nmendlog: 1\n---\n\n${work}`).work).toEqual([
      { ref: "U3", also: ["U4"], action: "replaced", replaced: true },
      { ref: "C10", also: ["C11", "C12"], action: "replaced", replaced: true },
    ]);
  });
});

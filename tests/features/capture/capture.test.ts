import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { capturedText, type Question, questionAt, verdictAt } from "../../../server/src/features/capture";
import { parseCell } from "../../../server/src/quantity/parse-cell";
import { openAt } from "../../support/workspace";

const FRONT = "---\nmendlog: 1\njob: J1\nboard: example\nreceived: 2026-01-01\nstage: diagnosing\n---\n\n";

const ask = async (log: string) => {
  const { view, offset } = await openAt(FRONT + log);
  return questionAt(view, offset);
};
const asked = async (log: string) => {
  const answer = await ask(log);
  if (!answer.ok) throw new Error(answer.reason);
  return answer.question;
};

describe("what a meter is asked", () => {
  test.each([
    [
      "a drop in a long table",
      "# Diode check\n\n| Ref | Pin | Reading |\n|-|-|-|\n| U14 | 3 | $0 |\n",
      "DIODe",
      "V",
    ],
    ["a drop in a wide table", "# Diode check\n\n| Pin | U14 | U15 |\n|-|-|-|\n| 3 | | $0 |\n", "DIODe", "V"],
    [
      "a rail's voltage",
      "# Supply rails, loaded\n\n| Rail | DC | Ripple |\n|-|-|-|\n| +5V | $0 | |\n",
      "VOLTage:DC",
      "V",
    ],
    [
      "a rail's ripple, in millivolts",
      "# Supply rails, loaded\n\n| Rail | DC | Ripple (mV) |\n|-|-|-|\n| +5V | | $0 |\n",
      "VOLTage:AC",
      "mV",
    ],
    [
      "a resistance to ground",
      "# Resistance to ground\n\n| Ref | Pin | Reading |\n|-|-|-|\n| U14 | 3 | $0 |\n",
      "RESistance",
      "ohm",
    ],
    ["a coil's diode", "# Coil resistance\n\n| Ref | Diode |\n|-|-|\n| L1 | $0 |\n", "DIODe", "V"],
    ["a frequency", "# Frequency\n\n| Ref | Pin | Reading |\n|-|-|-|\n| U14 | 3 | $0 |\n", "FREQuency", "Hz"],
    [
      "a capacitance",
      "# Capacitance and ESR\n\n| Ref | Capacitance | ESR |\n|-|-|-|\n| C1 | $0 | |\n",
      "CAPacitance",
      "µF",
    ],
  ])("%s", async (_what, log, node, unit) => {
    expect(await asked(log)).toMatchObject({ node, unit });
  });

  test.each([
    ["in prose", "Some $0prose.\n", /cursor into a cell/],
    [
      "at a designator",
      "# Diode check\n\n| Ref | Pin | Reading |\n|-|-|-|\n| U1$04 | 3 | |\n",
      /column of readings/,
    ],
    [
      "at a note",
      "# Diode check\n\n| Ref | Pin | Reading | Note |\n|-|-|-|-|\n| U14 | 3 | | $0 |\n",
      /column of readings/,
    ],
    [
      "for a current, which would short the rail",
      "# Supply rails, loaded\n\n| Rail | Current |\n|-|-|\n| +5V | $0 |\n",
      /short/,
    ],
    ["for an ESR", "# Capacitance and ESR\n\n| Ref | ESR |\n|-|-|\n| C1 | $0 |\n", /ESR meter/],
    [
      "for an amplitude",
      "# Frequency\n\n| Ref | Pin | Reading | Amplitude |\n|-|-|-|-|\n| U14 | 3 | | $0 |\n",
      /oscilloscope/,
    ],
  ])("is not asked %s", async (_where, log, says) => {
    const answer = await ask(log);
    expect(answer.ok).toBe(false);
    if (!answer.ok) expect(answer.reason).toMatch(says);
  });
});

const VOLTS: Question = { words: "", node: "VOLTage:DC", unit: "V", unitInHeader: false };
const OHMS: Question = { words: "", node: "RESistance", unit: "ohm", unitInHeader: false };

describe("the number as it is written", () => {
  test.each([
    ["+5.80120000E-01", VOLTS, "0.5801 V"],
    ["+0.58", VOLTS, "0.58 V"],
    ["-1.21034E+01", VOLTS, "-12.10 V"],
    ["-3.0E-06", VOLTS, "0.0000 V"],
    ["+9.9E+37", VOLTS, "OL"],
    ["4.68123E+03", OHMS, "4681 Ω"],
    ["4.68123E+04", OHMS, "46.81 kΩ"],
    ["6.2E-02", OHMS, "0.06 Ω"],
    ["4.68123E+04", { ...OHMS, unit: "kΩ", unitInHeader: true }, "46.81"],
    ["1.234567E-02", { ...VOLTS, unit: "mV", unitInHeader: true, qualifier: "rms" }, "12.3 mV rms"],
    ["1.0E-10", { ...OHMS, node: "CAPacitance", unit: "µF" }, "0.10 nF"],
    ["2.2041E-05", { ...OHMS, node: "CAPacitance", unit: "µF" }, "22.04 µF"],
  ])("%s", (answer, question, text) => {
    expect(capturedText(answer, question)).toEqual({ ok: true, text });
  });

  test("what cannot be used is refused with a reason", () => {
    expect(capturedText("9.91E37", VOLTS)).toMatchObject({ ok: false });
    expect(capturedText("0.1", { ...VOLTS, unit: "furlongs" })).toMatchObject({
      ok: false,
      reason: /furlongs/,
    });
  });

  test("read again, it is the value sent, to the digits written", () => {
    const sizes = fc.double({ min: 1e-3, max: 9e8, noNaN: true });
    fc.assert(
      fc.property(sizes, fc.boolean(), fc.integer({ min: 3, max: 7 }), (size, ohms, digits) => {
        const question = ohms ? OHMS : VOLTS;
        const written = capturedText(size.toExponential(9), question, digits);
        if (!written.ok) throw new Error(written.reason);
        const value = parseCell(written.text, { kind: "quantity", unit: question.unit });
        if (value.kind !== "quantity") throw new Error(`${written.text} is no quantity`);
        const step = Math.max(ohms ? 1e-2 : 1e-4, 10 ** (Math.floor(Math.log10(size)) - digits + 1));
        expect(Math.abs(value.quantity.value - size)).toBeLessThanOrEqual(step * 0.5001);
      }),
    );
  });
});

test("a verdict comes with its shape, its words and its reason", async () => {
  const { view, offset } = await openAt(
    `${FRONT}# Diode check\n\n| Ref | Pin | Reading |\n|-|-|-|\n| U14 | 3 | 1.$042 V |\n`,
  );
  expect(verdictAt(view, offset)).toMatchObject({
    verdict: "out-of-limits",
    mark: "▲",
    words: "Out of limits",
    sentence: expect.stringContaining("1.42 V"),
  });
});

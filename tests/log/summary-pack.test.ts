import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { LogSummary, SummaryReading } from "../../server/src/log/summary";
import { packSummary, unpackSummary } from "../../server/src/log/summary-pack";
import { demoLogs, openDemo } from "../support/demo";

const text = fc.constantFrom("U14", "3", "diode", "V", "", "Ω", 'a "quoted"', "null");
const maybe = <T>(of: fc.Arbitrary<T>) => fc.option(of, { nil: undefined });
const number = fc.oneof(
  fc.constantFrom(0, 0.58, 1e-9, -2),
  fc.double({ noNaN: true, noDefaultInfinity: true }).filter((n) => !Object.is(n, -0)),
);
/** Without fields that are undefined, as summaries are made. */
const without = <T extends object>(of: T): T =>
  Object.fromEntries(Object.entries(of).filter(([, value]) => value !== undefined)) as T;
const reading = fc
  .record({
    ref: maybe(text),
    pin: maybe(text),
    rail: maybe(text),
    signal: maybe(text),
    measure: text,
    apart: maybe(fc.constant(true as const)),
    kind: fc.constantFrom("value", "about", "range", "over", "under", "open", "short"),
    low: maybe(number),
    high: maybe(number),
    resolution: number,
    unit: text,
  })
  .map((all) => without(all) as SummaryReading);
const summary = fc
  .record({
    uri: text,
    job: maybe(text),
    board: maybe(text),
    symptoms: fc.array(text, { maxLength: 2 }),
    work: fc.constant([{ ref: "U1", action: "replaced", replaced: true }]),
    fitted: fc.constant([]),
    tables: fc.array(
      fc.record({ procedure: text, behindWork: fc.boolean(), readings: fc.array(reading, { maxLength: 8 }) }),
      { maxLength: 3 },
    ),
    proving: fc.constant([{ item: "soak", result: "pass", ok: true }]),
    stated: fc.constant([]),
  })
  .map((all) => without(all) as LogSummary);

describe("a summary that was packed", () => {
  it("is the same again, its fields in the same order", () => {
    fc.assert(
      fc.property(summary, (one) => {
        const again = unpackSummary(packSummary(one));
        expect(JSON.stringify(again)).toBe(JSON.stringify(one));
        expect({ ...again }).toEqual(one);
      }),
    );
  });

  it("is the same for every log of the demo, and takes a part of the memory of its plain form", async () => {
    const service = await openDemo();
    for await (const _ of service.index()) {
      // To its end.
    }
    expect(demoLogs.length).toBeGreaterThan(3);
    for (const [uri, log] of demoLogs) {
      const remembered = service.memory().logs.get(uri);
      expect(remembered).toBeDefined();
      const { head, rest } = packSummary(remembered!);
      expect(JSON.stringify(unpackSummary({ head, rest }))).toBe(JSON.stringify(remembered));
      expect(head.length + rest.length).toBeLessThan(Math.max(8000, 2 * log.length));
    }
  });

  it("cannot be made of anything else", () => {
    expect(() => unpackSummary({ head: "{", rest: "{}" })).toThrow(SyntaxError);
  });
});

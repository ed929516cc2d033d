// Every amount is held against decimal.js, which shares nothing with our own arithmetic.
import Decimal from "decimal.js";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { minorDigits } from "../../../server/src/compute/money/currency";
import {
  add,
  decimalText,
  parseDecimal,
  type Rounding,
  round,
  sum,
  times,
} from "../../../server/src/compute/money/decimal";
import type { Shop } from "../../../server/src/knowledge/types";
import { ACTIONS, type Action } from "../../../server/src/log/timeline/actions";
import { quoteOf } from "../../../server/src/review/money/quote";

Decimal.set({ precision: 200 });

const MODES: Readonly<Record<Rounding, Decimal.Rounding>> = {
  "half-away-from-zero": Decimal.ROUND_HALF_UP,
  "half-even": Decimal.ROUND_HALF_EVEN,
};

const unsigned = fc
  .tuple(fc.bigInt(0n, 10n ** 12n), fc.integer({ min: 0, max: 6 }))
  .map(([digits, scale]) => decimalText({ digits, scale }));
const signed = fc.tuple(unsigned, fc.boolean()).map(([text, minus]) => (minus ? `-${text}` : text));
const rounding = fc.constantFrom<Rounding>("half-away-from-zero", "half-even");
const read = (text: string) => {
  const value = parseDecimal(text);
  if (!value) throw new Error(`${text} was not read`);
  return value;
};

describe("arithmetic", () => {
  test("sums and products are exact", () => {
    fc.assert(
      fc.property(signed, signed, (a, b) => {
        expect(new Decimal(decimalText(add(read(a), read(b)))).equals(new Decimal(a).plus(b))).toBe(true);
        expect(new Decimal(decimalText(times(read(a), read(b)))).equals(new Decimal(a).times(b))).toBe(true);
      }),
    );
  });

  test("rounding agrees in both modes, halves included", () => {
    const half = fc
      .tuple(fc.bigInt(-1000n, 1000n), fc.integer({ min: 0, max: 4 }))
      .map(([digits, places]) => ({
        text: decimalText({ digits: digits * 10n + (digits < 0n ? -5n : 5n), scale: places + 1 }),
        places,
      }));
    const any = fc.record({ text: signed, places: fc.integer({ min: 0, max: 4 }) });
    fc.assert(
      fc.property(fc.oneof(half, any), rounding, ({ text, places }, mode) => {
        const wanted = new Decimal(text).toDecimalPlaces(places, MODES[mode]);
        const got = decimalText(round(read(text), places, mode));
        expect(new Decimal(got).equals(wanted)).toBe(true);
        expect(got.split(".")[1]?.length ?? 0).toBe(places);
      }),
      { numRuns: 500 },
    );
  });

  test("the tenth that binary fractions do not have", () => {
    expect(decimalText(sum([read("0.1"), read("0.2")]))).toBe("0.3");
    expect(decimalText(round(read("1.005"), 2, "half-away-from-zero"))).toBe("1.01");
    expect(decimalText(round(read("1.005"), 2, "half-even"))).toBe("1.00");
    expect(decimalText(round(read("-0.5"), 0, "half-away-from-zero"))).toBe("-1");
    expect(decimalText(round(read("-0.004"), 2, "half-even"))).toBe("0.00");
  });

  test.each(["", "1e3", "1,5", ".5", "5.", "0x10", "--1", "1".repeat(61)])("%s is no amount", (text) => {
    expect(parseDecimal(text)).toBeUndefined();
  });
});

describe("a quote", () => {
  const parts = fc.array(
    fc.record({ part: fc.constant("a part"), quantity: fc.integer({ min: 1, max: 40 }), price: unsigned }),
    { maxLength: 12 },
  );
  const done = fc
    .array(fc.tuple(fc.constantFrom<Action>(...ACTIONS), fc.integer({ min: 0, max: 9 })), { maxLength: 6 })
    .map((pairs) => new Map(pairs));

  test("adds up as decimal.js does", () => {
    const hours = fc.constantFrom("0.25", "0.1", "1", "0.333");
    fc.assert(
      fc.property(
        parts,
        done,
        unsigned,
        hours,
        fc.constantFrom("20", "19", "8.875", "0"),
        rounding,
        fc.constantFrom("line" as const, "total" as const),
        fc.constantFrom("EUR", "JPY", "KWD"),
        (bought, actions, rate, each, tax, mode, where, currency) => {
          const shop: Shop = {
            name: "test",
            currency,
            labour: { rate, per: "hour", actions: new Map(ACTIONS.map((action) => [action, each])) },
            quote: { show: true, rounding: mode, round: where, tax: { title: "tax", rate: `${tax} %` } },
            meters: new Map(),
            stock: [],
            report: new Map(),
          };
          const quote = quoteOf({ shop, actions, parts: bought });
          const places = { EUR: 2, JPY: 0, KWD: 3 }[currency] ?? 2;
          const rounded = (value: Decimal) => value.toDecimalPlaces(places, MODES[mode]);
          const exact = [
            ...[...actions.values()].map((count) => new Decimal(each).times(count).times(rate)),
            ...bought.map(({ quantity, price }) => new Decimal(price).times(quantity)),
          ];
          const lines = where === "line" ? exact.map(rounded) : exact;
          const all = lines.reduce((a, b) => a.plus(b), new Decimal(0));
          const net = rounded(all);
          const taxed = rounded((where === "line" ? net : all).times(tax).dividedBy(100));
          expect(quote && decimalText(quote.net)).toBe(net.toFixed(places));
          expect(quote?.tax && decimalText(quote.tax.amount)).toBe(taxed.toFixed(places));
          expect(quote && decimalText(quote.total)).toBe(net.plus(taxed).toFixed(places));
        },
      ),
      { numRuns: 300 },
    );
  });
});

/** Where CLDR, the source of the engine's table, has 0 digits because small coins are not used in cash. */
const CASH_HABIT = "AFN ALL COP HUF IDR IQD IRR KPW LAK LBP MGA MMK PKR SLL SOS SYP YER".split(" ");

// Where the two differ our figure is that of ISO 4217 (from memory); everything else has to agree.
test("minor units agree with the engine's, cash habits apart", () => {
  const codes = Intl.supportedValuesOf("currency");
  expect(codes.length).toBeGreaterThan(150);
  const differ = codes.filter((code) => {
    const engine = new Intl.NumberFormat("en", { style: "currency", currency: code }).resolvedOptions();
    return engine.maximumFractionDigits !== minorDigits(code);
  });
  expect(differ.filter((code) => !CASH_HABIT.includes(code))).toEqual([]);
  expect(minorDigits("JPY")).toBe(0);
  expect(minorDigits("KWD")).toBe(3);
});

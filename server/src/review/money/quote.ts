// What a job costs: labour by action, parts, tax. Amounts are exact until they are rounded, and where that happens is
// the shop's choice: each line, or only the sums.

import { defined } from "../../base/defined";
import { minorDigits } from "../../compute/money/currency";
import {
  add,
  type Decimal,
  hundredth,
  parseDecimal,
  round,
  sum,
  times,
  whole,
  ZERO,
} from "../../compute/money/decimal";
import type { QuoteRules, Shop } from "../../knowledge/types";
import { ACTION_WORDS, type Action } from "../../log/timeline/actions";

export interface QuoteLine {
  readonly kind: "labour" | "part";
  readonly what: string;
  /** Hours, pieces or jobs. */
  readonly quantity: Decimal;
  readonly price: Decimal;
  readonly total: Decimal;
}

/** The sums of a job, in the shop's currency. Without a tax rate `tax` is absent and the total is the net. */
export interface Quote {
  readonly currency: string;
  readonly lines: readonly QuoteLine[];
  readonly net: Decimal;
  readonly tax?: { readonly title: string; readonly rate: string; readonly amount: Decimal };
  readonly total: Decimal;
  /** What could not be counted, and how it was rounded, as sentences. */
  readonly notes: readonly string[];
}

/** What is to be paid for, without prices for the labour. */
export interface QuoteInput {
  readonly shop: Shop;
  /** How often each thing was done or has to be. */
  readonly actions: ReadonlyMap<Action, number>;
  readonly parts: readonly { readonly part: string; readonly quantity: number; readonly price?: string }[];
  /** Hours as they were noted, in place of those by action. */
  readonly hours?: readonly { readonly what: string; readonly hours: Decimal }[];
}

/** Undefined where the shop file does not ask for a quote or names no currency. */
export const quoteOf = (input: QuoteInput): Quote | undefined =>
  input.shop.quote?.show ? totalOf(input) : undefined;

/** Where the shop file says nothing of it: no tax, and every line rounded. */
const PLAIN: QuoteRules = { show: false, rounding: "half-away-from-zero", round: "line" };

/** The same whether or not a quote is asked for; undefined without a currency. */
export function totalOf({ shop, actions, parts, hours }: QuoteInput): Quote | undefined {
  const { quote: rules = PLAIN, currency } = shop;
  if (currency === undefined) return undefined;
  const places = minorDigits(currency);
  const notes: string[] = [];
  const drafts = [...labourLines(shop, actions, hours, notes), ...partLines(parts, notes)];
  const lines =
    rules.round === "line"
      ? drafts.map((line) => ({ ...line, total: round(line.total, places, rules.rounding) }))
      : drafts;
  const exact = sum(lines.map(({ total }) => total));
  const net = round(exact, places, rules.rounding);
  // Tax is on what was added up, so that rounding the sums never rounds twice.
  const rate = rules.tax && parseDecimal(rules.tax.rate.replace(/\s*%$/, ""));
  if (rules.tax && !rate)
    notes.push(`The tax rate "${rules.tax.rate}" cannot be read, so no tax is counted.`);
  const amount = rate
    ? round(times(rules.round === "line" ? net : exact, hundredth(rate)), places, rules.rounding)
    : ZERO;
  notes.push(
    `Rounded to ${places === 0 ? "whole units" : `${places} digits`} of ${currency} ${rules.round === "line" ? "line by line" : "at the sums only"}, ${rules.rounding === "half-even" ? "halves to the even digit" : "halves away from zero"}.`,
  );
  return defined({
    currency,
    lines,
    net,
    tax: rules.tax && rate ? { ...rules.tax, amount } : undefined,
    total: round(add(net, amount), places, rules.rounding),
    notes,
  });
}

function labourLines(
  shop: Shop,
  actions: ReadonlyMap<Action, number>,
  hours: QuoteInput["hours"],
  notes: string[],
): QuoteLine[] {
  const { labour } = shop;
  const rate = labour && parseDecimal(labour.rate);
  if (!labour || !rate) {
    notes.push("The shop file has no labour rate, so no labour is counted.");
    return [];
  }
  if (labour.per === "job") {
    return [{ kind: "labour", what: "one job", quantity: whole(1), price: rate, total: rate }];
  }
  if (hours)
    return hours.map(({ what, hours: quantity }) => ({
      kind: "labour",
      what,
      quantity,
      price: rate,
      total: times(quantity, rate),
    }));
  return [...actions].flatMap(([action, count]): QuoteLine[] => {
    if (count === 0) return [];
    const each = parseDecimal(labour.actions.get(action) ?? "");
    const word = ACTION_WORDS[action];
    if (!each) {
      notes.push(
        `The shop file gives no hours for "${word}" under \`labour: actions\`, so ${count} of them are not counted.`,
      );
      return [];
    }
    const hours = times(each, whole(count));
    return [
      {
        kind: "labour",
        what: `${word}, ${count} x`,
        quantity: hours,
        price: rate,
        total: times(hours, rate),
      },
    ];
  });
}

function partLines(parts: QuoteInput["parts"], notes: string[]): QuoteLine[] {
  return parts.flatMap(({ part, quantity, price }): QuoteLine[] => {
    const each = price === undefined ? undefined : parseDecimal(price);
    if (!each) {
      notes.push(`There is no price for ${part}, so it is not counted.`);
      return [];
    }
    return [
      {
        kind: "part",
        what: part,
        quantity: whole(quantity),
        price: each,
        total: times(each, whole(quantity)),
      },
    ];
  });
}

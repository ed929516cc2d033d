// The bill of one job as plain data. Amounts are decimal text in the shop's currency, exact until they are rounded by the
// shop's own rule.

import { defined } from "../../base/defined";
import { decimalText } from "../../compute/money/decimal";
import { hoursIn } from "../../log/hours";
import { warrantyUntil } from "../../review/comeback/warranty";
import { isAgreed, spendingLimitOf } from "../../review/money/approval";
import { costOfSet, exceeds } from "../../review/money/cost";
import type { Fact, QuoteTable, ReportSource } from "../owner/model";
import { boardWords } from "../owner/set";

export interface Bill {
  readonly format: 1;
  readonly title: string;
  readonly shop?: string;
  /** Where it is none that may be sent, or not yet: what the reader must know of that. */
  readonly draft?: string;
  readonly facts: readonly Fact[];
  /** Absent where nothing can be counted; `notes` says why. */
  readonly table?: QuoteTable;
  /** What is not in it, and how it was counted, as sentences. */
  readonly notes: readonly string[];
  /** The shop file's texts, by name. */
  readonly closing: readonly Fact[];
}

/** @param personal whether the owner's name and address are in it */
export function billOf(source: ReportSource, personal = true): Bill {
  const { front, ctx } = source;
  const shop = ctx.shop?.value;
  const all = [source, ...(source.others ?? [])];
  const cost = costOfSet(all);
  const until = warrantyUntil(front, shop);
  const faults = all.flatMap((one) => hoursIn(one.doc).faults);
  // The set is not home while one of its boards is here.
  const here = all.find((one) => one.front.stage !== "returned");
  const limit = spendingLimitOf(front);
  const over = cost !== undefined && limit !== undefined && !isAgreed(front) && exceeds(cost.total, limit);
  return defined({
    format: 1,
    title: `Bill: ${all.map(boardWords).join(", ")}`,
    shop: shop?.name,
    draft: draftOf(here ? here.front.stage : "returned", cost === undefined),
    facts: facts([
      ["Job", front.job],
      ["Owner", personal ? front.owner : undefined],
      ["Address", personal ? front.returnAddress : undefined],
      ...all.map((one) => ["Board", boardWords(one)] as const),
      ["Received", front.received],
      ["Returned", front.returned],
      ["Comeback of job", front.comebackOf],
      ["Warranty until", until],
    ]),
    table: cost && tableOf(cost),
    notes: [
      ...(shop === undefined
        ? ["There is no shop file, so there are no prices. Write a mendlog.shop.yaml with a currency."]
        : cost === undefined
          ? ["The shop file names no currency, so nothing is counted. Add one, like currency: EUR."]
          : []),
      ...(over && limit
        ? [
            `It is over the limit of ${decimalText(limit)} ${cost.currency} that the owner agreed to. Ask before it is sent.`,
          ]
        : []),
      ...(faults.length > 0
        ? [
            `${faults.length === 1 ? "1 line" : `${faults.length} lines`} of hours could not be read and are not in it.`,
          ]
        : []),
      ...(cost?.notes ?? []),
    ],
    closing: [...(shop?.bill ?? [])].map(([key, text]) => ({ label: wordsOf(key), text })),
  });
}

function draftOf(stage: string | undefined, isEmpty: boolean): string | undefined {
  if (stage === "returned" && !isEmpty) return undefined;
  if (stage === "returned") return "Nothing could be counted: this is no bill.";
  const at = stage === undefined ? "The log names no stage" : `The job is at "${stage}"`;
  return `${at}: this is a draft and no bill. What is done until the board goes back is still to come.`;
}

function tableOf(cost: NonNullable<ReturnType<typeof costOfSet>>): QuoteTable {
  const { currency, lines, net, tax, total } = cost;
  return {
    currency,
    lines: lines.map(({ kind, what, quantity, price, total: sum }) => ({
      what: kind === "labour" ? `Work, ${what}` : what,
      count: kind === "labour" ? `${decimalText(quantity)} h` : decimalText(quantity),
      each: decimalText(price),
      total: decimalText(sum),
    })),
    sums: [
      { label: "Net", text: decimalText(net) },
      ...(tax ? [{ label: `${tax.title}, ${tax.rate}`, text: decimalText(tax.amount) }] : []),
      { label: "Total", text: decimalText(total) },
    ],
    notes: [],
  };
}

const facts = (all: readonly (readonly [string, string | undefined])[]): Fact[] =>
  all.flatMap(([label, text]) => (text === undefined || text === "" ? [] : [{ label, text }]));

const wordsOf = (key: string): string => {
  const words = key.replace(/[-_]+/g, " ").trim();
  return words.charAt(0).toUpperCase() + words.slice(1);
};

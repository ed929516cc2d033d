// What the job costs, on the report only where the shop file asks for it.
import { decimalText } from "../../compute/money/decimal";
import { partsList } from "../../review/parts/list";
import type { QuoteTable, ReportSource } from "./model";

export function quoteIn(source: ReportSource): { quote?: QuoteTable } {
  if (!source.ctx.shop?.value.quote?.show) return {};
  const { quote } = partsList(source);
  if (!quote) return {};
  const { currency, lines, net, tax, total, notes } = quote;
  return {
    quote: {
      currency,
      lines: lines.map(({ what, quantity, price, total: sum }) => ({
        what,
        count: decimalText(quantity),
        each: decimalText(price),
        total: decimalText(sum),
      })),
      sums: [
        { label: "Net", text: decimalText(net) },
        ...(tax ? [{ label: `${tax.title}, ${tax.rate}`, text: decimalText(tax.amount) }] : []),
        { label: "Total", text: decimalText(total) },
      ],
      notes,
    },
  };
}

/** The table both written forms show, without the header. */
export const quoteRows = ({ lines, sums }: QuoteTable): string[][] => [
  ...lines.map(({ what, count, each, total }) => [what, count, each, total]),
  ...sums.map(({ label, text }) => [label, "", "", text]),
];

/** Headings of the quote's columns; the last is the currency of its amounts. */
export const quoteHeader = ({ currency }: QuoteTable): string[] => ["What", "Count", "Each", currency];

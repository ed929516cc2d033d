// The parts list as it stands in a log: tables and short lists, no heading of its own.
import { decimalText } from "../../compute/money/decimal";
import type { Quote } from "../../review/money/quote";
import type { Consumable } from "../../review/parts/consumables";
import type { PartLine, PartsList } from "../../review/parts/list";
import { md } from "../../text/markdown";

/** Lines without line ends; one that says so where there is nothing to list. */
export function partsMarkdown(list: PartsList): string[] {
  const { suggested, fitted, consumables, quote, currency } = list;
  if (suggested.length === 0 && fitted.length === 0) {
    return ["Nothing is disproved or suspected so far, and nothing was fitted. That proves no part."];
  }
  const planned = suggested.filter(({ state }) => state === "planned");
  const likely = suggested.filter(({ state }) => state !== "planned");
  return [
    ...(planned.length > 0 ? ["**Planned**", "", ...table(suggestedColumns(list), planned), ""] : []),
    ...(likely.length > 0
      ? [
          "**To fit** (suspected is not disproved: take the next reading first)",
          "",
          ...table(suggestedColumns(list), likely),
          "",
        ]
      : []),
    ...notesOf(suggested),
    ...(fitted.length > 0 ? ["**Fitted**", "", ...table(fittedColumns(list), fitted), ""] : []),
    ...(consumables.length > 0
      ? ["**Used up**", "", ...consumables.map((one) => usedUp(one, currency)), ""]
      : []),
    ...(quote ? quoteLines(quote) : []),
    "Sockets and what is used up: common practice, no source.",
  ];
}

function usedUp({ what, why, stock, order, price }: Consumable, currency: string | undefined): string {
  const shelf = stock
    ? [
        order > 0 ? "order 1" : `${stock.quantity} on the shelf`,
        ...(price === undefined ? [] : [`${price} ${currency ?? ""}`.trim()]),
      ]
    : [];
  return `- ${md(what)}${shelf.length > 0 ? ` (${md(shelf.join(", "))})` : ""}: ${md(why)}`;
}

type Column<T> = readonly [header: string, cell: (row: T) => string];

const priceColumn = ({ currency }: PartsList): Column<PartLine>[] =>
  currency === undefined ? [] : [[currency, ({ total }) => total ?? ""]];

const suggestedColumns = (list: PartsList): Column<PartLine>[] => [
  ["Part", ({ part }) => part],
  ["Pieces", ({ quantity }) => String(quantity)],
  ["For", ({ refs }) => refs.join(", ")],
  ["Package", (line) => line.package ?? ""],
  ["On the shelf", shelfText],
  ["Order", ({ order }) => String(order)],
  ...priceColumn(list),
  ["Why", ({ why }) => why.join("; ")],
];

const fittedColumns = (list: PartsList): Column<PartLine>[] => [
  ["Part", ({ part }) => part],
  ["Pieces", ({ quantity }) => String(quantity)],
  ["At", ({ refs }) => refs.join(", ")],
  ["Package", (line) => line.package ?? ""],
  ["Socket", ({ socket }) => socket ?? ""],
  ...priceColumn(list),
];

function shelfText({ part, stock }: PartLine): string {
  if (!stock) return "not listed";
  const named = stock.part.toUpperCase() === part.toUpperCase() ? "" : ` of ${stock.part}`;
  return `${stock.quantity}${named}${stock.location === undefined ? "" : `, ${stock.location}`}`;
}

/** What may be fitted instead, and what value to look for. */
function notesOf(lines: readonly PartLine[]): string[] {
  const notes = lines.flatMap(({ part, standard, substitutes }) => [
    ...(standard === undefined ? [] : [`- ${md(part)}: look for ${md(standard)}`]),
    ...substitutes.map(({ part: other, caution, stock }) => {
      const shelf = stock === undefined ? "" : ` (${stock} on the shelf)`;
      return `- ${md(other)} instead of ${md(part)}${shelf}: ${md(caution)}`;
    }),
  ]);
  return notes.length > 0 ? [...notes, ""] : [];
}

function quoteLines({ currency, lines, net, tax, total, notes }: Quote): string[] {
  const rows = [
    ...lines.map(({ what, quantity, price, total: sum }) => [
      what,
      decimalText(quantity),
      decimalText(price),
      decimalText(sum),
    ]),
    ["Net", "", "", decimalText(net)],
    ...(tax ? [[`${tax.title}, ${tax.rate}`, "", "", decimalText(tax.amount)]] : []),
    ["Total", "", "", decimalText(total)],
  ];
  const columns = ["What", "Count", "Each", currency].map(
    (header, at): Column<readonly string[]> => [header, (row) => row[at] ?? ""],
  );
  return ["**Quote**", "", ...table(columns, rows), "", ...notes.map((note) => `- ${md(note)}`), ""];
}

function table<T>(columns: readonly Column<T>[], rows: readonly T[]): string[] {
  const cells = [
    columns.map(([header]) => header),
    ...rows.map((row) => columns.map(([, cell]) => inCell(cell(row)))),
  ];
  const widths = columns.map((_, at) => Math.max(3, ...cells.map((row) => row[at]?.length ?? 0)));
  const line = (row: readonly string[]) =>
    `| ${row.map((cell, at) => cell.padEnd(widths[at] ?? 0)).join(" | ")} |`;
  const [head = [], ...body] = cells;
  return [line(head), `|${widths.map((width) => "-".repeat(width + 2)).join("|")}|`, ...body.map(line)];
}

/** In a cell nothing can begin a list, so "3.40" stays as it is. */
const inCell = (text: string): string =>
  md(text)
    .replace(/^(\d+)\\([.)])/, "$1$2")
    .replace(/^\\([-+=])/, "$1");

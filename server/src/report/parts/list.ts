// Parts lists of one log or many, for people, programs and spreadsheets.
import { defined } from "../../base/defined";
import { decimalText } from "../../compute/money/decimal";
import type { Quote } from "../../review/money/quote";
import type { Consumable } from "../../review/parts/consumables";
import type { PartLine, PartState, PartsList } from "../../review/parts/list";
import { type Csv, csv } from "../../text/csv";
import { type Json, json } from "../../text/json";
import { joinedShown, type TerminalText, terminal, visibleLines } from "../../text/terminal";
import { columns } from "./text";

/** One log's list with the path that people are shown. */
export interface JobParts {
  readonly path: string;
  readonly list: PartsList;
  /** Short name of the board, where the log is about several; each has a list. */
  readonly inSet?: string;
}

/** Raised where a field changes its meaning or goes; new fields may come without. */
export const PARTS_FORMAT = 1;

/** The lists as JSON with the format's number. Amounts are decimal text. */
export const partsJson = (jobs: readonly JobParts[]): Json =>
  json({
    format: PARTS_FORMAT,
    jobs: jobs.map(({ path, list: { quote, ...list }, inSet }) =>
      defined({
        path,
        inSet,
        ...list,
        quote: quote ? quoteData(quote) : undefined,
      }),
    ),
  });

/** Amounts as decimal text: a JSON number is a binary fraction to most who read it. */
export const quoteData = ({ lines, net, tax, total, ...rest }: Quote) =>
  defined({
    ...rest,
    lines: lines.map(({ quantity, price, total: sum, ...line }) => ({
      ...line,
      quantity: decimalText(quantity),
      price: decimalText(price),
      total: decimalText(sum),
    })),
    net: decimalText(net),
    tax: tax ? { ...tax, amount: decimalText(tax.amount) } : undefined,
    total: decimalText(total),
  });

const HEADER = [
  "path",
  "job",
  "state",
  "kind",
  "part",
  "quantity",
  "places",
  "package",
  "socket",
  "look for",
  "stock part",
  "stock",
  "location",
  "order",
  "price",
  "total",
  "currency",
  "why",
  "instead",
  "board",
];

/** One header, and under it the lines of every list. */
export const partsCsv = (jobs: readonly JobParts[]): Csv => csv([HEADER, ...jobs.flatMap(rowsOf)]);

function rowsOf({ path, list, inSet }: JobParts): (string | number | undefined)[][] {
  const board = inSet ?? list.board;
  const row = (line: PartLine) => [
    path,
    list.job,
    line.state,
    line.kind,
    line.part,
    line.quantity,
    line.refs.join(" "),
    line.package,
    line.socket,
    line.standard,
    line.stock?.part,
    line.stock?.quantity,
    line.stock?.location,
    line.order,
    line.price,
    line.total,
    list.currency,
    line.why.join("; "),
    line.substitutes
      .map(
        ({ part, caution, stock }) =>
          `${part}${stock === undefined ? "" : ` (${stock} on the shelf)`}: ${caution}`,
      )
      .join("; "),
    board,
  ];
  return [
    ...[...list.suggested, ...list.fitted].map(row),
    ...list.consumables.map(({ what, why, stock, order, price }) => [
      path,
      list.job,
      "used up",
      "consumable",
      what,
      undefined,
      undefined,
      undefined,
      undefined,
      undefined,
      stock?.part,
      stock?.quantity,
      stock?.location,
      order,
      price,
      undefined,
      price === undefined ? undefined : list.currency,
      why,
      undefined,
      board,
    ]),
  ].map((cells) => HEADER.map((_, at) => cells[at]));
}

/** The lists made safe for a terminal; says so where there are no logs. */
export const partsText = (jobs: readonly JobParts[]): TerminalText =>
  jobs.length === 0
    ? terminal`No logs.\n`
    : joinedShown(
        jobs.map((job) => visibleLines(jobText(job))),
        "\n",
      );

function jobText({ path, list, inSet }: JobParts): string {
  const { suggested, fitted, consumables, quote, currency } = list;
  const title = `${path}${inSet === undefined ? "" : `, ${inSet}`}${list.job === undefined ? "" : `, job ${list.job}`}${list.board === undefined ? "" : `, ${list.board}`}`;
  const money = (total: string | undefined) =>
    total === undefined ? "no price" : `${total} ${currency ?? ""}`.trim();
  const toFitRow = (line: PartLine) => [
    `${line.quantity} x ${line.part}`,
    line.refs.join(", "),
    line.order > 0 ? `order ${line.order}` : `shelf: ${line.stock?.location ?? "yes"}`,
    money(line.total),
    line.why.join("; "),
  ];
  const rows = (state: PartState) => suggested.filter((line) => line.state === state).map(toFitRow);
  const planned = rows("planned");
  const toFit = rows("suggested");
  const done = fitted.map((line) => [
    `${line.quantity} x ${line.part}`,
    line.refs.join(", "),
    line.socket ?? "",
    money(line.total),
  ]);
  const notes = suggested.flatMap(({ part, standard, substitutes }) => [
    ...(standard === undefined ? [] : [`  ${part}: look for ${standard}`]),
    ...substitutes.map(
      ({ part: other, caution, stock }) =>
        `  ${other} instead of ${part}${stock === undefined ? "" : ` (${stock} on the shelf)`}: ${caution}`,
    ),
  ]);
  return [
    title,
    ...(suggested.length + done.length === 0
      ? ["  nothing to fit and nothing fitted; that proves no part"]
      : []),
    ...(planned.length > 0 ? [" planned", ...columns(planned, "  ")] : []),
    ...(toFit.length > 0 ? [" suggested", ...columns(toFit, "  ")] : []),
    ...notes,
    ...(done.length > 0 ? [" fitted", ...columns(done, "  ")] : []),
    ...(consumables.length > 0
      ? [
          " used up, with the price of one reel, bottle or tube",
          ...columns(
            consumables.map((one) => [
              one.what,
              shelfOf(one),
              one.price ? `${one.price} ${currency ?? ""}`.trim() : "",
              one.why,
            ]),
            "  ",
          ),
        ]
      : []),
    ...(quote ? quoteText(quote) : []),
    "",
  ].join("\n");
}

/** "shelf: drawer 7", "order 1", or that the shop file says nothing of it. */
const shelfOf = ({ stock, order }: Consumable): string => {
  if (!stock) return "not listed";
  const there = `shelf: ${stock.location ?? "yes"}`;
  return order > 0 ? `order ${order}` : there;
};

function quoteText({ currency, lines, net, tax, total, notes }: Quote): string[] {
  const rows = [
    ...lines.map((line) => [
      line.what,
      `${decimalText(line.quantity)} at ${decimalText(line.price)}`,
      decimalText(line.total),
    ]),
    ["net", "", decimalText(net)],
    ...(tax ? [[`${tax.title} ${tax.rate}`, "", decimalText(tax.amount)]] : []),
    ["total", "", `${decimalText(total)} ${currency}`],
  ];
  return [" quote", ...columns(rows, "  "), ...notes.map((note) => `  ${note}`)];
}

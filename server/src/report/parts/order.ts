// What to order for all open jobs, for people, programs and spreadsheets.
import type { OrderLine, OrderList } from "../../review/parts/order";
import { type Csv, csv } from "../../text/csv";
import { type Json, json } from "../../text/json";
import { joinedShown, type TerminalText, terminal, visibleLines } from "../../text/terminal";
import { PARTS_FORMAT } from "./list";
import { columns } from "./text";

/** The open jobs of one shop with the folder it serves. */
export interface ShopOrder {
  readonly folder: string;
  readonly list: OrderList;
}

/** The orders as JSON, shop by shop, with the format's number. */
export const orderJson = (shops: readonly ShopOrder[]): Json =>
  json({ format: PARTS_FORMAT, shops: shops.map(({ folder, list }) => ({ folder, ...list })) });

/** One row for each part to be had, whether it is ordered or on the shelf. */
export const orderCsv = (shops: readonly ShopOrder[]): Csv =>
  csv([
    [
      "folder",
      "kind",
      "part",
      "needed",
      "from shelf",
      "order",
      "on the way",
      "price",
      "total",
      "currency",
      "jobs",
      "instead",
    ],
    ...shops.flatMap(({ folder, list }) =>
      list.lines.map((line) => [
        folder,
        line.kind,
        line.part,
        line.needed,
        line.fromShelf,
        line.order,
        line.onTheWay,
        line.price,
        line.total,
        list.currency,
        jobsText(line),
        line.instead.map(({ part, stock, caution }) => `${stock} of ${part}: ${caution}`).join("; "),
      ]),
    ),
  ]);

const jobsText = ({ jobs }: OrderLine): string =>
  jobs.map(({ job, refs }) => [job, ...refs].join(" ")).join("; ");

/** The orders made safe for a terminal, shop by shop; says so where there are no logs. */
export const orderText = (shops: readonly ShopOrder[]): TerminalText =>
  shops.length === 0
    ? terminal`No logs.\n`
    : joinedShown(
        shops.map((shop) => visibleLines(shopText(shop))),
        "\n",
      );

function shopText({ folder, list }: ShopOrder): string {
  const { currency, jobs, lines, total, unpriced } = list;
  const order = lines.filter((line) => line.order > 0);
  const coming = lines.filter((line) => line.onTheWay > 0);
  const shelf = lines.filter((line) => line.fromShelf > 0);
  const money = (amount: string | undefined) =>
    amount === undefined ? "no price" : `${amount} ${currency ?? ""}`.trim();
  return [
    `${folder}: ${jobs.length} open ${jobs.length === 1 ? "job" : "jobs"}${jobs.length > 0 ? ` (${jobs.join(", ")})` : ""}`,
    ...(order.length === 0 ? ["  nothing to order"] : [" to order"]),
    ...columns(
      order.map((line) => [`${line.order} x ${line.part}`, money(line.total), `for ${jobsText(line)}`]),
      "  ",
    ),
    ...order.flatMap(({ part, instead }) =>
      instead.map(
        (other) => `  ${other.part} instead of ${part} (${other.stock} left on the shelf): ${other.caution}`,
      ),
    ),
    ...(order.length > 0
      ? [`  together ${money(total)}${unpriced.length > 0 ? `, without ${unpriced.join(", ")}` : ""}`]
      : []),
    ...(coming.length > 0 ? [" on the way"] : []),
    ...columns(
      coming.map((line) => [`${line.onTheWay} x ${line.part}`, `for ${jobsText(line)}`]),
      "  ",
    ),
    ...(shelf.length > 0 ? [" from the shelf"] : []),
    ...columns(
      shelf.map((line) => [`${line.fromShelf} x ${line.part}`, line.location ?? "", `for ${jobsText(line)}`]),
      "  ",
    ),
    "",
  ].join("\n");
}

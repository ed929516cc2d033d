import { defined } from "../base/defined";
import { array, type Data, isComplete, number, present, record, shapeMap, text } from "./shape";
import type {
  CheckLevel,
  Meter,
  MeterRange,
  PartOrder,
  QuoteRules,
  Shop,
  ShopCheck,
  StockItem,
} from "./types";

/** A shop out of checked data. What is missing is absent or empty; labour counts only with rate and unit both. */
export function shapeShop(data: Data): Shop {
  const { rate, per, actions } = record(data.labour);
  const labour = { rate: text(rate), per: text(per), actions: shapeMap(actions, text) };
  return defined({
    name: text(data.name) ?? "",
    meters: shapeMap(data.meters, meter),
    stock: array(data.stock).map(stockItem).filter(present),
    report: shapeMap(data.report, text),
    bill: shapeMap(data.bill, text),
    orders: array(data.orders).map(partOrder).filter(present),
    countStock: data["count-stock"] === "yes" ? (true as const) : undefined,
    warrantyDays: number(data["warranty-days"]),
    limitsFrom: text(data["limits-from"]),
    logFields: shapeMap(data["log-fields"], text),
    currency: text(data.currency),
    labour: isComplete(labour) ? labour : undefined,
    quote: data.quote === undefined ? undefined : quoteRules(record(data.quote)),
    checks: data.checks === undefined ? undefined : shapeMap(data.checks, shopCheck),
  });
}

/** What the schema let through: codes that there are, levels that there are, numbers within their bounds. */
function shopCheck(value: unknown): ShopCheck {
  const { severity, ...numbers } = record(value);
  return defined({ severity: text(severity) as CheckLevel | undefined, options: shapeMap(numbers, number) });
}

function quoteRules(data: Data): QuoteRules {
  const tax = { title: text(record(data.tax).title), rate: text(record(data.tax).rate) };
  return defined({
    show: data.show === "yes",
    rounding: data.rounding === "half-even" ? "half-even" : "half-away-from-zero",
    round: data.round === "total" ? "total" : "line",
    tax: isComplete(tax) ? tax : undefined,
  });
}

function meter(value: unknown, id: string): Meter {
  const data = record(value);
  return defined({
    id,
    title: text(data.title) ?? id,
    ranges: array(data.ranges).map(range).filter(present),
    note: text(data.note),
  });
}

function range(value: unknown): MeterRange | undefined {
  const data = record(value);
  const needed = { function: text(data.function), range: text(data.range) };
  if (!isComplete(needed)) return undefined;
  const { reading, counts } = record(data.accuracy);
  const accuracy = { reading: text(reading), counts: number(counts) };
  return defined({
    ...needed,
    resolution: text(data.resolution),
    accuracy: isComplete(accuracy) ? accuracy : undefined,
    testVoltage: text(data["test-voltage"]),
    testCurrent: text(data["test-current"]),
  });
}

function partOrder(value: unknown, index: number): PartOrder | undefined {
  const data = record(value);
  const needed = { part: text(data.part), quantity: number(data.quantity), ordered: text(data.ordered) };
  if (!isComplete(needed)) return undefined;
  return defined({
    ...needed,
    index,
    received: text(data.received),
    receivedQuantity: number(data["received-quantity"]),
    stocked: number(data.stocked),
  });
}

function stockItem(value: unknown, index: number): StockItem | undefined {
  const data = record(value);
  const needed = { part: text(data.part), quantity: number(data.quantity) };
  if (!isComplete(needed)) return undefined;
  return defined({
    ...needed,
    index,
    price: text(data.price),
    location: text(data.location),
    note: text(data.note),
  });
}

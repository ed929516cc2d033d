import { array, complete, type Data, mapOf, number, optional, present, record, text } from "./shape";
import type { Meter, MeterRange, QuoteRules, Shop, StockItem } from "./types";

export function shapeShop(data: Data): Shop {
  const { rate, per, actions } = record(data.labour);
  const labour = { rate: text(rate), per: text(per), actions: mapOf(actions, text) };
  return {
    name: text(data.name) ?? "",
    meters: mapOf(data.meters, meter),
    stock: array(data.stock).map(stockItem).filter(present),
    report: mapOf(data.report, text),
    ...optional({ currency: text(data.currency), labour: complete(labour) ? labour : undefined }),
    ...optional({ quote: data.quote === undefined ? undefined : quoteRules(record(data.quote)) }),
  };
}

function quoteRules(data: Data): QuoteRules {
  const tax = { title: text(record(data.tax).title), rate: text(record(data.tax).rate) };
  return {
    show: data.show === "yes",
    rounding: data.rounding === "half-even" ? "half-even" : "half-away-from-zero",
    round: data.round === "total" ? "total" : "line",
    ...optional({ tax: complete(tax) ? tax : undefined }),
  };
}

function meter(value: unknown, id: string): Meter {
  const data = record(value);
  return {
    id,
    title: text(data.title) ?? id,
    ranges: array(data.ranges).map(range).filter(present),
    ...optional({ note: text(data.note) }),
  };
}

function range(value: unknown): MeterRange | undefined {
  const data = record(value);
  const needed = { function: text(data.function), range: text(data.range) };
  if (!complete(needed)) return undefined;
  const { reading, counts } = record(data.accuracy);
  const accuracy = { reading: text(reading), counts: number(counts) };
  return {
    ...needed,
    ...optional({
      resolution: text(data.resolution),
      accuracy: complete(accuracy) ? accuracy : undefined,
      testVoltage: text(data["test-voltage"]),
    }),
  };
}

function stockItem(value: unknown): StockItem | undefined {
  const data = record(value);
  const needed = { part: text(data.part), quantity: number(data.quantity) };
  if (!complete(needed)) return undefined;
  return {
    ...needed,
    ...optional({ price: text(data.price), location: text(data.location), note: text(data.note) }),
  };
}

import { defined } from "../base/defined";
import { parseQuantity } from "../quantity/quantity";
import { load } from "./load";
import type { Loaded } from "./loaded";
import { array, type Data, isComplete, number, present, record, text } from "./shape";
import type { PooledLimit, PooledLimits } from "./types";

/** Reads a `*.limits.yaml`. Entries that cannot be used are left out; the schema's problems say which. */
export const loadLimits = (text: string): Loaded<PooledLimits> => load("limits", text, shapeLimits);

const shapeLimits = (data: Data): PooledLimits => ({
  source: text(data.source) ?? "",
  limits: array(data.limits).map(limit).filter(present),
});

function limit(value: unknown, index: number): PooledLimit | undefined {
  const data = record(value);
  const middle = quantity(data.middle);
  const needed = {
    board: text(data.board),
    procedure: text(data.procedure),
    measure: text(data.measure),
    place: text(data.place),
    boards: number(data.boards),
    shops: number(data.shops),
    middle: middle?.value,
    unit: middle?.unit,
  };
  if (!isComplete(needed)) return undefined;
  const { load: loaded } = data;
  return defined({
    ...needed,
    index,
    revision: text(data.revision),
    load: loaded === "loaded" || loaded === "unloaded" ? loaded : undefined,
    low: quantity(data.low)?.value,
    high: quantity(data.high)?.value,
  });
}

function quantity(value: unknown): { readonly value: number; readonly unit: string } | undefined {
  const parsed = parseQuantity(text(value) ?? "");
  return parsed.ok ? parsed.quantity : undefined;
}

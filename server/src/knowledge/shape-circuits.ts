import { defined } from "../base/defined";
import { isComplete, record, text } from "./shape";
import type { Backup, Clock, Coil, Reset } from "./types";

// Entries of the board file's lists of circuits. One without what makes it usable is left out; its position is
// the file's, so that those behind it keep theirs.

export function reset(value: unknown, index: number): Reset | undefined {
  const data = record(value);
  const needed = {
    ref: text(data.ref),
    pin: text(data.pin),
    resistor: text(data.resistor),
    capacitor: text(data.capacitor),
    rail: text(data.rail),
    threshold: text(data.threshold),
  };
  return isComplete(needed) ? defined({ ...needed, index, source: text(data.source) }) : undefined;
}

export function backup(value: unknown, index: number): Backup | undefined {
  const data = record(value);
  const needed = { rail: text(data.rail), capacitor: text(data.capacitor) };
  if (!isComplete(needed)) return undefined;
  return defined({
    ...needed,
    index,
    resistor: text(data.resistor),
    from: text(data.from),
    drop: text(data.drop),
    minimum: text(data.minimum),
    current: text(data.current),
    source: text(data.source),
  });
}

export function coil(value: unknown, index: number): Coil | undefined {
  const data = record(value);
  const needed = { driver: text(data.driver), supply: text(data.supply) };
  if (!isComplete(needed)) return undefined;
  return defined({
    ...needed,
    index,
    title: text(data.title),
    limit: text(data.limit),
    resistance: text(data.resistance),
    tolerance: text(data.tolerance),
    fuse: text(data.fuse),
    source: text(data.source),
  });
}

export function clock(value: unknown, index: number): Clock | undefined {
  const data = record(value);
  const needed = {
    ref: text(data.ref),
    pin: text(data.pin),
    nominal: text(data.nominal),
    tolerance: text(data.tolerance),
  };
  if (!isComplete(needed)) return undefined;
  return defined({ ...needed, index, from: text(data.from), source: text(data.source) });
}

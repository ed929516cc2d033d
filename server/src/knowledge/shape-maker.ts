import { defined } from "../base/defined";
import { type Data, present, record, shapeMap, text, texts } from "./shape";
import { DEVICE_KINDS } from "./types";
import type { AnotherPart, Maker, Prefix } from "./types-maker";

/** A maker from valid data; undefined without an id, since nothing could name it. */
export function shapeMaker(data: Data): Maker | undefined {
  const id = text(data.id);
  if (id === undefined) return undefined;
  return {
    id,
    title: text(data.title) ?? id,
    marks: texts(data.marks),
    prefixes: [...shapeMap(data.prefixes, prefix).values()],
    source: text(data.source) ?? "",
  };
}

function prefix(value: unknown, letters: string): Prefix | undefined {
  const data = record(value);
  const use = text(data.for);
  if (use === undefined) return undefined;
  const kinds = new Set(texts(data.kinds));
  return {
    letters,
    use,
    kinds: DEVICE_KINDS.filter((kind) => kinds.has(kind)),
    numbers: texts(data.numbers),
    another: [...shapeMap(data.another, anotherPart).values()].filter(present),
  };
}

function anotherPart(value: unknown, number: string): AnotherPart | undefined {
  const data = record(value);
  const is = text(data.is);
  return is === undefined ? undefined : defined({ number, is, device: text(data.device) });
}

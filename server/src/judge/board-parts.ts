// What the judges of powered readings ask of the board file: a part's value, a rail's voltage, where it is written.

import { type PartValue, partValue } from "../compute/part-value";
import { boardIndex } from "../knowledge/board-index";
import type { Part, Rail } from "../knowledge/types";
import { parseQuantity } from "../quantity/quantity";
import type { Dimension } from "../quantity/units";
import { locate, type YamlPath } from "../syntax/yaml";
import type { LogContext } from "./context";
import { pinNumber, type TestPoint } from "./test-point";
import type { Reference } from "./types";

/** A part of the board file with its value, or the sentence that says why there is none. */
export type PartValueResult =
  | ({ readonly ok: true; readonly ref: string } & PartValue)
  | { readonly ok: false; readonly reason: string };

const NAMES: { readonly [dimension in Dimension]?: string } = {
  resistance: "a resistance",
  capacitance: "a capacitance",
};

export function valueAt(ref: string, dimension: Dimension, ctx: LogContext): PartValueResult {
  const part = partAt(ref, ctx);
  if (!part) return { ok: false, reason: `The board file has no part ${ref}.` };
  const value = partValue(part, dimension);
  if (value) return { ok: true, ref, ...value };
  const wanted = NAMES[dimension] ?? dimension;
  return {
    ok: false,
    reason:
      part.value === undefined
        ? `The board file gives no value of ${ref}.`
        : `The board file gives ${ref} as "${part.value}", which is not ${wanted}.`,
  };
}

/** The part of the board file at a designator, whatever its case; undefined without a board file too. */
export const partAt = (ref: string, ctx: LogContext): Part | undefined =>
  ctx.board && boardIndex(ctx.board.value).part(ref);

/** A text of the board file as a number in SI base units, where it is of the dimension wanted. */
export function amountOf(text: string | undefined, dimension: Dimension): number | undefined {
  if (text === undefined) return undefined;
  const parsed = parseQuantity(text);
  return parsed.ok && parsed.quantity.dimension === dimension ? parsed.quantity.value : undefined;
}

/** Volts that a rail should have, signed; undefined where the file's text is no voltage. */
export const railNominal = (rail: Rail | undefined): number | undefined => amountOf(rail?.nominal, "voltage");

/** True where a reading's place is this pin or any other pin of its net. */
export function isOnNetOf(
  place: TestPoint | undefined,
  signal: string | undefined,
  at: PinAt,
  ctx: LogContext,
): boolean {
  const index = ctx.board && boardIndex(ctx.board.value);
  const net = index?.net(at.ref, at.pin);
  if (net && signal !== undefined && net.name.toUpperCase() === signal.trim().toUpperCase()) return true;
  if (!place || place.pinTyped === undefined) return false;
  if (net && place.net?.name === net.name) return true;
  const pin = place.pin?.number ?? pinNumber(place.pinTyped);
  return place.ref.toUpperCase() === at.ref.toUpperCase() && pin !== undefined && pin === pinNumber(at.pin);
}

interface PinAt {
  readonly ref: string;
  readonly pin: string;
}

/** The place of an entry in the board file, for a reference's `link`. */
export function linkTo(path: YamlPath, ctx: LogContext): Pick<Reference, "link"> {
  const span = ctx.board && locate(ctx.board.loaded.tree, path);
  return span && ctx.board ? { link: { uri: ctx.board.uri, span } } : {};
}

interface Strays {
  readonly ref: string;
  readonly tolerance: number;
  readonly toleranceSource: string;
}

/** "R5 ± 10 %, C1 ± 20 %: common practice, no source": parts whose tolerance has the same source stand together. */
export function tolerances(...parts: readonly Strays[]): string {
  const bySource = new Map<string, string[]>();
  for (const { ref, tolerance, toleranceSource } of parts) {
    const told = `${ref} ± ${Number((tolerance * 100).toPrecision(3))} %`;
    bySource.set(toleranceSource, [...(bySource.get(toleranceSource) ?? []), told]);
  }
  return [...bySource].map(([source, told]) => `${told.join(", ")}: ${source}`).join("; ");
}

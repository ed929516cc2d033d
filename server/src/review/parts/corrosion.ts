// What a leaking battery looks like in an inspector's words: common practice, no source.
import { type LogDocument, tablesOf } from "../../log/document";
import { type Span, shift } from "../../text/span";

const CORRODED =
  /\b(?:leak(?:s|ed|ing|age)?|corro(?:ded|sion|ding)|alkalin?e?|residue|green|verdigris|furry|crusted)\b/i;
const DENIED = /\b(?:no|not|none|never|without|free of)\b/i;
const BATTERY = /\b(?:BT\d+|batter(?:y|ies)|ni-?cd|ni-?mh|accumulator|coin cell|cells?)\b/i;
const GONE = /\b(?:removed|taken (?:off|out)|gone|cut (?:off|out)|missing|off the board)\b/i;

/** True for words that tell of what a leak leaves. */
export const looksCorroded = (text: string): boolean => CORRODED.test(text) && !DENIED.test(text);

/** True for words that name a battery, a cell, or a designator that begins with BT. */
export const namesBattery = (text: string): boolean => BATTERY.test(text);

export interface Corrosion {
  /** Of the document, with its words. */
  readonly span: Span;
  readonly text: string;
  /** The battery as the inspection names it. */
  readonly battery: string;
  /** The inspection says that it is off. */
  readonly gone: boolean;
}

/** Corrosion in a log whose inspection names a battery: that of a capacitor's electrolyte is another matter. */
export function corrosionIn(doc: LogDocument): Corrosion | undefined {
  let corroded: { span: Span; text: string } | undefined;
  let battery: string | undefined;
  let gone = false;
  for (const { start, table } of tablesOf(doc)) {
    if (table.kind.holds !== "inspection") continue;
    for (const { cells } of table.source.rows) {
      const words = cells.map(({ text }) => text).join(" | ");
      const names = BATTERY.exec(words)?.[0];
      battery ??= names;
      if (names && GONE.test(words)) gone = true;
      const sign = cells.find(({ text }) => looksCorroded(text));
      if (sign && !corroded) corroded = { span: shift(sign.span, start), text: sign.text };
    }
  }
  return corroded && battery !== undefined ? { ...corroded, battery, gone } : undefined;
}

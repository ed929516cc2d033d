// How long a one-shot stays up, against how long it should: its capacitor or its resistor, where the board has no reset of it.

import { defined } from "../../../base/defined";
import type { SignFinding } from "../../../compute/diagnosis/types";
import { partValue } from "../../../compute/part-value";
import type { LogContext } from "../../../judge/context";
import { single } from "../../../judge/measured";
import { pinName, testPointOf } from "../../../judge/test-point";
import { boardIndex } from "../../../knowledge/board-index";
import type { Reading } from "../../../log/model";
import { parseCell } from "../../../quantity/parse-cell";
import type { Observation } from "../observation";

/** Of what it should be, times that are as they should: a resistor of 5 % and a capacitor of 20 %, and who wrote it. Common practice, no source. */
const RIGHT = { least: 0.6, most: 1.7 } as const;

/** Undefined where the row does not say how long it should be. */
export function widthObserved(reading: Reading, ctx: LogContext): Observation | undefined {
  const { subject, table, cell, value, spec } = reading;
  const place = testPointOf(subject, ctx);
  const pin = place && pinName(place);
  const measured = single(value);
  const meant = subject.expected && parseCell(subject.expected.text, { kind: "quantity", unit: "s" });
  if (spec.quantity !== "time" || !place?.device || pin === undefined) return undefined;
  if (measured === undefined || meant?.kind !== "quantity" || !(meant.quantity.value > 0)) return undefined;
  const share = measured / meant.quantity.value;
  const { ref } = place;
  const of = `the time of ${ref} pin ${pin}`;
  const isRight = share >= RIGHT.least && share <= RIGHT.most;
  return defined({
    key: `${table.procedure.id} ${ref}.${pin} width`.toUpperCase(),
    what: of,
    table,
    span: cell.span,
    refs: [ref.toUpperCase()],
    finding: isRight
      ? undefined
      : ({
          kind: "sign",
          sign: "clock-off",
          ref,
          pin,
          state: share < 1 ? "high" : "low",
          of,
          says: `${ref} pin ${pin} stays ${value.typed}, and should ${subject.expected?.text}.`,
        } satisfies SignFinding),
  });
}

const UNITS: Readonly<Record<string, number>> = { n: 1e-9, u: 1e-6, µ: 1e-6, μ: 1e-6, m: 1e-3, "": 1 };
const LASTS =
  /(?<!\b(?:every|each|apart|period(?: of)?) )\b(?:(\d+(?:[.,]\d+)?)|an?|one)\s*(n|u|µ|μ|m|nano|micro|milli)?(?:s|secs?|seconds?)\b(?! (?:apart|later|after))/i;
const OF_A_PULSE = /\b(?:each|wide|width|long|short|pulses?|needles?|spikes?|slivers?|high|low)\b/i;
const NEEDLES = /\b(?:needles?|slivers?|hair-?thin|(?:thin|narrow) (?:spikes?|pulses?)|spikes only)\b/i;

/** How long a pulse lasts by the remark beside it, seconds; needles are no longer than a chip takes to fire. */
function lastsInWords(note: string): number | undefined {
  const told = OF_A_PULSE.test(note) ? LASTS.exec(note) : null;
  const [, figure = "1", prefix = ""] = told ?? [];
  const unit =
    UNITS[
      prefix
        .replace(/^mi?c.*/i, "u")
        .charAt(0)
        .toLowerCase()
    ] ?? 1;
  if (told) return Number(figure.replace(",", ".")) * unit;
  return NEEDLES.test(note) ? 1e-6 : undefined;
}

/** Of its resistor times its capacitor what a one-shot of whatever family stays up, at least. Common practice, no source. */
const LEAST_OF_RC = 0.12;
const TIMED = /^\d?(?:RC|R\/?CEXT|RX\/?CX|CX\/?RX|THR(?:ES(?:H(?:OLD)?)?)?)$/i;
const TIMED_OUT = /^[/~]?\d?(?:Q|OUT(?:PUT)?)$/i;

/** A one-shot that fires and lets go again far too soon for its resistor and its capacitor, by the remark beside the reading. */
export function tooShort({ subject, spec, value }: Reading, ctx: LogContext): SignFinding | undefined {
  const place = testPointOf(subject, ctx);
  const board = ctx.board?.value;
  if (!board || !place?.device || !place.pin || !TIMED_OUT.test(place.pin.name)) return undefined;
  const lasts = spec.quantity === "time" ? single(value) : lastsInWords(subject.note?.text ?? "");
  if (lasts === undefined) return undefined;
  const { ref, device, pin } = place;
  const net = [...device.pins.values()].flatMap((one) =>
    one.unit === pin.unit && TIMED.test(one.name) ? (boardIndex(board).net(ref, one.number) ?? []) : [],
  )[0];
  const most = (of: RegExp, dimension: "resistance" | "capacitance"): number =>
    Math.max(
      0,
      ...(net?.pins ?? []).flatMap((at) =>
        of.test(at.ref) ? (partValue(boardIndex(board).part(at.ref), dimension)?.nominal ?? []) : [],
      ),
    );
  const meant = most(/^R\d/i, "resistance") * most(/^C\d/i, "capacitance");
  if (!(lasts < LEAST_OF_RC * meant)) return undefined;
  return {
    kind: "sign",
    sign: "clock-off",
    ref,
    pin: pin.number,
    state: "high",
    of: `the time of ${ref} pin ${pin.number}`,
    says: `${ref} pin ${pin.number} stays for far less than its resistor and its capacitor give.`,
  };
}

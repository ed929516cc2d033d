// More ohms from a pin to ground than the resistor there has: what lies beside it can only make them fewer, so that the resistor, or
// the end that it shares with others, hangs off.

import type { SignFinding } from "../../../compute/diagnosis/types";
import { partValue } from "../../../compute/part-value";
import type { Judgement } from "../../../judge";
import { extentOf } from "../../../judge/compare";
import type { LogContext } from "../../../judge/context";
import { pinName } from "../../../judge/test-point";
import { boardIndex } from "../../../knowledge/board-index";
import type { Reading } from "../../../log/model";
import type { Observation } from "../observation";
import { otherEndOf } from "./ends";

/** Times what is marked on it: a resistor of 20 %, and a meter that still charges something; common practice, no source. */
const MORE = 1.6;
const TO_GROUND = /\b(?:ground|gnd|earth|chassis|minus|0 ?v)\b/i;
/** From the pin to somewhere else, or with an end in the air. */
const ELSEWHERE =
  /\b(?:to|from|and|against)\s+(?!ground|gnd|earth|chassis|the minus|minus|0 ?v)\S|\b(?:across|between|lifted|off|out|removed|unsoldered)\b/i;

/** Undefined where no single resistor, or one of a network, ties the pin's net to ground. */
export function tooManyOhms(
  { subject, spec, value, table, cell, apart = [] }: Reading,
  { place }: Judgement,
  { board: known }: LogContext,
): Observation | undefined {
  const board = known?.value;
  const pin = place && pinName(place);
  if (!board || !place?.net || place.tiedTo || pin === undefined || subject.pin === undefined)
    return undefined;
  if (spec.quantity !== "resistance" || apart.length > 0) return undefined;
  const words = `${subject.note?.text ?? ""}; ${table.section.heading?.text ?? ""}`;
  const isToGround = table.kind.observedAs === "rail-to-ground" || TO_GROUND.test(words);
  if (!isToGround || ELSEWHERE.test(subject.note?.text ?? "")) return undefined;
  const { net } = place;
  const least = value.kind === "open" ? Number.POSITIVE_INFINITY : extentOf(value)?.low;
  const index = boardIndex(board);
  const ties = net.pins.flatMap((at) => {
    const end = /^RN?\d/i.test(at.ref) ? otherEndOf(at, net, board) : undefined;
    const ohms = partValue(index.part(at.ref), "resistance")?.nominal;
    return end && index.isGround(end) && ohms !== undefined ? [{ at, end, ohms }] : [];
  });
  const [tie, second] = ties;
  if (!tie || second || least === undefined || least < MORE * tie.ohms) return undefined;
  const { at, end } = tie;
  const of = `${place.ref} pin ${pin} to ground`;
  return {
    key: `${table.procedure.id} ${place.ref}.${pin} ohms`.toUpperCase(),
    what: of,
    table,
    span: cell.span,
    refs: [at.ref.toUpperCase()],
    finding: {
      kind: "sign",
      sign: "stage",
      refs: [at.ref],
      pins: [at, ...end.pins.filter(({ ref }) => ref === at.ref)],
      of,
      says: `${of} reads ${value.typed}, and ${at.ref} there would leave no more than its own ohms.`,
    } satisfies SignFinding,
  };
}

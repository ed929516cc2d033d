// A place that was warmed, cooled, bent or tapped, by whether the fault came or went.

import type { Reading } from "../log/model";
import type { LogContext } from "./context";
import { unjudged } from "./judgement-from";
import { type TestPoint, testPointName } from "./test-point";
import type { Judgement } from "./types";

/** By heat and cold a chip or its joints react; by force joints, contacts and tracks. */
export type Stress = "heat" | "force";

const HEAT = /\b(?:heat\w*|hot|warm\w*|cold|cool\w*|freez\w*|frozen|chill\w*|spray\w*|hair ?dryer|iron)\b/i;
const FORCE =
  /\b(?:tap\w*|flex\w*|bend\w*|bent|push\w*|press\w*|wiggl\w*|twist\w*|knock\w*|vibrat\w*|mov(?:e|ed|ing)|pull\w*|rock\w*|squeez\w*|thumb|fingers?|lean\w*|wobbl\w*|prod\w*|pok\w*)\b/i;

/**
 * What a row says was done to the place while it was watched; undefined for words that are neither heat, cold nor
 * force.
 */
export const stressOf = ({ subject }: Reading): Stress | undefined => {
  const text = `${subject.item?.text ?? ""}`;
  return HEAT.test(text) ? "heat" : FORCE.test(text) ? "force" : undefined;
};

const SAME =
  /\b(?:no\s+(?:change|effect|difference|reaction)|nothing|unchanged|(?:the\s+)?same|steady|stable|none|no)\b/i;
const CHANGED =
  /\b(?:comes?|came|appears?|starts?|fails?|failed|dead|goes|gone|went|stops?|stopped|clears?|cleared|works|runs?|lives?|recovers?|only (?:while|when)|as long as|changes?|changed|flickers?|resets?|better|worse|intermittent|returns?|yes|reacts?|crash\w*|cured)\b/i;

/** True where the fault came or went, false where nothing changed; undefined for words that do not say. */
export function reacted({ value }: Reading): boolean | undefined {
  if (value.kind === "empty") return undefined;
  if (SAME.test(value.typed)) return false;
  return CHANGED.test(value.typed) || value.kind === "result" ? true : undefined;
}

/** Common practice, no source. */
export function judgeStress(
  reading: Reading,
  place: TestPoint | undefined,
  _ctx: LogContext,
): Judgement | undefined {
  const changed = reacted(reading);
  if (changed === undefined) return undefined;
  const { subject, value } = reading;
  const name = place ? testPointName(place) : "This place";
  const how = subject.item?.text ? ` (${subject.item.text})` : "";
  const base = place ? { reading, place } : { reading };
  if (!changed)
    return {
      ...base,
      verdict: "within-limits",
      says: { fact: `${name}${how}: ${value.typed}.`, cause: "Not disproved. It may react after an hour." },
    };
  const stress = stressOf(reading);
  if (stress === undefined)
    return unjudged(
      reading,
      place,
      `${name}: "${value.typed}". Write what was done there: heat, cold, tap or flex.`,
    );
  return {
    ...base,
    verdict: "suspect",
    code: "stress-found",
    says: {
      fact: `${name}${how}: ${value.typed}.`,
      ...(stress === "heat"
        ? {
            cause: "The part or a joint under it, or a close neighbour.",
            step: "Reflow or reseat it and try again. If it still reacts, renew it.",
          }
        : {
            cause: "A joint, a socket contact, a via or a track near it.",
            step: "Look under a lens, reflow or reseat, and try again.",
          }),
    },
  };
}

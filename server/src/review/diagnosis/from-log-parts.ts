// A part that was measured or looked at by itself, as the diagnosis takes it.

import { defined } from "../../base/defined";
import type { WithinLimits } from "../../compute/diagnosis/types";
import type { Judgement } from "../../judge";
import { extentOf } from "../../judge/compare";
import type { LogContext } from "../../judge/context";
import { partPlace } from "../../judge/place";
import type { Device } from "../../knowledge/types";
import type { Reading } from "../../log/model";
import type { Observation } from "./observation";

type Told = Pick<Observation, "finding" | "within">;

/** A junction below this conducts both ways; volts, common practice, no source. */
const SHORT = 0.1;

/** What was measured of a part, or of the junctions of a transistor as one thing. */
export function ofPart(
  reading: Reading,
  judgement: Judgement,
  ctx: LogContext,
  what: "part" | "junctions" = "part",
): Observation | undefined {
  const at =
    judgement.place ??
    (reading.subject.ref && partPlace(reading.subject.ref.text, ctx.board?.value, ctx.library));
  if (!at?.part) return undefined;
  const { ref } = at.part;
  const { verdict, formula } = judgement;
  const areJunctions = what === "junctions";
  const of = `${ref}'s ${areJunctions ? "junctions" : reading.measure}`;
  // Junctions have no window to be below; one that reads a short may be what lies across it. A part held against its own
  // value in place is found wrong only on the side that nothing across it can cause.
  const short = areJunctions && (extentOf(reading.value)?.high ?? 1) < SHORT;
  const direction = judgement.reference ? judgement.side : short ? "low" : undefined;
  const told: Told =
    verdict === "within-limits"
      ? { within: pinsOf(ref, at.device, ctx) }
      : {
          finding: defined({
            kind: "part",
            ref,
            verdict: verdict === "suspect" ? "suspect" : "out-of-limits",
            direction,
            of,
            says: `${ref} (${reading.measure}): ${formula ?? reading.value.typed}.`,
          }),
        };
  return {
    ...told,
    // A transistor's junctions are read together, so that a later row takes the place of an earlier one whole.
    key: `${reading.table.procedure.id} ${ref} ${areJunctions ? "" : reading.measure}`.toUpperCase(),
    what: of,
    table: reading.table,
    span: reading.cell.span,
    refs: [ref.toUpperCase()],
  };
}

const pinsOf = (ref: string, device: Device | undefined, ctx: LogContext): WithinLimits[] => {
  const named = device ? [...device.pins.keys()] : [];
  const onNets = [...(ctx.board?.value.nets.values() ?? [])].flatMap(({ pins }) =>
    pins.filter((pin) => pin.ref === ref).map(({ pin }) => pin),
  );
  return [...new Set([...named, ...onNets])].map((pin) => ({ ref, pin }));
};

/** A part that looks wrong. What looks right says nothing. */
export function seen(reading: Reading, ctx: LogContext): Observation | undefined {
  const { value, subject, table } = reading;
  if (value.kind !== "result" || value.ok === undefined) return undefined;
  const typed = subject.ref?.text ?? /^\s*([A-Za-z]{1,3}\d{1,4})\b/.exec(subject.item?.text ?? "")?.[1];
  const { part } = typed === undefined ? {} : partPlace(typed, ctx.board?.value, ctx.library);
  if (!part) return undefined;
  const { ref } = part;
  const of = `${ref}'s inspection`;
  const says = `${ref} was seen to be ${value.word}.`;
  return defined({
    // What is burnt or leaking is damaged, whatever did it.
    finding: value.ok ? undefined : { kind: "part", ref, verdict: "out-of-limits", of, says },
    look: true,
    key: `${table.procedure.id} ${ref}`.toUpperCase(),
    what: of,
    table,
    span: reading.cell.span,
    refs: [ref.toUpperCase()],
  });
}

/** A chip that was tried by itself, off the board: what failed there is the chip, and what passed may still be. */
export function chipTested(
  { subject, table, cell, value }: Reading,
  { verdict }: Judgement,
  ctx: LogContext,
): Observation | undefined {
  const { part } = subject.ref ? partPlace(subject.ref.text, ctx.board?.value, ctx.library) : {};
  if (!part) return undefined;
  const { ref } = part;
  const of = `${ref}'s test out of circuit`;
  const says = `${ref} failed a test out of circuit (${value.typed}).`;
  return {
    ...(verdict === "within-limits"
      ? { passed: ref }
      : { finding: { kind: "part", ref, verdict: "out-of-limits", of, says } }),
    key: `${table.procedure.id} ${ref}`.toUpperCase(),
    what: of,
    table,
    span: cell.span,
    refs: [ref.toUpperCase()],
  };
}

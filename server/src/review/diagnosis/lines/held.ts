// A line that stands at one level with a chip in its place and at the other without it: that chip holds it, whatever level
// is the right one. With each chip that changes nothing the line's other parts are the likelier.

import { defined } from "../../../base/defined";
import type { SignFinding } from "../../../compute/diagnosis/types";
import type { IsolatedReading } from "../../../judge/nets/isolation";
import { pinName, type TestPoint, testPointName } from "../../../judge/test-point";
import { boardIndex } from "../../../knowledge/board-index";
import type { Board } from "../../../knowledge/types";
import type { Reading } from "../../../log/model";
import type { LocatedObservation, Observation } from "../observation";
import { stateAt } from "./levels";

/** What the pin stood at with one part out; undefined where more was off than one part, or the pin's own. */
export function levelWithout(
  reading: Reading,
  place: TestPoint | undefined,
  { alone, off }: IsolatedReading,
): Observation | undefined {
  const pin = place && pinName(place);
  const [only, second] = off;
  const state = place && stateAt(reading, place);
  if (!place?.part || pin === undefined || alone || only === undefined || second !== undefined)
    return undefined;
  const { ref } = place.part;
  if (only.toUpperCase() === ref.toUpperCase() || state === undefined || state === "between")
    return undefined;
  return {
    without: { ref, pin, state, off: only },
    key: `${reading.table.procedure.id} ${ref}.${pin} without ${only}`.toUpperCase(),
    what: `${testPointName(place)} without ${only}`,
    table: reading.table,
    span: reading.cell.span,
    refs: [only.toUpperCase()],
  };
}

/** Something off the net, and the line stands where it stood: whatever a level's window says, that brought nothing back. */
export function unmoved(all: readonly LocatedObservation[], board: Board): readonly LocatedObservation[] {
  const index = boardIndex(board);
  const netOf = (ref: string, pin: string): string => index.net(ref, pin)?.name ?? `${ref}.${pin}`;
  const whole = new Map<string, string>();
  for (const { level } of all) if (level) whole.set(netOf(level.ref, level.pin), level.state);
  return all.map((one) => {
    const { without, lifts } = one;
    if (!without || !lifts || whole.get(netOf(without.ref, without.pin)) !== without.state) return one;
    return {
      ...one,
      lifts: lifts.flatMap(({ ref, net, also = [] }) =>
        [ref, ...also].map((off) => ({ kind: "lift" as const, ref: off, net, cleared: false })),
      ),
    };
  });
}

/** Lines that a part holds: level with it, the other level or a moving one without. */
export function heldBy(all: readonly LocatedObservation[], board: Board): LocatedObservation[] {
  const index = boardIndex(board);
  const netOf = (ref: string, pin: string): string => index.net(ref, pin)?.name ?? `${ref}.${pin}`;
  const whole = new Map<string, string>();
  // A header without its plug is read at its own pins without it as well.
  const unplugged = new Set(
    all.flatMap(({ without }) => (without && /^(?:J|P|CN|CON)\d/i.test(without.off) ? without.off : [])),
  );
  for (const { level } of all)
    if (level && !unplugged.has(level.ref)) whole.set(netOf(level.ref, level.pin), level.state);
  return all.flatMap((one): LocatedObservation[] => {
    const { without } = one;
    if (!without) return [];
    const was = whole.get(netOf(without.ref, without.pin));
    const isHeld = was === "low" || was === "high";
    if (!isHeld || without.state === was || without.state === "floating") return [];
    const of = `${without.ref} pin ${without.pin} without ${without.off}`;
    return [
      defined({
        ...one,
        without: undefined,
        lifts: undefined,
        key: `held ${of}`.toUpperCase(),
        finding: {
          kind: "sign",
          sign: "held-by",
          refs: [without.off],
          of,
          says: `${without.ref} pin ${without.pin} stands ${was}, and ${without.state === "pulsing" ? "moves" : `stands ${without.state}`} with ${without.off} out.`,
        } satisfies SignFinding,
      }),
    ];
  });
}

// A continuity row as the diagnosis takes it: a net that is open between two of its pins, or two nets that are one.

import { defined } from "../../../base/defined";
import type { SignFinding } from "../../../compute/diagnosis/types";
import { extentOf } from "../../../judge/compare";
import type { LogContext } from "../../../judge/context";
import { canBeep, endsRead, isWholeBoard, mustJoin, pinsOf } from "../../../judge/nets/ends";
import { expectedPartValue } from "../../../judge/passive";
import { partTestPoint } from "../../../judge/test-point";
import type { Disconnection } from "../../../log/disconnections";
import type { Reading } from "../../../log/model";
import type { Observation } from "../observation";

/** @param before what the work before it left off */
export function endsObserved(
  reading: Reading,
  ctx: LogContext,
  before: readonly Disconnection[] = [],
): Observation | undefined {
  const board = ctx.board?.value;
  const element = elementObserved(reading, ctx);
  if (element) return element;
  const ends = board && endsRead(reading, board, ctx.library);
  if (!ends) return undefined;
  const { from, to, heard, of } = ends;
  const isOne = from.net === to.net;
  const joined = heard === "joined";
  // Along a track what comes and goes, or has ohms, is a crack; between two nets it decides nothing.
  const open = heard === "open" || ((heard === "unsure" || heard === "some") && isOne);
  if (!joined && !open) return undefined;
  const between = isOne ? undefined : mustJoin(ends, reading, board);
  // A part of next to no ohms between the two is heard, and so is a board full of chips from a rail to ground.
  const mayBeep = !isOne && joined && (canBeep(ends, board).length > 0 || isWholeBoard(ends, reading, board));
  const pins = pinsOf(ends);
  const finding =
    isOne && open
      ? defined<SignFinding>({
          kind: "sign",
          sign: "continuity-open",
          nets: [from.net.name],
          pins,
          of,
          says:
            heard === "some"
              ? `${of} reads ${reading.value.typed}, and both are on ${from.net.name}.`
              : `${of} does not beep, and both are on ${from.net.name}.`,
        })
      : !isOne && joined && !mayBeep && between === undefined
        ? defined<SignFinding>({
            kind: "sign",
            sign: "continuity-short",
            nets: [from.net.name, to.net.name],
            pins,
            off: offIn(before, reading),
            of,
            says: `${of} beeps, and the one is on ${from.net.name}, the other on ${to.net.name}.`,
          })
        : between && open
          ? defined<SignFinding>({
              kind: "sign",
              sign: "continuity-open",
              refs: [between],
              nets: [from.net.name, to.net.name],
              pins,
              of,
              says: `${of} does not beep, and ${between} lies between.`,
            })
          : undefined;
  return defined({
    key: `${reading.table.procedure.id} ${of}`.toUpperCase(),
    what: of,
    table: reading.table,
    span: reading.cell.span,
    refs: pins.map(({ ref }) => ref.toUpperCase()),
    finding,
    // A fuse that rings through is whole, and so is a contact.
    against: between !== undefined && joined ? [{ ref: between, by: "beeps" as const }] : undefined,
    joined: isOne && joined && pins.length === 2 ? pins : undefined,
  });
}

/** Designators in capitals of whole parts that were out; absent where none were. */
function offIn(before: readonly Disconnection[], { apart = [] }: Reading): readonly string[] | undefined {
  const off = [...before, ...apart].flatMap(({ ref, how }) =>
    ref !== undefined && how === "out" ? ref.toUpperCase() : [],
  );
  return off.length > 0 ? [...new Set(off)] : undefined;
}

/** More than this many times its value an element of a network is open. */
const OPEN_TIMES = 2;

/** An element of a part, by its two pins: "RN1, 1-5", "RN1-1 to RN1-5", "R23.1 to R23.2". */
function elementObserved(reading: Reading, ctx: LogContext): Observation | undefined {
  const { subject, value, table, cell } = reading;
  const [from, to] = [subject.from?.text.trim() ?? "", subject.to?.text.trim() ?? ""];
  const { part } = partTestPoint(
    /^[A-Za-z]{1,3}\d{1,4}/.exec(from)?.[0] ?? "",
    ctx.board?.value,
    ctx.library,
  );
  if (!part || !/^RN?\d/i.test(part.ref)) return undefined;
  const pins =
    from.toUpperCase() === part.ref.toUpperCase()
      ? /^(\d{1,2})\s*(?:-|to|\/)\s*(\d{1,2})$/.exec(to)?.slice(1)
      : [from, to].flatMap((end) => {
          const named = new RegExp(`^${part.ref}\\s*[-.:]\\s*(\\d{1,2})$`, "i").exec(end)?.[1];
          return named ?? [];
        });
  if (pins?.length !== 2) return undefined;
  const ohms = extentOf(value);
  const nominal = expectedPartValue(reading, { ref: part.ref, part }, "resistance")?.nominal;
  const isOpen =
    value.kind === "open" || (ohms !== undefined && nominal !== undefined && ohms.low > OPEN_TIMES * nominal);
  const of = `${part.ref}, ${pins.join(" to ")}`;
  return defined({
    key: `${table.procedure.id} ${of}`.toUpperCase(),
    what: of,
    table,
    span: cell.span,
    refs: [part.ref.toUpperCase()],
    finding: isOpen
      ? {
          kind: "part" as const,
          ref: part.ref,
          verdict: "out-of-limits" as const,
          of,
          says: `${of} reads ${value.typed}: it is open.`,
        }
      : undefined,
  });
}

// What was tried as a whole, as the diagnosis takes it: codes of a test program, outputs that were fired, places that were
// warmed or tapped, and what got hot at first power.

import { defined } from "../../../base/defined";
import type { SignId } from "../../../compute/diagnosis/strength";
import type { SignFinding } from "../../../compute/diagnosis/types";
import type { Judgement } from "../../../judge";
import { codeIn } from "../../../judge/code";
import type { LogContext } from "../../../judge/context";
import { railAt } from "../../../judge/rail-name";
import { stressOf } from "../../../judge/stress";
import { partTestPoint, pinTestPoint } from "../../../judge/test-point";
import { hotIn } from "../../../log/hot";
import type { LogTable, Reading } from "../../../log/model";
import type { Observation } from "../observation";

/** A code that the board file knows: the parts that it points to, else those of its circuits by way of the symptom. */
export function codeObserved(
  { value, subject, table, cell }: Reading,
  { verdict }: Judgement,
  ctx: LogContext,
): Observation | undefined {
  const board = ctx.board?.value;
  const code = codeIn(board, value.typed);
  const run = subject.item?.text ?? "";
  const base = {
    key: `${table.procedure.id} ${run || value.typed}`.toUpperCase(),
    what: run ? `the test program at ${run}` : `the code ${value.typed}`,
    table,
    span: cell.span,
  };
  if (verdict === "within-limits") return { ...base, refs: [] };
  if (!board || !code || code.pass) return undefined;
  const refs = code.parts.flatMap((ref) => partTestPoint(ref, board, ctx.library).part?.ref ?? []);
  if (refs.length > 0)
    return {
      ...base,
      refs: refs.map((ref) => ref.toUpperCase()),
      finding: {
        kind: "sign",
        sign: "test-code",
        refs,
        of: base.what,
        says: `The test program showed ${code.code}: ${code.title}.`,
      },
    };
  if (code.circuits.length === 0) return undefined;
  return { ...base, refs: [], finding: { kind: "symptom", symptom: code.title, circuits: code.circuits } };
}

/** What was tried at one part, whatever came of it. @param place tells it from other trials of the same kind */
const triedAt = ({ table, cell }: Reading, ref: string, place: string, what: string) => ({
  key: `${table.procedure.id} ${place}`.toUpperCase(),
  what,
  table,
  span: cell.span,
  refs: [ref.toUpperCase()],
});

/** A driver whose output did not do what it should: the driver, or its load, which nobody told apart yet. */
export function driverObserved(
  reading: Reading,
  { verdict }: Judgement,
  ctx: LogContext,
): Observation | undefined {
  const { value, subject } = reading;
  const { part } = subject.ref ? partTestPoint(subject.ref.text, ctx.board?.value, ctx.library) : {};
  if (!part) return undefined;
  const of = `${subject.item?.text ?? "an output"} at ${part.ref}`;
  const base = triedAt(reading, part.ref, subject.item?.text ?? part.ref, of);
  const says = `${of} was fired: ${value.typed}.`;
  const nets = verdict === "within-limits" ? [] : outputsOf(part.ref, subject.pin?.text, ctx);
  if (nets.length === 1)
    return {
      ...base,
      finding: defined<SignFinding>({
        kind: "sign",
        sign: "output-wrong",
        nets,
        state: /stuck|stays|always|locked|stay on|never lets/i.test(value.typed) ? "high" : undefined,
        outside: `${subject.item?.text ?? "the load"} in the machine, or its wire`,
        of,
        says,
      }),
    };
  return verdict === "within-limits"
    ? base
    : {
        ...base,
        finding: {
          kind: "part",
          ref: part.ref,
          verdict: "suspect",
          of,
          says,
        },
      };
}

/** The net of a transistor's collector, or of the pin that the row names. */
function outputsOf(ref: string, pin: string | undefined, ctx: LogContext): string[] {
  const board = ctx.board?.value;
  const { device } = partTestPoint(ref, board, ctx.library);
  if (!board) return [];
  const pins =
    pin !== undefined
      ? [pinTestPoint(partTestPoint(ref, board, ctx.library), pin, board)]
      : device?.kind === "transistor"
        ? [...device.pins.values()].flatMap(({ name, number }) =>
            /^[CDA]$/i.test(name)
              ? [pinTestPoint(partTestPoint(ref, board, ctx.library), number, board)]
              : [],
          )
        : [];
  return pins.flatMap(({ net, tiedTo }) => (net && !tiedTo ? [net.name] : []));
}

const STRESSED: Readonly<Record<"heat" | "force", SignId>> = { heat: "heat-reacts", force: "force-reacts" };

export function stressObserved(
  reading: Reading,
  { verdict }: Judgement,
  ctx: LogContext,
): Observation | undefined {
  const { subject, value } = reading;
  const { part } = subject.ref ? partTestPoint(subject.ref.text, ctx.board?.value, ctx.library) : {};
  const stress = stressOf(reading);
  if (!part || !stress) return undefined;
  const of = `${part.ref} under ${subject.item?.text ?? stress}`;
  const base = triedAt(reading, part.ref, `${part.ref} ${stress}`, of);
  return verdict === "within-limits"
    ? base
    : {
        ...base,
        finding: {
          kind: "sign",
          sign: STRESSED[stress],
          refs: [part.ref],
          of,
          says: `${of}: ${value.typed}.`,
        },
      };
}

/** What got hot; a regulator does so in its work. */
export function hotObservations(table: LogTable, ctx: LogContext): Observation[] {
  const board = ctx.board?.value;
  if (!board) return [];
  const own = new Set([...board.rails.values()].flatMap(({ regulator }) => regulator?.toUpperCase() ?? []));
  return hotIn(table).flatMap(({ ref, span, rail }) => {
    const { part } = partTestPoint(ref, board, ctx.library);
    if (!part || own.has(part.ref.toUpperCase())) return [];
    const on = rail === undefined ? undefined : railAt({ rail }, board)?.name;
    const of = `the heat of ${part.ref}`;
    return [
      {
        key: `hot ${part.ref}`.toUpperCase(),
        what: of,
        table,
        span,
        refs: [part.ref.toUpperCase()],
        finding: {
          kind: "sign" as const,
          sign: "hot" as const,
          refs: [part.ref],
          of,
          says: `${part.ref} got hot when ${on ?? "the board"} was first powered.`,
        },
      },
    ];
  });
}

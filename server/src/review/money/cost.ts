// What the work of a job comes to: the hours noted, else what the shop's own hours for each thing done add up to, and the
// parts that were fitted. Nothing in it is suspected or suggested, so it needs no diagnosis.

import { defined } from "../../base/defined";
import { memo } from "../../base/memo";
import { add, type Decimal, decimalText, parseDecimal, sum } from "../../compute/money/decimal";
import type { LogContext } from "../../judge/context";
import type { FrontMatter } from "../../knowledge/load-front-matter";
import type { LogDocument } from "../../log/document";
import { type HoursLine, hoursIn } from "../../log/hours";
import { workRows } from "../../log/timeline";
import type { Action } from "../../log/timeline/actions";
import { type Fitted, fittedParts } from "../parts/fitted";
import { plannedParts } from "../parts/planned";
import { shelfOf } from "../parts/shelf";
import { type Quote, type QuoteInput, totalOf } from "./quote";

export interface CostSource {
  readonly doc: LogDocument;
  readonly front: Partial<FrontMatter>;
  readonly ctx: LogContext;
}

/** Undefined without a shop file or without a currency in it. */
export const costOf = memo((source: CostSource): Quote | undefined => costWith(source, []));

/** As `costOf`, with the parts that the log plans to fit: what the owner has to agree to. */
export const costPlanned = memo((source: CostSource): Quote | undefined =>
  costWith(source, plannedIn(source)),
);

const plannedIn = (source: CostSource): Fitted[] =>
  plannedParts(source).flatMap(({ part, refs, quantity }) =>
    part === undefined ? [] : [{ part, refs, quantity }],
  );

/** Of all boards of a job together, by the shop file of the first. */
export const costOfSet = (sources: readonly CostSource[]): Quote | undefined =>
  sources.length === 1 && sources[0] ? costOf(sources[0]) : costTogether(sources, () => []);

/** As `costOfSet`, with the parts that the logs plan to fit. */
export const costPlannedOfSet = (sources: readonly CostSource[]): Quote | undefined =>
  costTogether(sources, plannedIn);

function costTogether(
  sources: readonly CostSource[],
  more: (source: CostSource) => readonly Fitted[],
): Quote | undefined {
  const [first] = sources;
  const shop = first?.ctx.shop?.value;
  if (!first || !shop) return undefined;
  const actions = new Map<Action, number>();
  for (const { doc } of sources)
    for (const [action, count] of actionsDone(doc)) actions.set(action, (actions.get(action) ?? 0) + count);
  const lines = sources.flatMap(({ doc }) => hoursIn(doc).lines);
  return totalOf(
    defined({
      shop,
      actions,
      parts: sources.flatMap((source) => partsIn(source, more(source))),
      hours: lines.length > 0 ? hoursByDay(lines) : undefined,
    }),
  );
}

function costWith(source: CostSource, more: readonly Fitted[]): Quote | undefined {
  const { doc, ctx } = source;
  const shop = ctx.shop?.value;
  if (!shop) return undefined;
  const { lines } = hoursIn(doc);
  const parts = partsIn(source, more);
  return totalOf(
    defined({
      shop,
      actions: actionsDone(doc),
      parts,
      hours: lines.length > 0 ? hoursByDay(lines) : undefined,
    }),
  );
}

/** What was fitted, and more, with what a piece costs. */
function partsIn({ doc, ctx }: CostSource, more: readonly Fitted[]): QuoteInput["parts"][number][] {
  const shelf = shelfOf(ctx.shop?.value, ctx.library);
  return [...fittedParts(doc), ...more].map(({ part, quantity, refs }) => {
    const bare = refs.some((ref) => /^R\d/i.test(ref)) ? ("resistance" as const) : undefined;
    return defined<QuoteInput["parts"][number]>({ part, quantity, price: shelf.find(part, bare)?.price });
  });
}

/** How often each thing was done. */
export function actionsDone(doc: LogDocument): Map<Action, number> {
  const actions = new Map<Action, number>();
  const add = (action: Action, count: number) => actions.set(action, (actions.get(action) ?? 0) + count);
  for (const { kind, action, refs, note } of workRows(doc)) {
    if (kind !== "work" || !action) continue;
    add(action, Math.max(1, refs.length));
    if (action !== "socket" && /\bsocketed\b/i.test(note?.text ?? ""))
      add("socket", Math.max(1, refs.length));
  }
  return actions;
}

/** One line a day, in the order of the days. */
export function hoursByDay(lines: readonly HoursLine[]): NonNullable<QuoteInput["hours"]> {
  const days = new Map<string, { hours: Decimal; what: string[] }>();
  for (const { day, hours, what } of lines) {
    const one = days.get(day) ?? { hours: parseDecimal("0") as Decimal, what: [] };
    days.set(day, one);
    one.hours = add(one.hours, parseDecimal(hours) as Decimal);
    if (what !== undefined) one.what.push(what);
  }
  return [...days]
    .sort(([a], [b]) => a.localeCompare(b))
    .map(([day, { hours, what }]) => ({ what: [day, what.join("; ")].filter(Boolean).join(": "), hours }));
}

/** All hours noted, as decimal text. */
export const hoursNoted = (doc: LogDocument): string =>
  decimalText(sum(hoursIn(doc).lines.map(({ hours }) => parseDecimal(hours) as Decimal)));

/** True where `a` is more than `b`, whatever the digits behind the point. */
export function exceeds(a: Decimal, b: Decimal): boolean {
  const scale = Math.max(a.scale, b.scale);
  return a.digits * 10n ** BigInt(scale - a.scale) > b.digits * 10n ** BigInt(scale - b.scale);
}

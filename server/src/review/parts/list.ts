// The parts list of one job: what should be fitted and what was, with what the shelf has of it and what it costs.

import { defined } from "../../base/defined";
import { minorDigits } from "../../compute/money/currency";
import { decimalText, parseDecimal, round, times, whole } from "../../compute/money/decimal";
import { boardTitle } from "../../judge/context";
import { partTestPoint } from "../../judge/test-point";
import { normalPart } from "../../knowledge/part-number";
import type { StockItem } from "../../knowledge/types";
import { hoursIn } from "../../log/hours";
import { workRows } from "../../log/timeline";
import type { Action } from "../../log/timeline/actions";
import { actionsDone, hoursByDay } from "../money/cost";
import { type Quote, quoteOf } from "../money/quote";
import { type Consumable, consumablesFor } from "./consumables";
import { type Fitted, fittedParts } from "./fitted";
import { passiveOf, standardText } from "./passive";
import { plannedParts } from "./planned";
import { type StockShelf, shelfOf } from "./shelf";
import { socketPins } from "./sockets";
import { type OtherPart, substitutesFor } from "./substitutes";
import { type PartsSource, suggestions } from "./suggest";

/**
 * - `suggested`: a reading or the diagnosis gives reason to renew it
 * - `planned`: the log itself says that it is to be fitted, or a modification it names takes it
 * - `fitted`: it is in
 */
export type PartState = "suggested" | "planned" | "fitted";

/** One part number of a job's list, for all places that take it. */
export interface PartLine {
  readonly kind: "part" | "socket";
  readonly state: PartState;
  readonly part: string;
  readonly refs: readonly string[];
  readonly quantity: number;
  readonly package?: string;
  /** Why it is on the list, place by place. */
  readonly why: readonly string[];
  /** What is known of a socket under a chip. */
  readonly socket?: string;
  /** For a passive part: the nearest value that is made and the ratings to look for. */
  readonly standard?: string;
  readonly substitutes: readonly OtherPart[];
  /** The entry of the shop's stock that serves, and how many of it there were for this line. */
  readonly stock?: { readonly part: string; readonly quantity: number; readonly location?: string };
  /** Pieces that are not on the shelf; 0 for what is fitted already. */
  readonly order: number;
  /** Of one piece and of all, in the shop's currency, as decimal text. */
  readonly price?: string;
  readonly total?: string;
}

/** What a job takes and has taken. What is fitted is no longer suggested. */
export interface PartsList {
  readonly job?: string;
  readonly board?: string;
  readonly currency?: string;
  /** What is still to be fitted, suggested or planned. */
  readonly suggested: readonly PartLine[];
  readonly fitted: readonly PartLine[];
  readonly consumables: readonly Consumable[];
  /** Only where the shop file asks for it. */
  readonly quote?: Quote;
}

/**
 * @param shelf shared by several jobs where they compete for the same stock; else this job has it alone
 */
export function partsList(source: PartsSource, shelf?: StockShelf): PartsList {
  const { doc, ctx, front } = source;
  const shop = ctx.shop?.value;
  const from = shelf ?? shelfOf(shop, ctx.library);
  const suggested = suggestedLines(source, from);
  const fitted = fittedParts(doc).map((line) => fittedLine(line, source, from));
  const actions = actionsOf(source, suggested);
  const packages = [...suggested, ...fitted].flatMap((line) => line.package ?? []);
  const { lines } = hoursIn(doc);
  const quote =
    shop &&
    quoteOf(
      defined({
        shop,
        actions,
        parts: [...fitted, ...suggested],
        hours: lines.length > 0 ? hoursByDay(lines) : undefined,
      }),
    );
  return defined({
    job: front.job,
    board: ctx.board ? boardTitle(ctx, front) : undefined,
    currency: shop?.currency === undefined ? undefined : shop.currency,
    suggested,
    fitted,
    consumables: consumablesFor(doc, actions, packages, from),
    quote,
  });
}

interface Wanted {
  readonly part: string;
  readonly refs: string[];
  readonly why: string[];
  state: PartState;
  /** Pieces; at least one for each place. */
  quantity: number;
}

function suggestedLines(source: PartsSource, shelf: StockShelf): PartLine[] {
  const { ctx } = source;
  const parts = new Map<string, Wanted>();
  const sockets = new Map<number, string[]>();
  const add = (part: string, state: PartState, refs: readonly string[], quantity: number, why: string) => {
    const key = normalPart(part);
    const line = parts.get(key) ?? { part, state, refs: [], why: [], quantity: 0 };
    const more = refs.filter((ref) => !line.refs.includes(ref));
    line.refs.push(...more);
    line.quantity += quantity - (refs.length - more.length);
    line.why.push([...refs, why].join(" "));
    if (state === "planned") line.state = state;
    parts.set(key, line);
  };
  const socketed = socketedRefs(source);
  const addSocket = (ref: string) => {
    const place = partTestPoint(ref, ctx.board?.value, ctx.library);
    const pins = socketPins(place);
    if (pins === undefined || socketed.has(ref.toUpperCase()) || !place.part?.device) return;
    const refs = sockets.get(pins) ?? [];
    if (!refs.includes(ref)) sockets.set(pins, [...refs, ref]);
  };
  const partAt = (ref: string): string | undefined => {
    const { device, part } = partTestPoint(ref, ctx.board?.value, ctx.library);
    return device?.kind === "passive" ? (part?.value ?? part?.device) : (part?.device ?? part?.value);
  };
  // What the log itself says is to be fitted goes before what is only likely.
  const planned = plannedParts(source);
  for (const { part, refs, quantity, why } of planned) {
    const places = refs.length === 0 ? [undefined] : refs;
    for (const ref of places) {
      const wanted = part ?? (ref === undefined ? undefined : partAt(ref));
      if (wanted === undefined) continue;
      add(wanted, "planned", ref === undefined ? [] : [ref], ref === undefined ? quantity : 1, why);
      if (ref !== undefined && !/\bsocket/i.test(wanted)) addSocket(ref);
    }
  }
  const isPlanned = new Set(planned.flatMap(({ refs }) => refs));
  for (const { ref, why } of suggestions(source)) {
    const part = isPlanned.has(ref.toUpperCase()) ? undefined : partAt(ref);
    if (part === undefined) continue;
    add(part, "suggested", [ref], 1, why);
    addSocket(ref);
  }
  return [
    ...[...parts.values()]
      .sort(byRef)
      .map((wanted) => line(/\bsocket/i.test(wanted.part) ? "socket" : "part", wanted, source, shelf)),
    ...[...sockets]
      .sort(([a], [b]) => a - b)
      .map(([pins, refs]) =>
        line(
          "socket",
          {
            part: `DIP-${pins} socket`,
            state: "suggested",
            refs,
            why: ["a socket for every replaced chip"],
            quantity: refs.length,
          },
          source,
          shelf,
        ),
      ),
  ];
}

/** What has no place comes last. */
const byRef = (a: Wanted, b: Wanted): number =>
  Number(a.refs.length === 0) - Number(b.refs.length === 0) ||
  (a.refs[0] ?? "").localeCompare(b.refs[0] ?? "", "en", { numeric: true });

function line(
  kind: PartLine["kind"],
  { part, state, refs, why, quantity }: Wanted,
  source: PartsSource,
  shelf: StockShelf,
): PartLine {
  const { ctx } = source;
  const item = shelf.find(part, bareOf(refs));
  const taken = item ? shelf.take(item, quantity) : 0;
  const place = partTestPoint(refs[0] ?? "", ctx.board?.value, ctx.library);
  const others = kind === "part" && place.part ? substitutesFor(place.part, ctx.library, shelf) : [];
  return {
    kind,
    state,
    part,
    refs,
    quantity,
    ...(kind === "part" ? aboutPart(part, refs, source) : {}),
    why,
    substitutes: others,
    ...(item ? stockOf(item, taken + shelf.left(item)) : {}),
    order: quantity - taken,
    ...priced(item, quantity, source),
  };
}

function fittedLine(fitted: Fitted, source: PartsSource, shelf: StockShelf): PartLine {
  const { part, refs, quantity } = fitted;
  const item = shelf.find(part, bareOf(refs));
  const socket = /\bsocket/i.test(part);
  const about: Pick<PartLine, "package"> = socket ? {} : aboutPart(part, refs, source);
  return defined({
    kind: socket ? "socket" : "part",
    state: "fitted",
    part,
    refs,
    quantity,
    package: about.package,
    why: [],
    ...(socket ? {} : socketOf(refs, source)),
    substitutes: [],
    ...(item ? stockOf(item, shelf.left(item)) : {}),
    order: 0,
    ...priced(item, quantity, source),
  });
}

const bareOf = (refs: readonly string[]) =>
  refs.some((ref) => /^R\d/i.test(ref)) ? "resistance" : undefined;

const stockOf = (item: StockItem, quantity: number): Pick<PartLine, "stock"> => ({
  stock: defined({ part: item.part, quantity, location: item.location }),
});

function aboutPart(
  part: string,
  refs: readonly string[],
  { ctx }: PartsSource,
): Pick<PartLine, "package" | "standard"> {
  const place = partTestPoint(refs[0] ?? "", ctx.board?.value, ctx.library);
  const name =
    place.part?.package ?? place.device?.package.name ?? ctx.library.device(part)?.device.package.name;
  const passive = place.device && place.device.kind !== "passive" ? undefined : passiveOf(part, bareOf(refs));
  const standard = passive && standardText(passive);
  return defined({
    package: name,
    standard,
  });
}

function priced(
  item: StockItem | undefined,
  quantity: number,
  { ctx }: PartsSource,
): Pick<PartLine, "price" | "total"> {
  const price = item?.price === undefined ? undefined : parseDecimal(item.price);
  if (!price || item?.price === undefined) return {};
  const shop = ctx.shop?.value;
  const places = minorDigits(shop?.currency);
  const total = round(times(price, whole(quantity)), places, shop?.quote?.rounding ?? "half-away-from-zero");
  return { price: item.price, total: decimalText(total) };
}

/** Places of which the log says that a socket stands there. */
function socketedRefs({ doc, ctx }: PartsSource): Set<string> {
  const refs = new Set<string>();
  for (const { ref, socketed } of ctx.board?.value.parts.values() ?? [])
    if (socketed) refs.add(ref.toUpperCase());
  for (const row of workRows(doc)) {
    const words = [row.actionText, row.part, row.note].map((cell) => cell?.text ?? "").join(" ");
    if (/\bsocket/i.test(words) && !/\bsocket\s+(?:off|removed)|\b(?:no|without) (?:a )?socket/i.test(words))
      for (const ref of row.refs) refs.add(ref);
    else if (/\bsocket\s+(?:off|removed)/i.test(words)) for (const ref of row.refs) refs.delete(ref);
  }
  return refs;
}

function socketOf(refs: readonly string[], source: PartsSource): { socket?: string } {
  const { ctx } = source;
  const chips = refs.filter((ref) => {
    const place = partTestPoint(ref, ctx.board?.value, ctx.library);
    return place.part?.device !== undefined && socketPins(place) !== undefined;
  });
  if (chips.length === 0) return {};
  const known = socketedRefs(source);
  const bare = chips.filter((ref) => !known.has(ref));
  return { socket: bare.length === 0 ? "socketed" : `no socket noted at ${bare.join(", ")}` };
}

/** How often each thing was done, with what the suggested parts will take. */
function actionsOf(source: PartsSource, suggested: readonly PartLine[]): Map<Action, number> {
  const actions = actionsDone(source.doc);
  const add = (action: Action, count: number) => actions.set(action, (actions.get(action) ?? 0) + count);
  for (const { kind, quantity } of suggested) add(kind === "socket" ? "socket" : "replace", quantity);
  return actions;
}

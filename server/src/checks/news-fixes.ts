// The fixes that add to the board file one thing that a log tells of its board.

import type { LogContext } from "../judge/context";
import type { BoardChange, DraftPart } from "../knowledge/board-file";
import { boardIndex } from "../knowledge/board-index";
import { draftBoard, logLineSource } from "../review/board-draft";
import { boardOfFile, saidParts } from "../review/said-parts";
import { allOfLogFix, boardFileFix } from "./board-fixes";
import { type Fix, type FixInput, type OfferFixes, toBeChosen } from "./check";

/** What the finding's fix adds; plain data. */
export type News =
  | { readonly kind: "part"; readonly ref: string; readonly what: string; readonly device?: string }
  | { readonly kind: "rail"; readonly name: string }
  | {
      readonly kind: "net";
      readonly name: string;
      readonly pins: readonly string[];
      readonly isNew: boolean;
    };

export type NewsOf<K extends News["kind"]> = Extract<News, { kind: K }>;

type Log = NonNullable<FixInput["log"]>;

/** What a fix of one kind of news is made from; `at` is where the finding begins. */
interface Told<K extends News["kind"]> {
  readonly news: NewsOf<K>;
  readonly at: number;
  readonly log: Log;
  readonly ctx: LogContext;
}

const ofNews = <K extends News["kind"]>(kind: K, offer: (told: Told<K>) => Fix[]): OfferFixes =>
  toBeChosen(({ data, span }, { ctx, log }) => {
    const news = data as News;
    return ctx && log && isOf(news, kind) ? offer({ news, at: span.start, log, ctx }) : [];
  });

const isOf = <K extends News["kind"]>(news: News, kind: K): news is NewsOf<K> => news.kind === kind;

export const NEWS_FIXES = {
  addPart: ofNews("part", ({ news: { ref, what, device }, at, log, ctx }) => {
    const entry: DraftPart = {
      ref,
      ...(device === undefined ? { value: what } : { device }),
      from: logLineSource(log, at),
    };
    return boardFileFix(`Add ${ref} (${what}) to the board file`, [{ kind: "part", entry }], ctx);
  }),
  addRail: ofNews("rail", ({ news: { name }, log, ctx }) => {
    const { rails } = draftBoard({ logs: [log], library: ctx.library, base: boardOfFile(ctx) });
    // What is a guess of a draft's is none where a person asks for it.
    const [entry] = rails.flatMap(({ guess: _, ...rail }) => (rail.name === name ? [rail] : []));
    return entry ? boardFileFix(`Add rail ${name} to the board file`, [{ kind: "rail", entry }], ctx) : [];
  }),
  addNet: ofNews("net", (told) => {
    const { name, pins, isNew } = told.news;
    return isNew ? netFix(`Add the net ${name} (${pins.join(", ")}) to the board file`, told) : [];
  }),
  addPinToNet: ofNews("net", (told) => {
    const { name, pins, isNew } = told.news;
    return isNew ? [] : netFix(`Add ${pins[0]} to net ${name} in the board file`, told);
  }),
  addAllOfLog: toBeChosen((_, input) => allOfLogFix(input)),
} as const satisfies Readonly<Record<string, OfferFixes>>;

function netFix(title: string, { news: { name, pins }, at, log, ctx }: Told<"net">): Fix[] {
  const parts = pins.flatMap((pin) => partOf(pin.slice(0, pin.indexOf(".")), log, ctx));
  const entry = { name, pins, from: logLineSource(log, at) };
  return boardFileFix(title, [...parts, { kind: "net", entry }], ctx);
}

/** The part that a pin is of, where the file lacks it and the log tells its number: a net would bring its bare name only. */
function partOf(ref: string, log: Log, ctx: LogContext): BoardChange[] {
  const file = boardOfFile(ctx);
  const said = saidParts(log.doc).get(ref.toUpperCase())?.first;
  if (!said?.device || (file && boardIndex(file).part(ref))) return [];
  const from = logLineSource(log, said.span.start);
  return [{ kind: "part", entry: { ref, device: said.device, from } }];
}

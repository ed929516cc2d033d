import type { Verdict } from "../../compute/verdict";
import { type Judgement, judgeBlock } from "../../judge";
import type { LocatedBlock, LogTable, Reading } from "../../log/model";
import { VERDICTS } from "../../pictures/marks";
import { shift } from "../../text/span";
import type { LogView } from "../view";
import type { Lens, LensTitle } from "./types";

/** Above the heading of a table of readings; where several stand under one heading, above each. */
export function readingLenses(view: LogView): Lens[] {
  return view.doc.blocks.flatMap((placed) => counted(placed).map(({ at }) => lensAt(placed, at)));
}

const lensAt = ({ start }: LocatedBlock, at: LogTable["span"]): Lens => ({
  span: shift(at, start),
  of: "readings",
});

/** Tables with something to count, each with what its lens stands above. */
function counted({ block }: LocatedBlock): { readonly table: LogTable; readonly at: LogTable["span"] }[] {
  const tables = block.tables.filter((table) => table.readings.some(isCounted));
  return tables.map((table) => {
    const { heading } = table.section;
    const alone = tables.every((other) => other === table || other.section !== table.section);
    return { table, at: heading && alone ? heading.span : table.span };
  });
}

/** Names of files and of sums are neither in nor out of limits. */
const isCounted = ({ value }: Reading): boolean => value.kind !== "empty" && value.kind !== "text";

export function readingTitle(view: LogView, lens: Lens): LensTitle | undefined {
  for (const placed of view.doc.blocks) {
    const found = counted(placed).find(({ at }) => at.start + placed.start === lens.span.start);
    if (found) return titleOf(view, placed, found.table);
  }
  return undefined;
}

const SAID: Readonly<Partial<Record<Verdict, string>>> = {
  impossible: "impossible",
  "out-of-limits": "out of limits",
  suspect: "suspect",
  "within-limits": "within limits",
};
const ACCUSED: ReadonlySet<Verdict> = new Set(["impossible", "out-of-limits", "suspect"]);

function titleOf(view: LogView, { start, block }: LocatedBlock, table: LogTable): LensTitle {
  const judged = judgeBlock(block, view.ctx);
  const taken = table.readings.filter(isCounted);
  const of = (verdict: Verdict) => taken.filter((reading) => judged.get(reading)?.verdict === verdict);
  const verdicts = VERDICTS.flatMap((verdict) => {
    const said = SAID[verdict];
    const { length } = of(verdict);
    return said === undefined || length === 0 ? [] : [`${length} ${said}`];
  });
  const open = taken.filter((reading) => isOpen(judged.get(reading)));
  const words = verdicts.length === 0 ? wordsOf(open) : open.length > 0 ? [`${open.length} not judged`] : [];
  // A row begun and left blank waits for nothing.
  const empty = table.readings.filter((reading) => !isCounted(reading) && isNamed(table, reading)).length;
  const said = [...verdicts, ...words];
  const counts = said.length > 0 ? `: ${said.join(", ")}` : isQuantity(table) ? ", none judged" : "";
  const title = `${many(taken)}${counts}${empty > 0 ? `; ${empty} not measured` : ""}`;
  const shows = VERDICTS.filter((verdict) => ACCUSED.has(verdict))
    .flatMap(of)
    .map(({ cell }) => ({ uri: view.doc.uri, span: shift(cell.span, start) }));
  return shows.length > 0 ? { title, shows } : { title };
}

/** True where anything at all stands in the reading's row. */
const isNamed = ({ source }: LogTable, { cell }: Reading): boolean =>
  source.rows.some(({ cells }) => cells.includes(cell) && cells.some(({ text }) => text.trim() !== ""));

/** States and results are judged together, by what they contradict: one by one they are neither in nor out. */
const isQuantity = ({ readings }: LogTable): boolean => readings.some(({ spec }) => spec.role === "reading");

const isOpen = (judgement: Judgement | undefined): boolean =>
  SAID[judgement?.verdict ?? "unjudged"] === undefined;

function many(readings: readonly Reading[]): string {
  const role = readings[0]?.spec.role;
  const noun = role === "result" ? "result" : role === "state" ? "state" : "reading";
  return `${readings.length} ${noun}${readings.length === 1 ? "" : "s"}`;
}

/** More different words than these say nothing any more. */
const MOST_WORDS = 4;

/** Results and states that nothing judges, counted by the word that was typed: "48 ok, 16 dead". */
function wordsOf(readings: readonly Reading[]): string[] {
  const counted = new Map<string, number>();
  for (const { value } of readings) {
    const word = value.kind === "result" ? value.word : value.kind === "state" ? value.state : undefined;
    if (word === undefined) return [];
    counted.set(word.toLowerCase(), (counted.get(word.toLowerCase()) ?? 0) + 1);
  }
  if (counted.size > MOST_WORDS) return [];
  return [...counted].sort(([, a], [, b]) => b - a).map(([word, count]) => `${count} ${word}`);
}

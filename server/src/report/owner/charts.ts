// Which readings are drawn: what was outside its limits, before and after, and the supplies as they were last.
import { defined } from "../../base/defined";
import { type Judgement, judgeBlock } from "../../judge";
import { tablesOf } from "../../log/document";
import type { Reading } from "../../log/model";
import { isSinceRepair, timelineOf } from "../../log/timeline";
import { endsOf, limitsText, measureWords, readingText } from "./limits";
import type { ChartMark, ReadingChart, ReportSource } from "./model";
import { lowerFirst } from "./places";

/** A report is read by an owner, not by an archive: the worst come first, and what is left out is in the log. */
export const MOST_CHARTS = 24;

interface Taken {
  readonly judgement: Judgement;
  readonly since: boolean;
}

/** The first reading of a place before the repair beside the last one after it. */
export function chartsIn(source: ReportSource): readonly ReadingChart[] {
  const byPlace = new Map<string, Taken[]>();
  const timeline = timelineOf(source.doc);
  const repaired = timeline.repairs > 0;
  for (const { block, table } of tablesOf(source.doc)) {
    const since = repaired && isSinceRepair(timeline, table);
    for (const reading of table.readings) {
      const judgement = judgeBlock(block, source.ctx).get(reading);
      if (!judgement?.reference || reading.spec.role !== "reading") continue;
      const key = placeKey(reading);
      byPlace.set(key, [...(byPlace.get(key) ?? []), { judgement, since }]);
    }
  }
  const charts: { chart: ReadingChart; rank: number }[] = [];
  for (const taken of byPlace.values()) {
    const worst = Math.min(...taken.map(({ judgement }) => rankOf(judgement)));
    const first = taken.find(({ since, judgement }) => !since && isDrawn(judgement.reading));
    const last = taken.findLast(({ since, judgement }) => since && isDrawn(judgement.reading));
    const shown = (last ?? first)?.judgement;
    if (!shown || (worst > 0 && !isSupply(shown.reading))) continue;
    const chart = chartOf(shown, repaired, first?.judgement, last?.judgement);
    if (chart) charts.push({ chart, rank: worst });
  }
  // Sorting is stable: among equals the order of the log stays.
  return charts
    .sort((a, b) => a.rank - b.rank)
    .slice(0, MOST_CHARTS)
    .map(({ chart }) => chart);
}

const rankOf = ({ verdict }: Judgement): number => (verdict === "out-of-limits" ? 0 : 1);

const isSupply = ({ table, measure }: Reading): boolean =>
  table.kind.judgedBy === "supply" && measure === "dc" && table.section.qualifiers.load !== "unloaded";

const isDrawn = ({ value }: Reading): boolean =>
  value.kind === "quantity" || value.kind === "open" || value.kind === "short";

function placeKey({ subject, table, measure }: Reading): string {
  const { ref, pin, rail, signal, item } = subject;
  const at = [ref, pin, rail, signal, ref ? undefined : item].map((cell) => cell?.text.toUpperCase() ?? "");
  return [table.procedure.id, measure, table.section.qualifiers.load ?? "", ...at].join("\n");
}

function chartOf(
  shown: Judgement,
  repaired: boolean,
  before?: Judgement,
  after?: Judgement,
): ReadingChart | undefined {
  const { reference, reading } = shown;
  const limits = limitsText(shown);
  if (!reference || limits === undefined) return undefined;
  const { low, high, source } = reference;
  const ends = endsOf(shown);
  return defined({
    title: `${placeText(reading)}, ${lowerFirst(reading.table.procedure.title)}`,
    before: before ? markOf(before, repaired ? "before the repair" : "reading") : undefined,
    after: after ? markOf(after, "after the repair") : undefined,
    low,
    high,
    limits,
    ends,
    source,
  });
}

function markOf({ reading, verdict }: Judgement, label: ChartMark["label"]): ChartMark {
  const { value } = reading;
  const at = value.kind === "quantity" ? value.quantity.value : value.kind === "short" ? 0 : undefined;
  return defined({
    label,
    text: readingText(reading),
    value: at,
    inside: verdict !== "out-of-limits" && verdict !== "impossible",
  });
}

function placeText(reading: Reading): string {
  const { subject, table } = reading;
  const { ref, pin, rail, signal, item } = subject;
  const place = ref ? `${ref.text}${pin ? ` pin ${pin.text}` : ""}` : undefined;
  return `${rail?.text ?? place ?? signal?.text ?? item?.text ?? table.procedure.title} ${measureWords(reading)}`.trim();
}

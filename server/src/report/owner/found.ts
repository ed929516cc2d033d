// What was found, in plain words: readings outside their limits, what did not work, what the eye saw.
import { defined } from "../../base/defined";
import { type Judgement, judgeBlock } from "../../judge";
import { mistakenIn } from "../../judge/together";
import { tablesOf } from "../../log/document";
import type { LogTable, Reading } from "../../log/model";
import { matrixReviews } from "../../review/matrix/log-review";
import { limitsOf, measureWords, readingText } from "./limits";
import type { FoundItem, ReportSource } from "./model";
import { lowerFirst, partWords, replacedRefs } from "./places";

/** In the order of the log; several observations of one place stand together. */
export function foundIn(source: ReportSource): readonly FoundItem[] {
  const replaced = replacedRefs(source);
  const found = new Map<string, { where: string; said: string[]; outcome?: string }>();
  const add = (key: string, where: string, said: string): void => {
    const item =
      found.get(key) ??
      defined({
        where,
        said: [],
        outcome: replaced.has(key) ? "replaced" : undefined,
      });
    found.set(key, item);
    if (!item.said.includes(said)) item.said.push(said);
  };
  let matricesSaid = false;
  for (const { block, table } of tablesOf(source.doc)) {
    // What a matrix shows is said of its lines, not of each crossing.
    if (table.kind.matrix) {
      if (!matricesSaid) for (const [where, said] of matrixFaults(source)) add(where, where, said);
      matricesSaid = true;
      continue;
    }
    if (table.kind.holds === "proving") continue;
    const judgements = judgeBlock(block, source.ctx);
    const mistaken = mistakenIn(block, source.ctx);
    for (const reading of table.readings) {
      if (mistaken.has(reading)) continue;
      const said = observation(reading, judgements.get(reading), table);
      if (said === undefined) continue;
      const { ref, rail, item, signal } = reading.subject;
      if (ref) add(ref.text.toUpperCase(), partWords(ref.text, source), said);
      else {
        const where = rail?.text ?? item?.text ?? signal?.text ?? table.procedure.title;
        const isPart = /^[A-Z]{1,4}\d{1,4}$/i.test(where);
        add(where.toUpperCase(), isPart ? partWords(where, source) : where, said);
      }
    }
  }
  return alikeTogether([...found.values()]);
}

/** Neighbours of which the same was said, one item: six dark digits are one thing to read. */
function alikeTogether(items: readonly FoundItem[]): readonly FoundItem[] {
  const together: FoundItem[] = [];
  for (const item of items) {
    const before = together.at(-1);
    const alike = before?.outcome === item.outcome && before?.said.join("\n") === item.said.join("\n");
    if (before && alike)
      together[together.length - 1] = { ...before, where: `${before.where}, ${item.where}` };
    else together.push(item);
  }
  return together;
}

/** Undefined for what is within limits, without limits, or only doubtful. */
function observation(
  reading: Reading,
  judgement: Judgement | undefined,
  table: LogTable,
): string | undefined {
  const { value, spec, subject } = reading;
  const test = lowerFirst(table.procedure.title);
  const after = table.section.qualifiers.repair === "after" ? ", after the repair" : "";
  const note = subject.note ? ` (${subject.note.text})` : "";
  if (spec.role === "result") {
    if (value.kind === "result" && value.ok === true) return undefined;
    if (value.kind === "empty" || value.kind === "text") return undefined;
    return `${test}${after}: ${value.typed}${note}`;
  }
  if (judgement?.verdict !== "out-of-limits" || spec.role !== "reading") return undefined;
  const pin = subject.pin ? `pin ${subject.pin.text} ` : "";
  const what = measureWords(reading);
  const limits = limitsOf(judgement);
  return `${test}${after}: ${pin}${what}reads ${readingText(reading)}${limits === undefined ? ", outside its limits" : `, outside ${limits}`}${note}`;
}

/** Rows, columns and crossings that did not answer, from before a repair that cured them too. */
function matrixFaults({ doc, ctx }: ReportSource): readonly (readonly [where: string, said: string])[] {
  const board = ctx.board?.value;
  if (!board) return [];
  return matrixReviews(doc, board).flatMap(({ log, review }) => {
    const { dead, stuck, shorts } = review;
    const faults = [
      ...(dead.nothingAnswers === undefined
        ? [...dead.lines.filter(({ needed }) => needed), ...dead.cells].map(({ sentence }) => sentence)
        : [dead.nothingAnswers]),
      ...[...stuck.lines, ...stuck.cells, ...shorts].map(({ sentence }) => sentence),
    ];
    return faults.map((said) => [log.matrix.title, said] as const);
  });
}

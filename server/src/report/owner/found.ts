// What was found, in plain words: readings outside their limits, what did not work, what the eye saw.

import { defined } from "../../base/defined";
import { crossingKey, shapeOf } from "../../compute/matrix/shape";
import { type Judgement, judgeBlock } from "../../judge";
import { mistakenIn } from "../../judge/together";
import { tablesOf } from "../../log/document";
import type { LogTable, Reading } from "../../log/model";
import { swapOutcome } from "../../log/timeline/swaps";
import { observationsOf } from "../../review/diagnosis/readings";
import { crossingOf, type MatrixLog, matrixOfTable } from "../../review/matrix/from-log";
import { matrixReviews } from "../../review/matrix/log-review";
import { itemNamed } from "../../review/proving/item-named";
import { inWords } from "../../text/saying";
import type { Span } from "../../text/span";
import { limitsText, measureWords, readingText } from "./limits";
import type { FoundItem, ReportSource } from "./model";
import { lowerFirst, partDescription, replacedRefs } from "./places";

/** In the order of the log; several observations of one place stand together. */
export function foundIn(source: ReportSource): readonly FoundItem[] {
  const replaced = replacedRefs(source);
  const proving = source.ctx.board?.value.proving ?? [];
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
      for (const [where, said] of besideMatrix(table, source)) add(where.toUpperCase(), where, said);
      continue;
    }
    const judgements = judgeBlock(block, source.ctx);
    const mistaken = mistakenIn(block, source.ctx);
    const spoken = new Set<number>();
    for (const reading of table.readings) {
      if (mistaken.has(reading)) continue;
      const said = observation(reading, judgements.get(reading), table);
      if (said === undefined) continue;
      spoken.add(reading.row);
      const { ref, rail, item, signal } = reading.subject;
      if (ref) add(ref.text.toUpperCase(), partDescription(ref.text, source), said);
      else {
        const proved = table.kind.holds === "proving" ? itemNamed(item?.text ?? "", proving) : undefined;
        const where = proved?.title ?? rail?.text ?? item?.text ?? signal?.text ?? table.procedure.title;
        const isPart = /^[A-Z]{1,4}\d{1,4}$/i.test(where);
        add(where.toUpperCase(), isPart ? partDescription(where, source) : where, said);
      }
    }
    if (table.kind.holds !== "memory" && table.kind.holds !== "images") continue;
    for (const { finding, span } of observationsOf(block, source.ctx)) {
      const row = rowAt(table, span);
      if (finding?.kind !== "sign" || row === undefined || spoken.has(row)) continue;
      const of = finding.ref ?? finding.refs?.[0] ?? finding.of;
      const where = finding.ref === undefined ? of : partDescription(finding.ref, source);
      add(of.toUpperCase(), where, `${lowerFirst(table.procedure.title)}: ${lowerFirst(finding.says)}`);
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
    if (value.kind === "empty" || (!isSwap(table) && value.kind === "result" && value.ok === true))
      return undefined;
    // What another part in its place changed speaks of the board's own; no change is nothing that was found.
    if (isSwap(table) && swapOutcome(value.typed) === "same") return undefined;
    return `${test}${after}: ${value.typed}${note}`;
  }
  if (judgement?.verdict !== "out-of-limits" || spec.role !== "reading") return undefined;
  const pin = subject.pin ? `pin ${subject.pin.text} ` : "";
  const what = measureWords(reading);
  const limits = limitsText(judgement);
  return `${test}${after}: ${pin}${what}reads ${readingText(reading)}${limits === undefined ? ", outside its limits" : `, outside ${limits}`}${note}`;
}

const isSwap = ({ kind }: LogTable): boolean => kind.holds === "swaps";

/** The row of the table that the span, of the block, lies in. */
const rowAt = (table: LogTable, { start }: Span): number | undefined =>
  table.readings.find(({ cell, subject }) =>
    [cell, ...Object.values(subject)].some(
      (one) => one && "span" in one && one.span.start <= start && start <= one.span.end,
    ),
  )?.row;

/** Crossings that did not answer, of a matrix that no board file describes or that has no such crossing. */
function besideMatrix(table: LogTable, { ctx }: ReportSource): readonly (readonly [string, string])[] {
  const matrix = ctx.board && matrixOfTable(table, ctx.board.value);
  const shape = matrix && shapeOf(matrix);
  return table.readings.flatMap((reading) => {
    const { value, subject } = reading;
    if (value.kind !== "result" || value.ok !== false) return [];
    if (shape && crossingOf(reading, shape)) return [];
    const { cell, row, column } = subject;
    const where = cell?.text ?? [row?.text, column?.text].filter(Boolean).join(", ");
    return [
      [where || table.procedure.title, `${lowerFirst(table.procedure.title)}: ${value.typed}`] as const,
    ];
  });
}

/** Rows, columns and crossings that did not answer, from before a repair that cured them too. */
function matrixFaults({ doc, ctx }: ReportSource): readonly (readonly [where: string, said: string])[] {
  const board = ctx.board?.value;
  if (!board) return [];
  return matrixReviews(doc, board).flatMap(({ log, review, phase }) => {
    const { dead, stuck, shorts } = review;
    const faults = [
      ...(dead.nothingAnswers === undefined
        ? [...dead.lines.filter(({ needed }) => needed), ...dead.cells].map(({ says }) => inWords(says))
        : [inWords(dead.nothingAnswers)]),
      ...[...stuck.lines, ...stuck.cells, ...shorts].map(({ says }) => inWords(says)),
    ];
    return [...faults, ...comeAndGo(log, phase)].map((said) => [log.matrix.title, said] as const);
  });
}

/** Crossings that did not answer and did when they were tried again, with nothing done between. */
function comeAndGo({ tables }: MatrixLog, wanted: number): readonly string[] {
  const seen = new Map<number, { where: string; dead: boolean; answers: boolean }>();
  for (const { phase, entries } of tables) {
    if (phase !== wanted) continue;
    for (const entry of entries) {
      const { value, subject } = entry.reading;
      if (!("recorded" in entry) || value.kind !== "result") continue;
      const { row, column } = entry.recorded;
      const where = subject.cell?.text ?? `row ${row}, column ${column}`;
      const one = seen.get(crossingKey({ row, column })) ?? { where, dead: false, answers: false };
      seen.set(crossingKey({ row, column }), one);
      if (value.ok === false) one.dead = true;
      if (value.ok === true) one.answers = true;
    }
  }
  return [...seen.values()].flatMap(({ where, dead, answers }) =>
    dead && answers ? [`${where} answered only some of the times it was tried.`] : [],
  );
}

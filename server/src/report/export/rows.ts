// One job as rows of the export's tables: a log about one board, or what a log about several says of one of them.
import type { Finding } from "../../checks/check";
import { twoSidedFactor } from "../../compute/measurement/tolerance-interval";
import { judgeBlock } from "../../judge";
import { placesOf, placeWords } from "../../judge/baseline/places";
import { CONFIDENCE, COVERAGE, FEWEST_BOARDS } from "../../judge/baseline/types";
import type { LogContext } from "../../judge/context";
import type { Judgement } from "../../judge/types";
import type { Library } from "../../knowledge/library";
import type { FrontMatter } from "../../knowledge/load-front-matter";
import type { Board } from "../../knowledge/types";
import type { LogDocument } from "../../log/document";
import type { LogTable, Reading } from "../../log/model";
import type { LogSummary } from "../../log/summary";
import { momentIn, timelineOf, type WorkRow } from "../../log/timeline";
import type { CellValue } from "../../quantity/cell-value";
import { dayNumber } from "../../review/numbers/order";
import { plainNumber } from "../../review/numbers/replaced";
import { lineIndex } from "../../text/line-index";
import type { ExportRow, Rows } from "./schema";

export interface ExportedLog {
  /** With the sections of the board only, where the log is about several. */
  readonly doc: LogDocument;
  readonly front: Partial<FrontMatter>;
  readonly ctx: LogContext;
  readonly summary: LogSummary;
  readonly findings: readonly Finding[];
  /** What is known of its board by its file and all logs, by which places are named. */
  readonly board: Board | undefined;
  readonly library: Library;
  readonly shop: string;
  /** Number of the row of `jobs`, from 1. */
  readonly log: number;
  /** That of the first row of the same log. */
  readonly of: number;
  readonly unit: number;
  /** As it is shown to people. */
  readonly file: string;
}

/** Every row of one job. What may say who the owner is is in them: which columns go out is for the writer. */
export function exportRows(source: ExportedLog): Omit<Rows, "factors"> {
  const { doc, shop, log: log_no, summary, board, library } = source;
  const lines = lineIndex(doc.text);
  const lineAt = (offset: number): number => lines.positionAt(offset).line + 1;
  const { readings, verdicts } = readingRows(source, lineAt);
  return {
    jobs: [jobRow(source)],
    symptoms: [...new Set(summary.symptoms)].map((symptom) => ({ shop, log_no, symptom })),
    readings,
    verdicts,
    work: timelineOf(doc)
      .rows.filter(({ kind }) => kind === "work")
      .flatMap((row, at) => workRows(source, row, at + 1)),
    parts: summary.fitted.map(({ ref, part }) => ({
      shop,
      log_no,
      ref: ref?.toUpperCase() ?? null,
      part: plainNumber(part),
    })),
    findings: source.findings.map(({ code, severity, span, message }) => ({
      shop,
      log_no,
      code,
      severity,
      line: lineAt(span.start),
      message,
    })),
    places: board ? placeRows(source, placesOf(summary, board, library)) : [],
  };
}

function jobRow({
  shop,
  log: log_no,
  of: file_no,
  unit,
  file,
  front,
  summary,
}: ExportedLog): ExportRow<"jobs"> {
  const { received, returned, contact } = front;
  const reached = [contact?.phone, contact?.email, contact?.note].filter((each) => each !== undefined);
  return {
    shop,
    log_no,
    file_no,
    unit,
    file,
    job: summary.job ?? null,
    board: summary.board ?? null,
    revision: summary.revision ?? null,
    stage: summary.stage ?? null,
    received: received ?? null,
    returned: returned ?? null,
    received_day: received === undefined ? null : dayNumber(received),
    returned_day: returned === undefined ? null : dayNumber(returned),
    comeback_of: summary.comebackOf ?? null,
    meter: summary.meter ?? null,
    reference: summary.reference ?? false,
    hours: summary.hours ?? null,
    title: summary.title ?? null,
    serial: summary.serial ?? null,
    owner: summary.owner ?? null,
    contact: reached.length > 0 ? reached.join(", ") : null,
    return_address: front.returnAddress ?? null,
    complaint: front.complaint ?? null,
  };
}

function readingRows(
  { doc, ctx, shop, log: log_no }: ExportedLog,
  lineAt: (offset: number) => number,
): { readonly readings: ExportRow<"readings">[]; readonly verdicts: ExportRow<"verdicts">[] } {
  const timeline = timelineOf(doc);
  const readings: ExportRow<"readings">[] = [];
  const verdicts: ExportRow<"verdicts">[] = [];
  for (const { start, block } of doc.blocks) {
    const judged = judgeBlock(block, ctx);
    for (const table of block.tables) {
      const { repairs } = momentIn(timeline, table);
      for (const reading of table.readings) {
        if (reading.value.kind === "empty") continue;
        const number = readings.length + 1;
        readings.push({
          ...readingCells(reading, table),
          shop,
          log_no,
          reading: number,
          repairs: Math.floor(repairs),
          line: lineAt(start + reading.cell.span.start),
        });
        const judgement = judged.get(reading);
        if (judgement && judgement.verdict !== "not-measured")
          verdicts.push({ ...verdictCells(judgement), shop, log_no, reading: number });
      }
    }
  }
  return { readings, verdicts };
}

type Placed = "shop" | "log_no" | "reading";

function readingCells(
  { subject, measure, value, apart }: Reading,
  { procedure, section: { qualifiers } }: LogTable,
): Omit<ExportRow<"readings">, Placed | "repairs" | "line"> {
  return {
    procedure: procedure.id,
    measure,
    ref: subject.ref?.text ?? null,
    pin: subject.pin?.text ?? null,
    rail: subject.rail?.text ?? null,
    signal: subject.signal?.text ?? null,
    repair: qualifiers.repair ?? null,
    power: qualifiers.power ?? null,
    load: qualifiers.load ?? null,
    apart: apart !== undefined,
    ...NOTHING,
    ...valueCells(value),
    typed: value.typed,
  };
}

type ValueCells = Pick<
  ExportRow<"readings">,
  "kind" | "low" | "high" | "unit" | "resolution" | "ok" | "state"
>;

const NOTHING = { low: null, high: null, unit: null, resolution: null, ok: null, state: null };

function valueCells(value: CellValue): { readonly kind: ValueCells["kind"] } & Partial<ValueCells> {
  switch (value.kind) {
    case "quantity": {
      const { value: at, unit, resolution } = value.quantity;
      return { kind: value.approx ? "about" : "value", low: at, high: at, unit, resolution };
    }
    case "range":
      return {
        kind: "range",
        low: value.low.value,
        high: value.high.value,
        unit: value.high.unit,
        resolution: Math.max(value.low.resolution, value.high.resolution),
      };
    case "bound": {
      const { value: at, unit, resolution } = value.quantity;
      return value.op.startsWith(">")
        ? { kind: "over", low: at, unit, resolution }
        : { kind: "under", high: at, unit, resolution };
    }
    case "short":
      return { kind: "short", low: 0, high: 0 };
    case "state":
      return { kind: "state", state: value.state };
    case "result":
      return { kind: "result", ok: value.ok ?? null };
    default:
      return { kind: value.kind };
  }
}

function verdictCells({
  verdict,
  code,
  side,
  reference,
  uncertainty,
}: Judgement): Omit<ExportRow<"verdicts">, Placed> {
  return {
    verdict,
    code: code ?? null,
    side: side ?? null,
    reference: reference?.kind ?? null,
    low: finite(reference?.low),
    high: finite(reference?.high),
    unit: reference?.unit ?? null,
    boards: reference?.boards ?? null,
    uncertainty: finite(uncertainty),
  };
}

/** No table of numbers has an infinity: an end that is open is null. */
const finite = (value: number | undefined): number | null =>
  value !== undefined && Number.isFinite(value) ? value : null;

/** The same places as the summary has, so that the questions and the memory count alike. */
function workRows({ shop, log: log_no }: ExportedLog, row: WorkRow, work: number): ExportRow<"work">[] {
  const { ref, refs, action, state, replaced, part, repair, day, actionText, note } = row;
  const first = ref?.text.toUpperCase() ?? null;
  const also = first === null ? [] : refs.filter((each) => each !== first);
  return [first, ...also].map((each) => ({
    shop,
    log_no,
    work,
    ref: each,
    action: action ?? null,
    state,
    replaced,
    part: part ? plainNumber(part.text) : null,
    repair,
    done_on: day ?? null,
    action_text: actionText?.text ?? null,
    note: note?.text ?? null,
  }));
}

const placeRows = (
  { shop, log: log_no }: ExportedLog,
  places: ReturnType<typeof placesOf>,
): ExportRow<"places">[] =>
  [...places.values()].map(({ place, value, resolution, unit }) => ({
    shop,
    log_no,
    procedure: place.procedure,
    measure: place.measure,
    load: place.load ?? null,
    place: placeWords(place),
    read_value: finite(value),
    resolution,
    unit,
  }));

/** Limits of more boards than these take the last one's: from here on a factor falls by less than a thousandth a board. */
const MOST_FACTORS = 300;
let factors: readonly ExportRow<"factors">[] | undefined;

/** What does not hang on any log; worked out once, which takes a third of a second. */
export function factorRows(): readonly ExportRow<"factors">[] {
  factors ??= Array.from({ length: MOST_FACTORS - FEWEST_BOARDS + 1 }, (_, i) => i + FEWEST_BOARDS).flatMap(
    (boards) => {
      const factor = twoSidedFactor(boards, { coverage: COVERAGE, confidence: CONFIDENCE });
      return factor.ok ? [{ boards, factor: factor.value }] : [];
    },
  );
  return factors;
}

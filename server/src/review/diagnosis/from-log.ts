// A log and what is known around it, as the diagnosis takes it: the latest word on every place, and nothing that a
// replacement has made history.

import { defined } from "../../base/defined";
import { memo } from "../../base/memo";
import { finish, type Steps } from "../../base/steps";
import type { DiagnosisInput, Finding } from "../../compute/diagnosis/types";
import { hasBoardFile, type LogContext } from "../../judge/context";
import { boardIndex } from "../../knowledge/board-index";
import type { FrontMatter } from "../../knowledge/load-front-matter";
import type { Board, Device } from "../../knowledge/types";
import type { Apart } from "../../log/apart";
import type { LogDocument } from "../../log/document";
import { frontSpan } from "../../log/front";
import type { LogTable } from "../../log/model";
import type { LogSummary } from "../../log/summary";
import { momentIn, type Timeline, timelineOf } from "../../log/timeline";
import { latestOf } from "../../log/timeline/latest";
import { leftOff } from "../../log/timeline/left-off";
import { type Span, shift } from "../../text/span";
import { curesOf } from "./from-log-history";
import { matrixObservations } from "./from-log-matrix";
import { observationsOf } from "./from-log-readings";
import type { Placed } from "./observation";

export interface LogSource {
  readonly doc: LogDocument;
  readonly front: Partial<FrontMatter>;
  readonly ctx: LogContext;
  /** The other jobs that are remembered, by uri. */
  readonly earlier?: ReadonlyMap<string, LogSummary>;
}

/** Something found wrong, with where it stands. */
export interface LoggedFinding {
  readonly finding: Finding;
  /** Of the document. */
  readonly span: Span;
  /** Absent for what the front matter says. */
  readonly table?: LogTable;
}

/** What was found wrong before the part was replaced. */
export interface Waiting {
  readonly ref: string;
  /** In words. */
  readonly what: readonly string[];
  /** Ids of the board's symptoms among it; absent where there are none. */
  readonly symptoms?: readonly string[];
}

export interface FromLog {
  readonly input: DiagnosisInput;
  readonly findings: readonly LoggedFinding[];
  /** Found wrong before a part there was replaced and not read again since: counted no more, to be read again. */
  readonly waiting: readonly Waiting[];
  /** Supplies were read under power and none of them out of limits. */
  readonly powered: boolean;
  /** What the log says that a diagnosis cannot use, as sentences. */
  readonly problems: readonly string[];
}

/**
 * The input of `diagnose`; undefined without a board. A later reading of a place takes the place of those before the
 * repair between them; two of the same time both count, since nobody can tell which was the slip.
 */
export const fromLog = (source: LogSource): FromLog | undefined => finish(fromLogSteps(source));

/** The same in steps, one a block. */
export function* fromLogSteps({ doc, front, ctx, earlier }: LogSource): Steps<FromLog | undefined> {
  const board = ctx.board?.value;
  if (!board) return undefined;
  const timeline = timelineOf(doc);
  const { replaced } = timeline;
  const left = leftOff(doc);
  const offAt = (table: LogTable): readonly Apart[] => left.get(table) ?? [];
  const all: Placed[] = symptomsIn(doc, front, board);
  for (const { start, block } of doc.blocks) {
    yield;
    for (const one of observationsOf(block, ctx, offAt)) {
      all.push({ ...one, span: shift(one.span, start), phase: momentIn(timeline, one.table).order });
    }
  }
  all.push(...matrixObservations(doc, board, lookUp(ctx.library)));
  yield;
  const since = replacedSince(timeline, board);
  const waiting = new Map<string, Placed[]>();
  const cured = curedBy(all, timeline, board, front.stage);
  const latest = gatesOnce(
    latestOf(
      takenOnce(all),
      ({ key }) => key,
      ({ phase }) => phase,
    ),
  );
  const settled = new Set(
    latest.flatMap((one) => (!one.finding && one.net !== undefined && isLevel(one) ? [one.net] : [])),
  );
  const standing = latest.filter((one) => {
    const { finding, net } = one;
    const ref = since(one) ?? cured(one);
    if (ref !== undefined && finding) waiting.set(ref, [...(waiting.get(ref) ?? []), one]);
    if (ref !== undefined) return false;
    // One node cannot be at two levels: the one that fits was read there too.
    return !(finding && net !== undefined && isLevel(one) && settled.has(net));
  });
  const disproved = new Set(
    standing.flatMap(({ finding }) => (finding?.kind === "part" ? [finding.ref.toUpperCase()] : [])),
  );
  const year = Number((front.received ?? front.returned)?.slice(0, 4));
  const symptoms = (front.symptoms ?? []).filter((id) => board.symptoms.has(id));
  const rails = latest.filter(({ rail }) => rail);
  const low = new Set(standing.flatMap(lowNet));
  const findings = standing.flatMap(({ finding, lifts = [], span, table }) =>
    [
      ...(finding ? [finding] : []),
      // That a net reads right without a part says something only where it reads wrong with it.
      ...lifts.filter(({ net }) => low.has(net)),
    ].map((one) => defined<LoggedFinding>({ finding: one, span, table })),
  );
  const cures = earlier ? curesOf({ uri: doc.uri, board: board.id, symptoms }, earlier.values()) : [];
  return {
    input: defined({
      board,
      deviceOf: lookUp(ctx.library),
      findings: findings.map(({ finding }) => finding),
      withinLimits: standing.flatMap(({ within }) =>
        (within ?? []).filter(({ ref }) => !disproved.has(ref.toUpperCase())),
      ),
      gatesAgreeing: standing.flatMap(({ agrees }) => agrees ?? []),
      passedOutOfCircuit: standing.flatMap(({ passed }) => passed ?? []),
      replaced: replaced.size > 0 ? [...replaced.keys()] : undefined,
      history: cures.length > 0 ? cures : undefined,
      year: Number.isInteger(year) ? year : undefined,
    }),
    findings,
    waiting: [...waiting].map(([ref, all]) => waitingFor(ref, all)),
    powered: rails.length > 0 && rails.every(({ rail }) => rail === "within"),
    problems: (hasBoardFile(ctx) ? (front.symptoms ?? []) : [])
      .filter((id) => !board.symptoms.has(id))
      .map((words) => `"${words}" is no symptom in the board file of ${board.title}, so it is not counted.`),
  };
}

function waitingFor(ref: string, all: readonly Placed[]): Waiting {
  const symptoms = all.flatMap(({ finding }) => (finding?.kind === "symptom" ? (finding.symptom ?? []) : []));
  const what = [...new Set(all.map((one) => one.what))];
  return defined({ ref, what, symptoms: symptoms.length > 0 ? symptoms : undefined });
}

/** One function a library, by which look-ups in the board are kept. */
const lookUp = memo(
  (library: LogContext["library"]) =>
    (part: string): Device | undefined =>
      library.device(part)?.device,
);

/** Without what was measured wrong and has been taken again: half of it, at least, further down in the log. */
function takenOnce(all: readonly Placed[]): readonly Placed[] {
  if (!all.some(({ covers }) => covers)) return all;
  const last = new Map<string, Placed>();
  for (const one of all) {
    const known = last.get(one.key);
    if (!known || known.span.start < one.span.start) last.set(one.key, one);
  }
  return all.filter(({ covers, span, phase, finding }) => {
    if (!covers || covers.length === 0) return true;
    const again = covers.filter((key) => {
      const later = last.get(key);
      // A chip that reads wrong as a whole and then right without a repair comes and goes.
      return later && later.span.start > span.start && (finding?.kind === "table" || later.phase > phase);
    });
    return again.length * 2 < covers.length;
  });
}

/** A level that was read at a pin under power. */
const isLevel = ({ table, finding }: Placed): boolean =>
  table?.kind.judgedBy === "level" && (!finding || finding.kind === "pin");

/** What the front matter says the board does. */
function symptomsIn(doc: LogDocument, front: Partial<FrontMatter>, board: Board): Placed[] {
  return (front.symptoms ?? []).flatMap((id, i) => {
    const symptom = board.symptoms.get(id);
    const span = frontSpan(doc, ["symptoms", i]);
    if (!symptom || !span) return [];
    return [
      {
        key: `symptom ${id}`,
        what: symptom.title,
        span,
        refs: [],
        phase: 0,
        finding: { kind: "symptom", symptom: id, circuits: symptom.circuits },
      },
    ];
  });
}

/** The net that a finding shows pulled down or off, with all on it. */
function lowNet({ finding, net }: Placed): readonly string[] {
  if (finding?.kind !== "pin" || finding.alone || finding.direction === "high") return [];
  return net === undefined ? [] : [net];
}

/** A gate whose states and whose levels were read at one time was seen once, by two ways. */
function gatesOnce(all: readonly Placed[]): Placed[] {
  const seen = new Set<string>();
  return all.filter(({ finding, key }) => {
    if (finding?.kind !== "gate") return true;
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}

/** Gives the part whose replacement made an observation history. */
function replacedSince(
  { replaced, worked }: Timeline,
  board: Board,
): (one: Pick<Placed, "refs" | "net" | "finding" | "phase" | "look">) => string | undefined {
  if (worked.size === 0) return () => undefined;
  return ({ refs, net, finding, phase, look }) => {
    const onNet = finding && net !== undefined ? (board.nets.get(net)?.pins ?? []) : [];
    const done = look ? worked : replaced;
    return [...refs, ...onNet.map(({ ref }) => ref.toUpperCase())].find(
      (ref) => (done.get(ref) ?? 0) > phase,
    );
  };
}

/**
 * Gives the part that may have been what made a function fail: one of its circuits that was found wrong and then
 * replaced, or from the stage of proving on any that was replaced there. Whether the function has come back is
 * for the log to show.
 */
function curedBy(
  all: readonly Placed[],
  { replaced }: Timeline,
  board: Board,
  stage: FrontMatter["stage"],
): (one: Placed) => string | undefined {
  const late = stage === "proving" || stage === "returned";
  const accused = new Set(
    all.flatMap(({ finding, refs, phase }) =>
      finding ? refs.filter((ref) => (replaced.get(ref) ?? 0) > phase) : [],
    ),
  );
  return ({ finding, phase }) => {
    if (finding?.kind !== "symptom") return undefined;
    const inside = partsOf(finding.circuits, board, late);
    return [...replaced.keys()].find(
      (ref) => (replaced.get(ref) ?? 0) > phase && inside.has(ref) && (late || accused.has(ref)),
    );
  };
}

/** Designators in the circuits and, where asked for, of those that share a signal net with them; in capitals. */
function partsOf(circuits: readonly string[], board: Board, beside: boolean): Set<string> {
  const index = boardIndex(board);
  const inside = new Set(
    [...board.parts.values()].flatMap(({ ref, circuit }) =>
      circuit !== undefined && circuits.includes(circuit) ? [ref.toUpperCase()] : [],
    ),
  );
  if (!beside) return inside;
  const wider = new Set(inside);
  for (const net of board.nets.values()) {
    if (index.isGround(net) || index.railOf(net) !== undefined) continue;
    const refs = net.pins.map(({ ref }) => ref.toUpperCase());
    if (refs.some((ref) => inside.has(ref))) for (const ref of refs) wider.add(ref);
  }
  return wider;
}

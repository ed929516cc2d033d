// Long, because it is the one place where what each kind of table says is brought together in the order of the log.
// A log and what is known around it, as the diagnosis takes it: the latest word on every place, and nothing that a
// replacement has made history.

import { defined } from "../../base/defined";
import { memo } from "../../base/memo";
import { finish, type Steps } from "../../base/steps";
import type { DiagnosisFinding, DiagnosisInput } from "../../compute/diagnosis/types";
import { hasBoardFile, type LogContext } from "../../judge/context";
import type { FrontMatter } from "../../knowledge/load-front-matter";
import type { Board, Device } from "../../knowledge/types";
import type { Disconnection } from "../../log/disconnections";
import type { LogDocument } from "../../log/document";
import { frontSpan } from "../../log/front";
import { jobIndex } from "../../log/job-index";
import type { LogTable } from "../../log/model";
import type { LogSummary } from "../../log/summary";
import { momentIn, timelineOf } from "../../log/timeline";
import { latestOf } from "../../log/timeline/latest";
import { leftOff } from "../../log/timeline/left-off";
import { type Span, shift } from "../../text/span";
import { withoutCharged } from "./bench/charged";
import { withLeadOnGround } from "./bench/lead-at";
import { withoutMisplaced } from "./bench/misplaced";
import { withoutDeadCounter } from "./bench/no-counts";
import { withoutOffGround } from "./bench/no-volts";
import { withoutOffRange } from "./bench/off-range";
import { turnedInSocket } from "./bench/turned";
import { decoderBits } from "./chips/decoders";
import { withoutDirtyLegs } from "./chips/images";
import { stillProcessors, withoutDeadMeter } from "./chips/processor";
import { stillPasses, stillSections } from "./chips/sections";
import { silentChips } from "./chips/silent";
import { curesOf } from "./history";
import { joinedLevels } from "./lines/between";
import { heldBy, unmoved } from "./lines/held";
import { floatingApart, stillApart } from "./lines/net-apart";
import { notEmptied } from "./lines/restart";
import { besideWhatRings } from "./lines/rung";
import { betweenTables, stillOutputs } from "./lines/sisters";
import { liftsThatTell } from "./lines/still-low";
import type { LocatedObservation } from "./observation";
import { onRevision } from "./on-revision";
import { withoutCellsGone } from "./parts/cell-gone";
import { curedBy, replacedSince } from "./parts/repaired";
import { replacedInVain, swapObservations } from "./parts/swaps";
import { observationsOf } from "./readings";
import { settingObservations } from "./settings";
import { answersBare } from "./shown/board-answers";
import { matrixObservations } from "./shown/matrix";
import { notPassed } from "./stages/through";
import { withoutDropped } from "./supplies/off-supply";
import { withLowTogether } from "./supplies/rails-alike";
import { railsRead } from "./supplies/rails-read";
import { withoutShorted } from "./supplies/shorted-rails";
import { ripplesOn, windingHalves } from "./supplies/winding";
import { notCounted } from "./unsaid";
import { withHeard } from "./words/heard/with-heard";
import { proseObservations } from "./words/prose";
import { isSaidToRun, wasTriedRight } from "./words/running";

export interface DiagnosisSource {
  readonly doc: LogDocument;
  readonly front: Partial<FrontMatter>;
  readonly ctx: LogContext;
  /** The other jobs that are remembered, by uri. */
  readonly earlier?: ReadonlyMap<string, LogSummary>;
}

/** Something found wrong, with where it stands. */
export interface LoggedFinding {
  readonly finding: DiagnosisFinding;
  /** Of the document. */
  readonly span: Span;
  /** Absent for what the front matter says. */
  readonly table?: LogTable;
}

/** What was found wrong before the part was replaced. */
export interface AwaitedRetest {
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
  readonly waiting: readonly AwaitedRetest[];
  /** Supplies were read under power and none of them out of limits. */
  readonly powered: boolean;
  /** What the log says that a diagnosis cannot use, as sentences. */
  readonly problems: readonly string[];
}

/**
 * The input of `diagnose`; undefined without a board. A later reading of a place takes the place of those before the
 * repair between them; two of the same time both count, since nobody can tell which was the slip.
 */
export const fromLog = (source: DiagnosisSource): FromLog | undefined => finish(fromLogSteps(source));

/** The same in steps, one a block. */
export function* fromLogSteps({
  doc: written,
  front,
  ctx,
  earlier,
}: DiagnosisSource): Steps<FromLog | undefined> {
  const whole = ctx.board?.value;
  if (!whole) return undefined;
  const doc = withHeard(written, ctx);
  const board = onRevision(whole, front.revision);
  const timeline = timelineOf(doc);
  const { replaced } = timeline;
  const left = leftOff(doc);
  const offAt = (table: LogTable): readonly Disconnection[] => left.get(table) ?? [];
  const railsAt = railsRead(doc, ctx, (table) => momentIn(timeline, table).order);
  const all: LocatedObservation[] = symptomsIn(doc, front, board);
  let phase = 0;
  for (const { start, block } of doc.blocks) {
    yield;
    // A table that nobody claims stands where those beside it do.
    const last = block.tables.at(-1);
    phase = last ? momentIn(timeline, last).order : phase;
    for (const one of observationsOf(block, ctx, offAt, railsAt(block))) {
      const order = timeline.moments.has(one.table) ? momentIn(timeline, one.table).order : phase;
      all.push({ ...one, span: shift(one.span, start), phase: order });
    }
  }
  all.push(...proseObservations(doc, board, ctx.library, timeline));
  all.push(...matrixObservations(doc, whole, lookUp(ctx.library)));
  for (const { covered, found } of [
    decoderBits(all, board, lookUp(ctx.library)),
    windingHalves(all, board),
    joinedLevels(all, board),
  ])
    all.splice(0, all.length, ...all.filter((one) => !covered.has(one)), ...found);
  const orderOf = (table: LogTable): number => momentIn(timeline, table).order;
  all.splice(
    0,
    all.length,
    ...withLeadOnGround(
      withoutDropped(
        withoutOffGround(
          withoutDeadCounter(
            withoutMisplaced(withoutOffRange(all, doc, ctx, orderOf), doc, ctx, orderOf),
            doc,
            ctx,
          ),
          doc,
          ctx,
        ),
        board,
      ),
      board,
    ),
  );
  all.splice(0, all.length, ...withLowTogether(notEmptied(all, board)));
  all.splice(0, all.length, ...ripplesOn(besideWhatRings(all), board));
  all.splice(0, all.length, ...withoutDirtyLegs(withoutCellsGone(turnedInSocket(all, board), doc), doc));
  all.push(...swapObservations(timeline, board), ...replacedInVain(doc, timeline, board));
  all.push(...settingObservations(doc, front, board, all));
  all.push(...answersBare(doc, front, board, all));
  all.push(...floatingApart(all, board), ...stillApart(all, board));
  all.push(...stillOutputs(all, board, lookUp(ctx.library)));
  all.push(...stillSections(all, board, lookUp(ctx.library)));
  all.push(...stillPasses(all, board, lookUp(ctx.library)));
  all.splice(0, all.length, ...unmoved(all, board));
  all.push(...heldBy(all, board));
  all.push(...silentChips(all, board, lookUp(ctx.library)));
  all.push(...notPassed(all, board, lookUp(ctx.library)));
  all.push(...betweenTables(doc, ctx, all));
  all.push(...stillProcessors(all, board, lookUp(ctx.library)));
  yield;
  const since = replacedSince(timeline, board, all);
  const waiting = new Map<string, LocatedObservation[]>();
  const cured = curedBy(all, timeline, board, front.stage);
  const latest = gatesOnce(
    latestOf(
      takenOnce(
        withoutCharged(
          withoutDeadMeter(
            all,
            (order) =>
              isSaidToRun(doc.blocks, board) ||
              wasTriedRight(doc.blocks, (table) => orderOf(table) === order),
          ),
          doc,
          ctx,
        ),
      ),
      ({ key }) => key,
      ({ phase }) => phase,
    ),
  );
  const settled = new Set(
    latest.flatMap((one) => (!one.finding && one.net !== undefined && isLevel(one) ? [one.net] : [])),
  );
  const standing = withoutShorted(
    latest.filter((one) => {
      const { finding, net } = one;
      const ref = since(one) ?? cured(one);
      if (ref !== undefined && finding) waiting.set(ref, [...(waiting.get(ref) ?? []), one]);
      if (ref !== undefined) return false;
      // One node cannot be at two levels: the one that fits was read there too.
      return !(finding && net !== undefined && isLevel(one) && settled.has(net));
    }),
    board,
  );
  const disproved = new Set(
    standing.flatMap(({ finding }) => (finding?.kind === "part" ? [finding.ref.toUpperCase()] : [])),
  );
  // What is seen to be burnt is burnt, whatever else is wrong and whoever stood in for it.
  const damaged = new Set(standing.flatMap(({ look, finding, refs }) => (look && finding ? refs : [])));
  const year = Number((front.received ?? front.returned)?.slice(0, 4));
  const symptoms = (front.symptoms ?? []).filter((id) => board.symptoms.has(id));
  const rails = latest.filter(({ rail }) => rail);
  // That a net reads right without a part says something only where it reads wrong with it.
  const liftsOf = liftsThatTell(standing, lowNet);
  const isAlone = standing.every(({ finding, spare }) => !finding || spare);
  const findings = standing.flatMap((one) => {
    const { finding, spare, span, table } = one;
    return [...(finding && (isAlone || !spare) ? [finding] : []), ...liftsOf(one)].map((found) =>
      defined<LoggedFinding>({ finding: found, span, table }),
    );
  });
  // Passed and failed: it comes and goes.
  const failedAlone = new Set(
    findings.flatMap(({ finding }) =>
      finding.kind === "sign" && finding.sign === "failed-alone" ? (finding.refs ?? []) : [],
    ),
  );
  // An image that comes out right once and wrong once is no good one.
  const forgets = new Set(
    findings.flatMap(({ finding }) =>
      finding.kind === "sign" && finding.sign === "rom-sum" ? (finding.refs ?? []) : [],
    ),
  );
  const openParts = new Set(
    findings.flatMap(({ finding }) =>
      finding.kind === "sign" && finding.sign === "continuity-open" ? (finding.refs ?? []) : [],
    ),
  );
  const railsWith = (is: (sign: string) => boolean): ReadonlySet<string> =>
    new Set(
      findings.flatMap(({ finding }) =>
        finding.kind === "sign" && is(finding.sign) ? (finding.rail ?? []) : [],
      ),
    );
  // A rail that is low may be calm all the same, and no short.
  const wrongAs = {
    railRight: railsWith(() => true),
    railCalm: railsWith((sign) => sign.startsWith("ripple") || sign === "winding-half"),
    railNotShort: railsWith((sign) => sign === "rail-short"),
  };
  const railsOf = (which: "railRight" | "railCalm" | "railNotShort"): readonly string[] => [
    ...new Set(
      standing.flatMap((one) => {
        const name = one[which];
        // Right without a load and wrong with one is not right.
        return name === undefined || wrongAs[which].has(name) ? [] : [name];
      }),
    ),
  ];
  const boardId = board.id || (front.board ?? "");
  const cures = earlier
    ? curesOf({ uri: doc.uri, board: boardId, symptoms }, jobIndex(earlier).ofBoard(boardId))
    : [];
  return {
    input: defined({
      board,
      deviceOf: lookUp(ctx.library),
      findings: findings.map(({ finding }) => finding),
      withinLimits: standing.flatMap(({ within }) =>
        (within ?? []).filter(({ ref }) => !disproved.has(ref.toUpperCase())),
      ),
      gatesAgreeing: standing.flatMap(({ agrees }) => agrees ?? []),
      passedOutOfCircuit: standing.flatMap(({ passed }) =>
        passed === undefined || failedAlone.has(passed) ? [] : passed,
      ),
      levels: given(standing.flatMap(({ level }) => level ?? [])),
      conducting: given(standing.flatMap(({ conducts }) => conducts ?? [])),
      against: given(
        standing.flatMap(({ against }) =>
          (against ?? []).filter(({ by, ref }) =>
            by === "swap-same"
              ? !damaged.has(ref.toUpperCase())
              : by === "rom-right"
                ? !forgets.has(ref)
                : // Of a bank one contact rings and another does not.
                  by !== "beeps" || !openParts.has(ref),
          ),
        ),
      ),
      railsRight: given(railsOf("railRight")),
      railsCalm: given(railsOf("railCalm")),
      railsNotShort: given(railsOf("railNotShort")),
      replaced: replaced.size > 0 ? [...replaced.keys()] : undefined,
      history: cures.length > 0 ? cures : undefined,
      year: Number.isInteger(year) ? year : undefined,
      notCounted: findings.length > 0 ? undefined : notCounted(all, doc, ctx),
    }),
    findings,
    waiting: [...waiting].map(([ref, all]) => waitingFor(ref, all)),
    powered: rails.length > 0 && rails.every(({ rail }) => rail === "within"),
    problems: (hasBoardFile(ctx) ? (front.symptoms ?? []) : [])
      .filter((id) => !board.symptoms.has(id))
      .map((words) => `"${words}" is no symptom in the board file of ${board.title}, so it is not counted.`),
  };
}

/** Absent where there is nothing of it. */
const given = <T>(list: readonly T[]): readonly T[] | undefined => (list.length > 0 ? list : undefined);

function waitingFor(ref: string, all: readonly LocatedObservation[]): AwaitedRetest {
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
function takenOnce(all: readonly LocatedObservation[]): readonly LocatedObservation[] {
  if (!all.some(({ covers }) => covers)) return all;
  const last = new Map<string, LocatedObservation>();
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
const isLevel = ({ table, finding }: LocatedObservation): boolean =>
  table?.kind.judgedBy === "level" && (!finding || finding.kind === "pin");

/** What the front matter says the board does. */
function symptomsIn(doc: LogDocument, front: Partial<FrontMatter>, board: Board): LocatedObservation[] {
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
function lowNet({ finding, net }: LocatedObservation): readonly string[] {
  if (finding?.kind === "sign") return net !== undefined && finding.state !== "high" ? [net] : [];
  if (finding?.kind !== "pin" || finding.alone || finding.direction === "high") return [];
  return net === undefined ? [] : [net];
}

/** A gate whose states and whose levels were read at one time was seen once, by two ways. */
function gatesOnce(all: readonly LocatedObservation[]): LocatedObservation[] {
  const seen = new Set<string>();
  return all.filter(({ finding, key }) => {
    if (finding?.kind !== "gate") return true;
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}

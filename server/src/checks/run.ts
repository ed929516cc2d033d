import { defined } from "../base/defined";
import { memo, memoBy } from "../base/memo";
import type { KeyRun } from "../base/runs";
import type { Steps } from "../base/steps";
import { type Judgement, judgePieces } from "../judge";
import { contextAt, type LogContext } from "../judge/context";
import { contextOfRun } from "../judge/in-blocks";
import type { FrontMatter } from "../knowledge/load-front-matter";
import type { LogDocument } from "../log/document";
import { type FoundInRun, findInRun, placedInDocument } from "../log/in-blocks";
import type { LogBlock, Reading } from "../log/model";
import type { RelatedJobs } from "../review/comeback";
import { contains } from "../text/span";
import { asFinding } from "./as-finding";
import { capped } from "./capped";
import type {
  BlockCheck,
  Check,
  CheckSettings,
  ChosenOption,
  DocumentCheck,
  Draft,
  Finding,
  KnowledgeInput,
  LogInput,
} from "./check";
import checkFailed from "./check-failed";
import { causeFirst } from "./explained";
import { findingsAt } from "./findings-at";
import { findingsOfSet } from "./of-set";
import { railFirst } from "./rail-first";
import { CHECKS } from "./registry";
import { lightenSettled } from "./settled";
import { suppress } from "./suppress";
import { WholeBlock } from "./whole-block";
import { withWhoseWord } from "./whose-word";

const optionsOf =
  ({ code }: Check, { options }: CheckSettings): ChosenOption =>
  (option) =>
    options?.get(code)?.get(option.name) ?? option.default;

export { type CheckSettings, DEFAULT_SETTINGS } from "./check";

export type CheckedLog = Pick<LogInput, "doc" | "ctx" | "knowledge"> & {
  /** One a board, where the log is about several. */
  readonly set?: readonly CheckedLog[];
};

export type RelatedTo = (log: {
  readonly doc: LogDocument;
  readonly front: Partial<FrontMatter>;
}) => RelatedJobs | undefined;

/** All findings of a log, by place. One failing check never hides the others'. */
export function checkLog(
  log: CheckedLog,
  settings: CheckSettings,
  relatedTo: RelatedTo = () => undefined,
): readonly Finding[] {
  const { doc, set } = log;
  const found = set
    ? findingsOfSet(
        set.map((one) => foundIn(one, settings, relatedTo, ({ ofSet }) => ofSet !== "once")),
        [...documentFindings(log, settings, relatedTo, ({ ofSet }) => ofSet === "once")],
        log,
      )
    : foundIn(log, settings, relatedTo, () => true);
  const kept = suppress(doc, found, settings).sort(
    (a, b) => a.span.start - b.span.start || a.span.end - b.span.end,
  );
  const first = set
    ? set.reduce((all, one) => railFirstIn(one, all), kept as readonly Finding[])
    : railFirst(doc, log.ctx, kept);
  return capped(doc, first);
}

/** What `checkLog` keeps with the blocks, a block at a time: when it has run to its end, `checkLog` costs little. */
export function* checkBlocks({ doc, ctx, set }: CheckedLog, settings: CheckSettings): Steps<void> {
  for (const log of set ?? [{ doc, ctx }]) {
    for (const { block } of log.doc.blocks) {
      const own = contextAt(block, log.ctx);
      judgePieces(block, own);
      yield;
      checkBlock(block, own, settings);
      yield;
    }
  }
}

/** Of one board's sections; what stands elsewhere is left as it is. */
function railFirstIn({ doc, ctx }: CheckedLog, all: readonly Finding[]): readonly Finding[] {
  const isOwn = ({ span }: Finding): boolean =>
    doc.blocks.some(({ start, block }) =>
      contains({ start, end: start + block.source.text.length }, span.start),
    );
  const own = railFirst(doc, ctx, all.filter(isOwn));
  return [...all.filter((one) => !isOwn(one)), ...own].sort(
    (a, b) => a.span.start - b.span.start || a.span.end - b.span.end,
  );
}

function foundIn(
  log: CheckedLog,
  settings: CheckSettings,
  relatedTo: RelatedTo,
  wanted: (check: DocumentCheck) => boolean,
): readonly Finding[] {
  const { doc, ctx } = log;
  const found: Finding[] = [];
  const ofRun = (run: KeyRun<LogBlock>): FoundInRun<readonly Finding[]> => {
    const own = contextOfRun(run, ctx);
    return own
      ? checkRun(run, own, settings)
      : findInRun(run, (block) => foundInBlock(block, contextAt(block, ctx), settings));
  };
  for (const { start, found: own } of placedInDocument(doc, ofRun)) {
    for (const finding of findingsAt(own, start))
      found.push(finding.restsOn === undefined ? finding : withWhoseWord(finding, doc, ctx));
  }
  found.push(...documentFindings(log, settings, relatedTo, wanted));
  return lightenSettled(doc, ctx, causeFirst(found));
}

function* documentFindings(
  { doc, ctx, knowledge, set }: CheckedLog,
  settings: CheckSettings,
  relatedTo: RelatedTo,
  wanted: (check: DocumentCheck) => boolean,
): Iterable<Finding> {
  const front: Partial<FrontMatter> = doc.frontMatter.value ?? {};
  const related = relatedTo({ doc, front });
  const boards = set?.map((one) => ({ ...one, front: one.doc.frontMatter.value ?? {} }));
  for (const check of CHECKS) {
    if (check.scope !== "document" || !wanted(check)) continue;
    yield* runOne(check, settings, () =>
      check.run(defined({ doc, ctx, knowledge, front, option: optionsOf(check, settings), related, boards })),
    );
  }
}

/** Findings of a board, device, procedure or shop file. */
export function checkKnowledgeFile(input: KnowledgeInput, settings: CheckSettings): Finding[] {
  return CHECKS.flatMap((check) =>
    check.scope === "knowledge" ? runOne(check, settings, () => check.run(input)) : [],
  ).sort((a, b) => a.span.start - b.span.start);
}

const checkBlock = memo((block: LogBlock, ctx: LogContext, settings: CheckSettings): readonly Finding[] => {
  const byRow = new Map<Check, Finding[]>();
  const pieces = judgePieces(block, ctx);
  for (const { piece, judgements } of pieces) {
    for (const [check, own] of checkPiece(piece.block, judgements, ctx, settings)) {
      const placed = findingsAt(own, piece.start);
      byRow.set(check, [...(byRow.get(check) ?? []), ...placed]);
    }
  }
  const found = CHECKS.flatMap((check) => {
    if (check.scope !== "block") return [];
    return check.rowByRow ? (byRow.get(check) ?? []) : runOnBlock(check, block, ctx, settings);
  });
  return hasTablesInTables(block) ? eachOnce(found) : found;
});

const checkRun = memo((run: KeyRun<LogBlock>, ctx: LogContext, settings: CheckSettings) =>
  findInRun(run, (block) => foundInBlock(block, ctx, settings)),
);

function foundInBlock(
  block: LogBlock,
  ctx: LogContext,
  settings: CheckSettings,
): readonly Finding[] | undefined {
  const found = checkBlock(block, ctx, settings);
  return found.length === 0 ? undefined : found;
}

const BY_ROW = CHECKS.filter((check) => check.scope === "block" && check.rowByRow) as readonly BlockCheck[];
const keptOfPiece = memoBy<ReadonlyMap<Reading, Judgement>, ReadonlyMap<Check, readonly Finding[]>>();

/** What is found row by row in a piece; those checks are left out that find nothing. */
const checkPiece = (
  block: LogBlock,
  judgements: ReadonlyMap<Reading, Judgement>,
  ctx: LogContext,
  settings: CheckSettings,
): ReadonlyMap<Check, readonly Finding[]> =>
  keptOfPiece(
    judgements,
    () => {
      const found = new Map<Check, readonly Finding[]>();
      for (const check of BY_ROW) {
        const own = runOne(check, settings, () =>
          check.run({ block, ctx, judgements, option: optionsOf(check, settings) }),
        );
        if (own.length > 0) found.set(check, own);
      }
      return found;
    },
    settings,
  );

const runOnBlock = (
  check: BlockCheck,
  block: LogBlock,
  ctx: LogContext,
  settings: CheckSettings,
): readonly Finding[] =>
  runOne(check, settings, () => check.run(new WholeBlock(block, ctx, optionsOf(check, settings))));

/** A table that is read as several has its designators and pins in each of them. */
const hasTablesInTables = ({ tables }: LogBlock): boolean =>
  tables.some(({ span }, at) => span.start === tables[at + 1]?.span.start);

function eachOnce(found: readonly Finding[]): readonly Finding[] {
  const seen = new Set<string>();
  return found.filter(({ code, span, message }) => {
    const key = JSON.stringify([code, span.start, span.end, message]);
    return !seen.has(key) && seen.add(key);
  });
}

function runOne(check: Check, settings: CheckSettings, run: () => Iterable<Draft>): Finding[] {
  const found: Finding[] = [];
  try {
    for (const draft of run()) {
      const finding = asFinding(check, draft, settings);
      if (finding) found.push(finding);
    }
  } catch (error) {
    const says = {
      fact: `The check "${check.code}" broke down here, so its findings are not complete.`,
      cause: `${(error as Error).message}.`,
    };
    const finding = asFinding(checkFailed, { span: { start: 0, end: 0 }, ...says }, settings);
    if (finding) found.push(finding);
  }
  return found;
}

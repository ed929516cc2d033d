// A block's judged readings as the diagnosis takes them.

import { memoBy } from "../../base/memo";
import { type Judgement, judgeBlock } from "../../judge";
import { contextAt, type LogContext } from "../../judge/context";
import { partTestPoint } from "../../judge/test-point";
import { causesIn } from "../../judge/together";
import { boardIndex } from "../../knowledge/board-index";
import type { Disconnection } from "../../log/disconnections";
import type { LogBlock, LogTable, Reading } from "../../log/model";
import { impossibleReadings } from "./bench/impossible";
import { tableMistake } from "./bench/tables";
import { withTableCauses } from "./bench/together";
import { alongNets } from "./lines/along";
import { joinedDrops } from "./lines/between";
import { gateObservations, netObservations } from "./lines/compared";
import { halfPulled } from "./lines/half-pulled";
import { pullsAllTheSame } from "./lines/lets-go";
import { ohmsBeside } from "./lines/ohms-beside";
import { openToGround } from "./lines/to-ground";
import type { Observation } from "./observation";
import { OBSERVERS } from "./observers";
import { pulledObserved } from "./stages/pulled";
import { stagesObserved } from "./stages/stages";
import { nearestShorts } from "./supplies/nearest-short";
import { railsAtPins } from "./supplies/rail-at-pins";
import type { RailVolts } from "./supplies/rails-read";
import { blockWithPlaces } from "./words/named-places";

/** What only says at which level a node stands, for which there may be a better word. */
const SAID_BY_THE_NODE: ReadonlySet<string> = new Set(["level", "level-between", "open-input"]);

const observed = memoBy<LogBlock, readonly Observation[]>();

/**
 * Computed once for a block, a context and what the work before it left off; none without a board.
 * @param rails what rails read elsewhere in the log that are off their voltage
 * @param offAt what a table's readings were taken without, besides what the table says of it
 */
export function observationsOf(
  block: LogBlock,
  whole: LogContext,
  offAt: (table: LogTable) => readonly Disconnection[] = () => [],
  rails?: RailVolts,
): readonly Observation[] {
  const ctx = contextAt(block, whole);
  const left = JSON.stringify([block.tables.map(offAt), rails]);
  return observed(block, () => (ctx.board ? observePlaced(block, ctx, offAt, rails) : []), ctx, left);
}

/** Of the block with its places as the board has them; what is told is of the tables that were written. */
function observePlaced(
  block: LogBlock,
  ctx: LogContext,
  offAt: (table: LogTable) => readonly Disconnection[],
  rails: RailVolts | undefined,
): Observation[] {
  const placed = blockWithPlaces(block, ctx);
  const written = (table: LogTable): LogTable => placed.written.get(table) ?? table;
  const found = observe(placed.block, ctx, (table) => offAt(written(table)), rails);
  return placed.block === block ? found : found.map((one) => ({ ...one, table: written(one.table) }));
}

function observe(
  block: LogBlock,
  ctx: LogContext,
  offAt: (table: LogTable) => readonly Disconnection[],
  rails: RailVolts | undefined,
): Observation[] {
  const judgements = judgeBlock(block, ctx);
  const found: Observation[] = [];
  for (const table of block.tables) {
    const parts = new Map<string, Observation>();
    const around = { ctx, judgements, before: offAt(table) };
    const along = alongNets(table, ctx);
    for (const one of OBSERVERS[table.kind.observedAs](table, around))
      if (!along.spans.has(one.span.start)) addTo(found, parts, one);
    found.push(...along.found);
    if (ctx.board) found.push(...joinedDrops(table, ctx.board.value));
    const told = new Set(along.found.map(({ net }) => net));
    for (const one of netObservations(table, judgements, ctx)) if (!told.has(one.net)) found.push(one);
  }
  const pulled = pulledObserved(block, judgements, ctx);
  const held = new Set(pulled.flatMap(({ net }) => net ?? []));
  // Said once, by what could bring the node there.
  const spans = new Set(pulled.map(({ span }) => span.start));
  const isSaid = ({ finding, net, span }: Observation): boolean =>
    finding?.kind === "sign" &&
    SAID_BY_THE_NODE.has(finding.sign) &&
    (spans.has(span.start) || (net !== undefined && held.has(net)));
  found.splice(0, found.length, ...found.filter((one) => !isSaid(one)));
  for (const one of gateObservations(block, ctx)) if (!isOn(one, held, ctx)) found.push(one);
  found.push(...halfPulled(block, ctx), ...openToGround(block, ctx), ...pullsAllTheSame(block, ctx));
  for (const { found: instead, spans: of } of [
    nearestShorts(block, ctx),
    ohmsBeside(block, ctx),
    railsAtPins(block, judgements, ctx),
  ])
    found.splice(0, found.length, ...found.filter(({ span }) => !of.has(span.start)), ...instead);
  found.push(...pulled);
  const stages = stagesObserved(block, ctx, rails);
  // A supply pin that is off its rail, with the rail up beside it, is said once.
  const off = new Set(stages.flatMap(({ key, span }) => (key.startsWith("OFF ") ? span.start : [])));
  const isOff = ({ finding, span }: Observation): boolean =>
    finding?.kind === "pin" && finding.powered === true && off.has(span.start);
  // A cell that was read full lasts, whatever is left behind its resistor.
  const cut = new Set(stages.flatMap(({ key, span }) => (key.startsWith("CUT OFF ") ? span.start : [])));
  const instead = new Set(stages.flatMap((one) => [...(one.instead ?? [])]));
  const isCut = ({ finding, span }: Observation): boolean =>
    finding?.kind === "sign" && finding.sign === "backup-lost" && cut.has(span.start);
  found.splice(
    0,
    found.length,
    ...found.filter((one) => !isOff(one) && !isCut(one) && !instead.has(one.span.start)),
    ...stages,
  );
  const causes = causesIn(block, ctx);
  const told = new Set(
    causes.flatMap(({ parts }) => parts.flatMap(({ places }) => places.map(({ at }) => at))),
  );
  return [
    ...whole(withTableCauses(found, causes, ctx), judgements, block, ctx),
    ...impossibleReadings(judgements, told),
  ];
}

/** A gate that may pull its output low agrees with a low that it was not asked for, and says nothing by it. */
const isOn = (
  { agrees }: Observation,
  nets: ReadonlySet<string>,
  { board, library }: LogContext,
): boolean => {
  if (!agrees || !board || nets.size === 0) return false;
  const { device } = partTestPoint(agrees.ref, board.value, library);
  const gate = device?.gates.find(({ name }) => name === agrees.gate);
  return (gate?.outputs ?? []).some((pin) =>
    nets.has(boardIndex(board.value).net(agrees.ref, pin)?.name ?? ""),
  );
};

/** Tables that are wrong as a whole, in place of what their readings say. */
function whole(
  found: readonly Observation[],
  judgements: ReadonlyMap<Reading, Judgement>,
  block: LogBlock,
  ctx: LogContext,
): Observation[] {
  const mistakes = block.tables.flatMap((table) => tableMistake(table, judgements, ctx) ?? []);
  return mistakes.length === 0
    ? [...found]
    : [
        ...found.filter(
          ({ table, span }) =>
            !mistakes.some((one) => one.table === table && (one.instead?.has(span.start) ?? true)),
        ),
        ...mistakes,
      ];
}

/** What was measured of one part in one row is one fact: a shorted transistor shorts all its junctions. */
function addTo(found: Observation[], parts: Map<string, Observation>, one: Observation): void {
  if (one.finding?.kind !== "part") {
    found.push(one);
    return;
  }
  const before = parts.get(one.key);
  if (before?.finding?.kind !== "part") {
    parts.set(one.key, one);
    found.push(one);
    return;
  }
  const worst = before.finding.verdict === "out-of-limits" ? before.finding : one.finding;
  const merged: Observation = {
    ...before,
    finding: { ...worst, says: `${before.finding.says} ${one.finding.says}` },
  };
  parts.set(one.key, merged);
  found[found.indexOf(before)] = merged;
}

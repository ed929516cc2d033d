// The diode across a coil as the diagnosis takes it: the one on the board that clamps the coil's line, else the one at
// the coil.

import { defined } from "../../../base/defined";
import type { SignFinding } from "../../../compute/diagnosis/types";
import type { Judgement } from "../../../judge";
import { extentOf } from "../../../judge/compare";
import type { LogContext } from "../../../judge/context";
import { partTestPoint, pinName } from "../../../judge/test-point";
import { siValue } from "../../../judge/uncertainty";
import { boardIndex } from "../../../knowledge/board-index";
import type { Board, Net } from "../../../knowledge/types";
import { COIL_DIODE, COIL_DIODE_REVERSED } from "../../../log/measures";
import type { LogTable, Reading } from "../../../log/model";
import type { Observation } from "../observation";

/** What a line reads to its supply where no coil hangs on it, and where what lies across the coil is shorted; ohms. */
const BARE = 10_000;
const SHORT = 1.5;

/**
 * Coils one by one. Where most lines are open the loom is off: then a line that is none is held by what the board has across it.
 */
export function* coilsObserved(
  table: LogTable,
  judgements: ReadonlyMap<Reading, Judgement>,
  ctx: LogContext,
): Iterable<Observation> {
  const ohms = table.readings.filter(({ spec }) => spec.quantity === "resistance");
  const isOpen = ({ value }: Reading): boolean => value.kind === "open" || (extentOf(value)?.low ?? 0) > BARE;
  const isBare = ohms.length > 2 && ohms.filter(isOpen).length * 2 > ohms.length;
  for (const reading of table.readings) {
    const judgement = judgements.get(reading);
    if (!judgement) continue;
    const isShort = reading.value.kind === "short" || (extentOf(reading.value)?.high ?? SHORT) < SHORT;
    const short =
      ohms.includes(reading) && isShort ? lineShorted(reading, judgement, isBare, ctx) : undefined;
    const isRelay = /^K\d/i.test(judgement.place?.part?.ref ?? "");
    const open =
      isRelay && isOpen(reading) && ohms.includes(reading)
        ? coilItself(reading, judgement.place, "out-of-limits")
        : undefined;
    if (short) yield short;
    else if (open) yield open;
    else if (!(isBare && ohms.includes(reading)) && judgement.verdict !== "unjudged") {
      const one = judgement.verdict === "impossible" ? undefined : coilObserved(reading, judgement, ctx);
      if (one) yield one;
    }
  }
}

/** Next to no ohms across a coil are the diode across it, or the coil itself where it hangs on. */
function lineShorted(
  reading: Reading,
  { place }: Judgement,
  isBare: boolean,
  ctx: LogContext,
): Observation | undefined {
  const board = ctx.board?.value;
  const net =
    board &&
    place &&
    (place.net ??
      lineOf(reading.subject.ref?.text ?? place.ref, board, ctx) ??
      clampedNet(place.part?.ref ?? "", board, ctx));

  const diodes = net ? diodesOn(net, board, ctx) : [];
  if (!net || place.tiedTo || diodes.length === 0) return undefined;
  const of = `the coil line ${net.name}`;
  return {
    key: `${reading.table.procedure.id} ${net.name} short`.toUpperCase(),
    what: of,
    table: reading.table,
    span: reading.cell.span,
    refs: diodes.map((ref) => ref.toUpperCase()),
    finding: defined<SignFinding>({
      kind: "sign",
      sign: "coil-line-short",
      refs: diodes,
      nets: [net.name],
      outside:
        isBare || /^K\d/i.test(place.part?.ref ?? "") ? undefined : `the coil at ${net.name} in the machine`,
      of,
      says: `${net.name} reads ${reading.value.typed} to its supply.`,
    }),
  };
}

function coilObserved(
  reading: Reading,
  { place, verdict }: Judgement,
  ctx: LogContext,
): Observation | undefined {
  const { measure, subject, value } = reading;
  const board = ctx.board?.value;
  if (!board) return undefined;
  if (measure !== COIL_DIODE && measure !== COIL_DIODE_REVERSED) return coilItself(reading, place, verdict);
  const name = subject.item?.text ?? place?.ref ?? "the coil";
  const pin = place && pinName(place);
  const at = pin === undefined || !place ? undefined : { ref: place.ref, pin };
  const net =
    (at && boardIndex(board).net(at.ref, at.pin)) ??
    lineOf(subject.ref?.text, board, ctx) ??
    clampedNet(place?.part?.ref ?? "", board, ctx);
  const diodes = net ? diodesOn(net, board, ctx) : [];
  const wrong = verdict === "out-of-limits" || verdict === "suspect";
  const of = `the diode of ${name}`;
  return defined({
    key: `${reading.table.procedure.id} ${place?.ref ?? ""} ${pin ?? ""} ${name} diode`.toUpperCase(),
    what: of,
    table: reading.table,
    span: reading.cell.span,
    refs: diodes.map((ref) => ref.toUpperCase()),
    finding: wrong
      ? defined<SignFinding>({
          kind: "sign",
          sign: diodes.length > 0 ? "coil-diode" : "crossing-dead",
          refs: diodes,
          nets: net ? [net.name] : [],
          pins: at ? [at] : [],
          outside: diodes.length > 0 ? undefined : `the diode at the coil of ${name}`,
          of,
          says: `The diode across the coil of ${name} reads ${value.typed}.`,
        })
      : undefined,
  });
}

/** The coil of a load is in the machine; a relay's is on the board, and is a part of it. */
function coilItself(
  reading: Reading,
  place: Judgement["place"],
  verdict: Judgement["verdict"],
): Observation | undefined {
  const { subject, value, table, cell, spec } = reading;
  const wrong = verdict === "out-of-limits" || verdict === "suspect";
  if (spec.quantity !== "resistance" || !wrong) return undefined;
  const onBoard = place?.part !== undefined && /^K\d/i.test(place.part.ref) ? place.part.ref : undefined;
  const name = onBoard ?? subject.item?.text ?? subject.ref?.text ?? "the coil";
  const of = `the coil ${name}`;
  return {
    key: `${table.procedure.id} ${of}`.toUpperCase(),
    what: of,
    table,
    span: cell.span,
    refs: onBoard === undefined ? [] : [onBoard.toUpperCase()],
    finding: defined<SignFinding>({
      kind: "sign",
      sign: "crossing-dead",
      refs: onBoard === undefined ? undefined : [onBoard],
      outside: onBoard === undefined ? `${of} or its wire in the machine` : undefined,
      of,
      says: `The coil of ${name} reads ${value.typed}.`,
    }),
  };
}

/** Of a relay the side of its coil that a diode clamps to the other. */
function clampedNet(ref: string, board: Board, ctx: LogContext): Net | undefined {
  const index = boardIndex(board);
  if (!/^K\d/i.test(ref)) return undefined;
  const own = [...board.nets.values()].filter(({ pins }) => pins.some((pin) => pin.ref === ref));
  return own.find(
    (net) =>
      index.railOf(net) === undefined &&
      !index.isGround(net) &&
      diodesOn(net, board, ctx).some((diode) =>
        own.some((other) => other !== net && other.pins.some((pin) => pin.ref === diode)),
      ),
  );
}

/** The net of the collector or drain of the transistor that drives it. */
export function lineOf(
  typed: string | undefined,
  board: Board,
  ctx: Pick<LogContext, "library">,
): Net | undefined {
  const { part, device } = typed === undefined ? {} : partTestPoint(typed, board, ctx.library);
  if (!part || device?.kind !== "transistor") return undefined;
  const pin = [...device.pins.values()].find(({ name }) => /^[CD]$/i.test(name));
  return pin && boardIndex(board).net(part.ref, pin.number);
}

const diodesOn = ({ pins }: Net, board: Board, ctx: Pick<LogContext, "library">): string[] => [
  ...new Set(
    pins.flatMap(({ ref }) => {
      const { part, device } = partTestPoint(ref, board, ctx.library);
      return part && (device?.kind === "diode" || /^(?:D|CR)\d/i.test(part.ref)) ? [part.ref] : [];
    }),
  ),
];

const LETS_GO =
  /\b(?:lets? go|letting go|releas(?:es?|ed|ing)|switch(?:es|ed|ing)?[- ]?off|turn(?:s|ed|ing)?[- ]?off|kicks?|kickback|fly-?back|spikes?|needles?|peaks?|overshoots?|drops? out)\b/i;
const VOLTS = /(?<![\w.+-])(\d{2,4}(?:[.,]\d+)?)\s?V(?:olts?|pk|p)?\b/gi;
/** Times the supply of the coil, above which nothing across it takes what it gives back; common practice, no source. */
const KICKS = 1.6;

/**
 * What a coil gives back when it is let go: what should clamp it to its supply, where that rises far above the supply. Undefined
 * where there is no such diode, or no word of it.
 */
export function kickObserved(
  words: string,
  net: Net | undefined,
  board: Board | undefined,
  ctx: Pick<LogContext, "library">,
  read?: number,
): (Pick<Observation, "key" | "what" | "refs"> & { readonly finding: SignFinding }) | undefined {
  if (!board || !net || !LETS_GO.test(words)) return undefined;
  const volts =
    read ?? Math.max(0, ...[...words.matchAll(VOLTS)].map(([, one = ""]) => Number(one.replace(",", "."))));
  const ends = diodesOn(net, board, ctx).flatMap((ref) => {
    const end = [...board.nets.values()].find(
      (one) => one !== net && one.pins.some((pin) => pin.ref === ref),
    );
    return end && !boardIndex(board).isGround(end) ? [{ ref, end }] : [];
  });
  const nominals = [...board.rails.values()].flatMap(({ nominal }) => siValue(nominal, "V") ?? []);
  const supply = Math.max(
    ...ends.map(
      ({ end }) =>
        siValue(board.rails.get(boardIndex(board).railOf(end) ?? "")?.nominal ?? "", "V") ??
        Math.max(...nominals),
    ),
  );
  if (ends.length === 0 || volts < KICKS * supply) return undefined;
  const refs = ends.map(({ ref }) => ref);
  const of = `what ${net.name} gives back`;
  return {
    key: `kick ${net.name}`.toUpperCase(),
    what: of,
    refs: refs.map((ref) => ref.toUpperCase()),
    finding: {
      kind: "sign",
      sign: "stage",
      refs,
      of,
      says: `${net.name} rises to ${volts} V when its coil is let go: nothing clamps it.`,
    },
  };
}

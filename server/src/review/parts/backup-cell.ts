// What was put in the place of a memory's battery, against what charges it there: a lithium cell where the board charges,
// and a super-capacitor whose series resistor is bridged. Words: common practice, no source.
import { defined } from "../../base/defined";
import { chargeCurrent } from "../../compute/circuit/holdup";
import { partValue, readValue } from "../../compute/part-value";
import { partAt, railNominal } from "../../judge/board-parts";
import type { LogContext } from "../../judge/context";
import { findRail } from "../../judge/rail-name";
import { boardIndex } from "../../knowledge/board-index";
import type { Backup, Board } from "../../knowledge/types";
import { type LogDocument, tablesOf } from "../../log/document";
import { timelineOf, type WorkRow } from "../../log/timeline";
import { namesBattery } from "./corrosion";

const RECHARGEABLE = /\b(?:ni-?\s?cds?|nicads?|ni-?\s?mh|nickel[- ]cadmium|accumulators?|lead[- ]acid)\b/i;
/** Coin and thionyl cells, which must not be charged, and lithium-ion, which wants a charger of its own. */
const LITHIUM =
  /\b(?:(?:[CB]R|LIR)[\s-]?\d{4}\b|CR[\s-]?(?:1\/[23]\s?N|123|2)\b|(?:LS|ER|SL|TL)[\s-]?\d{3,5}\b|li-?ion\b|li-?po\b|lithium\b)[\w/-]*/i;
/** Made to be charged through a resistor. */
const LITHIUM_TO_CHARGE = /\b(?:ML|VL|MS|MT)[\s-]?\d{3,4}\b/i;
const SUPER_CAPACITOR =
  /\b(?:super-?\s?cap\w*|ultra-?\s?cap\w*|gold-?\s?cap\w*|memory[- ]cap\w*|edlc|double[- ]layer)\b/i;
/** Farads from which a capacitor keeps a memory. */
const LEAST_FARADS = 0.01;
const STOPS =
  /\b(?:block(?:ing|ed|s)?|isolat\w+|steering)\b[^.;|]{0,20}\bdiode|\bdiode\b[^.;|]{0,20}\bblock|\bcharg\w*\b[^.;|]{0,40}\b(?:remov\w+|cut|lift\w*|disconnect\w*|isolat\w+|disabl\w+|taken (?:out|off)|open(?:ed)?|gone|out)\b|\b(?:remov\w+|cut|lift\w*|disconnect\w*|isolat\w+|disabl\w+|took (?:out|off)|opened|no)\b[^.;|]{0,40}\bcharg|\bnot charged\b/i;
const OPENED = /\b(?:remov|cut|lift|disconnect|isolat|disabl)/i;
const BRIDGED =
  /\b(?:bridg\w*|short(?:ed|ing)?(?: out| across)?|by-?pass\w*|link(?:ed)?|jumper\w*|zero ohm|0 ?(?:ohm|Ω|R)\b)/i;
const ABOUT_BACKUP = /\b(?:charg\w*|batter\w*|BT\d+|back-?up|memory|retention)\b/i;
/** Ohms; less lets an empty super-capacitor draw more than diodes and tracks of such boards stand. */
const LEAST_SERIES = 10;

const wordsOf = ({ part, actionText, note, ref }: WorkRow): string =>
  [ref, actionText, part, note].flatMap((cell) => cell?.text ?? []).join(" | ");

const isBattery = (ref: string, board: Board | undefined): boolean =>
  /^(?:BT|BAT|BATT)\d/i.test(ref) || RECHARGEABLE.test(board?.parts.get(ref)?.value ?? "");

export interface ChargedLithium {
  readonly row: WorkRow;
  /** As the log names it: "CR2032". */
  readonly cell: string;
  readonly ref: string | undefined;
  /** What charges it, as the rest of a sentence. */
  readonly path: string;
  /** Lithium-ion: may be charged, but not so. */
  readonly isIon: boolean;
}

/** Lithium cells that stand where something charges; those that a later row took out again are left out. */
export function chargedLithium(doc: LogDocument, ctx: LogContext): ChargedLithium[] {
  const { rows } = timelineOf(doc);
  const fitted = rows.filter(
    (row) => row.state !== "put-back" && row.action !== "remove" && isOfCell(row, ctx),
  );
  if (fitted.length === 0 || rows.some((row) => row.state === "done" && stopsCharging(row, ctx))) return [];
  const told = new Set<string>();
  return fitted.flatMap((row) => {
    const ref = row.refs.find((one) => isBattery(one, ctx.board?.value)) ?? row.refs[0];
    const cell = LITHIUM.exec(wordsOf(row))?.[0] ?? "lithium";
    const key = ref ?? cell;
    const path = pathAt(ref, doc, ctx);
    if (path === undefined || told.has(key) || isTakenOut(row, ref, rows)) return [];
    told.add(key);
    return [defined({ row, cell, ref, path, isIon: /^(?:LIR|li-?ion|li-?po)/i.test(cell) })];
  });
}

/** Words of a lithium cell that is put in, at a battery's place or as one. */
function isOfCell(row: WorkRow, ctx: LogContext): boolean {
  const words = wordsOf(row);
  const cell = LITHIUM.exec(words)?.[0];
  if (cell === undefined || LITHIUM_TO_CHARGE.test(words)) return false;
  const board = ctx.board?.value;
  const puts = row.kind === "fitted" || row.action !== undefined || row.part !== undefined;
  const isCoin = /\d/.test(cell);
  return puts && (isCoin || namesBattery(words) || row.refs.some((ref) => isBattery(ref, board)));
}

/** True for a row that takes a battery's charging path away, or blocks it: nothing belongs in its place afterwards. */
export function stopsCharging(row: WorkRow, ctx: LogContext): boolean {
  const words = wordsOf(row);
  if (STOPS.test(words)) return true;
  // "R12, cut, one leg of the charging resistor" says it in two cells; of a battery's row that would be the battery.
  const isOfBattery = row.refs.some((ref) => isBattery(ref, ctx.board?.value));
  if (!isOfBattery && STOPS.test(words.replaceAll(" | ", " "))) return true;
  const resistors = (ctx.board?.value.backups ?? []).flatMap(({ resistor }) => resistor?.toUpperCase() ?? []);
  const opened = row.action === "remove" || row.action === "cut" || OPENED.test(row.actionText?.text ?? "");
  return opened && row.refs.some((ref) => resistors.includes(ref));
}

function isTakenOut(row: WorkRow, ref: string | undefined, rows: readonly WorkRow[]): boolean {
  if (ref === undefined) return false;
  return rows
    .slice(rows.indexOf(row) + 1)
    .some(
      (later) =>
        later.kind === "work" &&
        later.state !== "planned" &&
        later.refs.includes(ref) &&
        (later.action === "remove" || (later.replaced && !LITHIUM.test(wordsOf(later)))),
    );
}

/** By the board file, else by what the log says stood there. */
function pathAt(ref: string | undefined, doc: LogDocument, ctx: LogContext): string | undefined {
  const board = ctx.board?.value;
  const backup = board?.backups.find(({ capacitor }) => capacitor.toUpperCase() === ref);
  if (backup && (backup.resistor !== undefined || backup.from !== undefined))
    return `${backup.resistor ?? backup.from} charges it`;
  const value = ref === undefined ? undefined : partAt(ref, ctx)?.value;
  if (value !== undefined && RECHARGEABLE.test(value)) return `the board charged a ${value}`;
  // A board file that knows another kind of battery there has the word.
  if (value !== undefined && namesBattery(value)) return undefined;
  for (const { table } of tablesOf(doc)) {
    for (const { cells } of table.source.rows) {
      const words = cells.map(({ text }) => text).join(" | ");
      const cell = RECHARGEABLE.exec(words)?.[0];
      if (cell !== undefined && !/\b(?:no|never|not a)\s+(?:ni|accu)/i.test(words))
        return `the board charged a ${cell}`;
    }
  }
  const inText = /\b(?:the|a|old|original)\s+(ni-?\s?cd|nicad|ni-?\s?mh)\b/i.exec(doc.text)?.[1];
  return inText === undefined ? undefined : `the board charged a ${inText}`;
}

export interface UnlimitedCapacitor {
  readonly row: WorkRow;
  /** The series resistor, as designated. */
  readonly resistor: string;
  /** Ohms that stand there now; zero where it is bridged. */
  readonly left: number;
  /** What the capacitor took through the resistor when it was empty, with its arithmetic in words. */
  readonly before?: { readonly ohms: number; readonly amperes: number; readonly volts: number };
}

/** Series resistors of super-capacitors that were bridged, or are too small to limit anything. */
export function unlimitedCapacitors(doc: LogDocument, ctx: LogContext): UnlimitedCapacitor[] {
  const { rows } = timelineOf(doc);
  const standing = rows.filter(({ state }) => state !== "put-back");
  const backups = (ctx.board?.value.backups ?? []).filter((backup) => isSuper(backup.capacitor, ctx));
  const fitted = standing.filter((row) => row.action !== "remove" && isSuperRow(row));
  if (fitted.length === 0 && backups.length === 0) return [];
  const capacitors = new Set([
    ...backups.map(({ capacitor }) => capacitor.toUpperCase()),
    ...fitted.flatMap(({ refs }) => refs.filter((ref) => !/^R\d/.test(ref))),
  ]);
  return standing.flatMap((row, at) => {
    const words = wordsOf(row);
    const named = [...new Set([...row.refs, ...(words.toUpperCase().match(/\bR\d+\b/g) ?? [])])];
    const resistor = named.find((ref) => /^R\d/.test(ref));
    if (resistor === undefined || !isBefore(resistor, words, capacitors, backups, fitted.includes(row), ctx))
      return [];
    const isUndone = standing
      .slice(at + 1)
      .some(
        (later) => later.refs.includes(resistor) && (later.action === "remove" || later.action === "replace"),
      );
    const left = leftOf(row, words);
    if (left === undefined || isUndone) return [];
    const known = partAt(resistor, ctx);
    const ohms = partValue(known, "resistance")?.nominal;
    const backup = backups.find((one) => one.resistor?.toUpperCase() === resistor);
    const volts = (backup && railNominal(findRail(ctx.board!.value, backup.from ?? backup.rail))) ?? 5;
    const drawn =
      ohms === undefined || !(ohms > left) ? undefined : chargeCurrent({ supply: volts, resistance: ohms });
    const before = drawn?.ok && ohms !== undefined ? { ohms, amperes: drawn.value, volts } : undefined;
    return [defined({ row, resistor, left, before })];
  });
}

const isSuperRow = (row: WorkRow): boolean =>
  SUPER_CAPACITOR.test(wordsOf(row)) || farads(row.part?.text) >= LEAST_FARADS;

const farads = (text: string | undefined): number =>
  (text === undefined ? undefined : readValue(text, "capacitance")?.nominal) ?? 0;

const isSuper = (ref: string, ctx: LogContext): boolean => {
  const value = partAt(ref, ctx)?.value;
  return farads(value) >= LEAST_FARADS || SUPER_CAPACITOR.test(value ?? "");
};

/** Ohms that the row leaves in series; undefined where it leaves enough, or is of something else. */
function leftOf(row: WorkRow, words: string): number | undefined {
  const bridged = row.action === "jumper" || BRIDGED.test(words);
  if (bridged && !/\bnot\s+bridg|\bbridge\s+(?:removed|taken)/i.test(words)) return 0;
  if (row.action !== "replace" && row.action !== "fit") return undefined;
  const ohms = row.part && readValue(row.part.text, "resistance")?.nominal;
  return ohms !== undefined && ohms < LEAST_SERIES ? ohms : undefined;
}

/** The resistor stands before the capacitor: by the board's word, by a net of both, or by the row's own words. */
function isBefore(
  resistor: string,
  words: string,
  capacitors: ReadonlySet<string>,
  backups: readonly Backup[],
  isOwnRow: boolean,
  ctx: LogContext,
): boolean {
  if (backups.some((backup) => backup.resistor?.toUpperCase() === resistor)) return true;
  if (isOwnRow || ABOUT_BACKUP.test(words) || SUPER_CAPACITOR.test(words)) return true;
  if ([...capacitors].some((ref) => new RegExp(`\\b${ref}\\b`, "i").test(words))) return true;
  const board = ctx.board?.value;
  if (!board) return false;
  const index = boardIndex(board);
  return [...board.nets.values()].some((net) => {
    if (index.isGround(net) || index.railOf(net) !== undefined) return false;
    const refs = net.pins.map(({ ref }) => ref.toUpperCase());
    return refs.includes(resistor) && refs.some((ref) => capacitors.has(ref));
  });
}

// The parts that a block says the numbers of.
import { defined } from "../../base/defined";
import type { Library } from "../../knowledge/library";
import { parseQuantity } from "../../quantity/quantity";
import { span } from "../../text/span";
import { isOfWork } from "../kinds";
import type { CellText, LogBlock, LogRow, LogTable, Subject } from "../model";
import { looksLikeNumber } from "../part-words";
import { wideParts } from "../read-table";
import { rowsOfWork } from "../timeline/work";
import { proseIn } from "./prose";
import type { LocatedStatement, PartStated, SaidIn } from "./statement";

/** Designators of parts that have a value and no number of a device. */
const PASSIVE = /^(?:R|RN|RP|RV|VR|C|CN|L|T|F|FS|Y|X|XTAL|BT|SW|S|J|P|CN|TP|K|LP|LS)\d/i;

/** Of a chip whatever stands for its number is meant as one. */
const CHIP = /^(?:U|IC|Z)\d/i;

/** The same for the same words on a part. */
export const partKey = ({ ref, by, device, value }: PartStated): string =>
  JSON.stringify([ref.toUpperCase(), by, device ?? value]);

/** The parts that the header of a wide table says the numbers of. */
export function partsOverColumns(table: LogTable, library: Library): LocatedStatement<PartStated>[] {
  const { found, add } = collected(library);
  for (const { ref, part } of wideParts(table, library)) add(ref, part, "beside");
  return [...found.values()];
}

/** What is said of parts, the same words once. */
function collected(library: Library) {
  const found = new Map<string, LocatedStatement<PartStated>>();
  const add = (
    ref: CellText | undefined,
    part: CellText | undefined,
    by: SaidIn,
    more: Partial<PartStated> = {},
  ) => {
    if (!ref) return;
    for (const name of refsIn(ref.text)) {
      const said = part ? whatIs(name, part.text, library) : {};
      // A socket or a kit was fitted there, and is not what the place calls for.
      if (by === "fitted" && !library.device(said.device ?? "") && !(said.value && PASSIVE.test(name)))
        continue;
      if (!said.device && !said.value && Object.keys(more).length === 0) continue;
      const stated = { kind: "part" as const, ref: name, by, ...said, ...more };
      const key = partKey(stated);
      if (!found.has(key)) found.set(key, { ...stated, span: (part ?? ref).span });
    }
  };
  return { found, add };
}

/** Every part said, in the order of the block, the same words once. */
export function partsStated(block: LogBlock, library: Library): LocatedStatement<PartStated>[] {
  const { found, add } = collected(library);
  for (const { ref, part } of block.sections) add(ref, part, "heading");
  for (const { ref, part } of partsTold(block, library)) add(ref, part, "prose");
  for (const table of block.tables) {
    for (const { ref, part } of wideParts(table, library)) add(ref, part, "beside");
    const by = saidIn(table);
    for (const row of by ? saidRows(table) : []) {
      const { cells } = row;
      const isList = by === "list";
      add(isList ? places(table, row) : cells.ref, cells.part, by ?? "beside", isList ? more(cells) : {});
    }
  }
  return [...found.values()];
}

// Bounded: without, each of a thousand joined pieces is tried as the first of all behind it.
const NUMBER = "'?[A-Za-z0-9]{1,40}(?:[-/.][A-Za-z0-9]{1,40}){0,7}";
/** "U8: 74LS138" and "U8 - 74LS138" as an item of a list. */
const ITEM = new RegExp(
  `^([A-Z]{1,3}\\d{1,4}|\\d{1,2}[A-Z])\\s*(?:[:=]|[-\u2013](?=\\s)|\\s)\\s*(?:an?\\s+)?(${NUMBER})(?![\\w-])`,
);
/** "U8 (74LS138)", "U8 is a 74LS138", "U8 = 74LS138" anywhere in a sentence. */
const TOLD = new RegExp(
  `\\b([A-Z]{1,3}\\d{1,4})(?:\\s*\\(\\s*(?:an?\\s+)?|\\s*,?\\s+(?:is|was|being|has)\\s+(?:an?|the)\\s+|\\s*[=:]\\s*|\\s*,\\s+an?\\s+|\\s*/\\s*|\\s+-\\s+|\\s+)(${NUMBER})(?![\\w-])`,
  "g",
);
/** "the 74LS138 at U8", "a 7404 (U5)", "7404 as U5": the number in front. */
const TOLD_TURNED = new RegExp(
  `(?<![\\w-])(${NUMBER})(?:\\s*\\(\\s*|\\s+(?:at|in|as|called|is|marked)\\s+(?:position\\s+|socket\\s+)?)([A-Z]{1,3}\\d{1,4})(?![\\w-])`,
  "g",
);

/** Running words are believed only of numbers that the library knows. */
function partsTold(block: LogBlock, library: Library): { ref: CellText; part: CellText }[] {
  const found: { ref: CellText; part: CellText }[] = [];
  for (const { text, start, isItem } of proseIn(block)) {
    const item = isItem ? ITEM.exec(text) : null;
    for (const match of text.matchAll(TOLD_TURNED)) {
      const [whole, part = "", ref = ""] = match;
      if (!/\d{2}/.test(part) || !library.device(part) || library.device(ref)) continue;
      const from = start + match.index;
      const at = from + whole.lastIndexOf(ref);
      found.push({
        ref: { text: ref, span: span(at, at + ref.length) },
        part: { text: part, span: span(from, from + part.length) },
      });
    }
    for (const match of [...(item ? [item] : []), ...text.matchAll(TOLD)]) {
      const [, ref = "", part = ""] = match;
      if (!/\d{2}/.test(part) || !library.device(part) || library.device(ref)) continue;
      const at = start + (match.index ?? 0);
      const from = at + match[0].lastIndexOf(part);
      found.push({
        ref: { text: ref, span: span(at, at + ref.length) },
        part: { text: part, span: span(from, from + part.length) },
      });
    }
  }
  return found;
}

function saidIn({ kind }: LogTable): SaidIn | undefined {
  // The part is then not the one that stands at the designator.
  if (kind.inMachine) return undefined;
  if (kind.holds === "parts") return "list";
  return isOfWork(kind) ? "fitted" : "beside";
}

/** Of the work only what left a part in the place: not what is planned, nor what was tried and put back. */
const saidRows = (table: LogTable): readonly LogRow[] =>
  table.kind.holds !== "work"
    ? table.rows
    : rowsOfWork(table)
        .filter(
          ({ state, replaced, part, actionText }) =>
            state === "done" && part && (replaced || FITS.test(actionText?.text ?? "")),
        )
        .map(({ row }) => row);

const FITS = /\b(?:re-?)?(?:fit|fitted|install|installed|plugged in)\b/i;

function more({ value, package: body, circuit, note }: Subject): Partial<PartStated> {
  return defined({
    value: value?.text,
    package: body?.text,
    circuit: circuit?.text,
    note: note?.text,
  });
}

/** All places that a row of a list names: "U7, U8", of which the row's own designator is the first. */
function places({ columns, source }: LogTable, { index, cells }: LogRow): CellText | undefined {
  const at = columns.findIndex(({ spec }) => spec?.role === "ref");
  const cell = source.rows[index]?.cells[at];
  return cell &&
    /[,;&+/\u2013-]|\bto\b|\band\b|\s[A-Za-z]+\d/.test(cell.text) &&
    !cells.pin &&
    !/\(/.test(cell.text)
    ? cell
    : cells.ref;
}

/** Longest run that a range of designators is written out to. */
const LONGEST_RUN = 64;

/** "U7", "U7, U8", "C4-C9", "R1 R2": each by itself; other words are one name as they stand. */
function refsIn(text: string): string[] {
  const pieces = text.split(/\s*(?:,|;|&|\+|\/|\band\b)\s*|\s+(?=[A-Za-z]{1,4}\d)/i).filter(Boolean);
  const names = pieces.map((piece) =>
    /^([A-Za-z]{1,4})(\d{1,4})(?:\s*(?:-|–|to|\.\.)\s*(?:\1)?(\d{1,4}))?$/i.exec(piece),
  );
  if (pieces.length === 0 || names.some((name) => !name)) return /\d/.test(text) ? [text.trim()] : [];
  return names.flatMap((name) => {
    const [, letters = "", first = "", last] = name ?? [];
    const from = Number(first);
    const to = last === undefined ? from : Number(last);
    if (to <= from || to - from >= LONGEST_RUN) return [`${letters}${first}`];
    return Array.from({ length: to - from + 1 }, (_, i) => `${letters}${from + i}`);
  });
}

/** What is said of a part before its number, and where it came from behind it: "a tested 2114 from U8". */
const BEFORE_NUMBER =
  /^(?:(?:an?|the|his|my|our|new|tested|known[- ]good|good|spare|fresh|used|old|another|other|same|second|blank|freshly|programmed)\s+)+/i;
const BEHIND_NUMBER = /\s+(?:of|from|out of|that|which|off)\s.*$/i;

function whatIs(ref: string, words: string, library: Library): Pick<PartStated, "device" | "value"> {
  const typed = words.replace(/[*_`]/g, "").trim();
  const isChip = CHIP.test(ref) && !library.device(typed);
  const text = isChip ? typed.replace(BEFORE_NUMBER, "").replace(BEHIND_NUMBER, "") : typed;
  // "The one from U8" has no number, nor has the place that it came from.
  if (isChip && (CHIP.test(text) || (text !== typed && !/\d/.test(text)))) return {};
  if (text === "" || /^(?:-+|–|—|\?+|n\/a|tbd)$/i.test(text)) return {};
  if (library.device(text)) return { device: text };
  const isPassive = PASSIVE.test(ref);
  // A "Z80 DMA" is no Z80 with a word behind it.
  if (!isPassive && library.doubt(text)) return { device: text };
  const [first = ""] = /^[^\s(,;]+/.exec(text) ?? [];
  const inside = /[([]\s*([^\s)\]]+)\s*[)\]]/.exec(text)?.[1];
  for (const word of [first, inside])
    if (word && /\d{2}/.test(word) && library.device(word)) return { device: word };
  if (isPassive || parseQuantity(text).ok) return { value: text };
  return looksLikeNumber(text) || CHIP.test(ref) ? { device: text } : { value: text };
}

// The junctions of transistors in running words and lists: "Q31 0.65 / 0.64 / OL", "Q28 BE 0.690, BC 0.004, CE 0.003".
import { boardIndex } from "../../../../knowledge/board-index";
import type { Board } from "../../../../knowledge/types";
import { KINDS } from "../../../../log/kinds";
import type { Table } from "../../../../syntax/tables";
import type { Sentence } from "../sentences";
import { plainlySaid, type SaidRow, type Word, wordSaid } from "./said";

/** The kind of table that junctions stand in. */
const PROCEDURE = KINDS.find(({ judgedBy }) => judgedBy === "junction")?.id ?? "";
const DROP = "(?:\\d?[.,]\\d+|OL|open|short(?:ed)?|dead short|0)";
const TRIPLE = new RegExp(
  `(?:^|[\\s:=-])(?<be>${DROP})\\s*(?:V\\s*)?(?:/|,|\\|)\\s*(?<bc>${DROP})\\s*(?:V\\s*)?(?:/|,|\\|)\\s*(?<ce>${DROP})`,
  "i",
);
const NAMED =
  /\b(?:(b)(?:ase)?\s*[-/ ]?\s*(?:to\s+)?(e)(?:mitter)?|(b)(?:ase)?\s*[-/ ]?\s*(?:to\s+)?(c)(?:ollector)?|(c)(?:ollector)?\s*[-/ ]?\s*(?:to\s+)?(e)(?:mitter)?)\b\s*[:=]?\s*(?:is|reads?|a)?\s*(\d?[.,]\d+|OL\b|open\b|dead short\b|short(?:ed)?\b)/gi;
const OPEN_ALL = /^[\s:,-]*(?:is\s+)?(?:open|OL)\s+(?:every way|all ways|everywhere|both ways|throughout)\b/i;
const REFS = /(?<![\w.-])((?:Q|TR|T)\d{1,3})((?:\s*(?:,|&|,?\s*\band\b)\s*(?:Q|TR|T)\d{1,3})*)(?![\w.-])/g;

export function junctionsSaid({ text: whole, at: from }: Sentence, board: Board): SaidRow[] {
  const text = plainlySaid(whole);
  if (text === undefined) return [];
  const all = [...text.matchAll(REFS)];
  return all.flatMap((match, i): SaidRow[] => {
    const end = match.index + match[0].length;
    const rest = text.slice(end, all[i + 1]?.index ?? text.length);
    const read = readIn(rest, from + end);
    const refs = match[0].split(/[\s,&]+|\band\b/).filter((one) => /\d$/.test(one));
    return read
      ? refs.flatMap((ref) => {
          const part = boardIndex(board).part(ref);
          return part
            ? [{ procedure: PROCEDURE, cells: { ref: wordSaid(part.ref, from + match.index), ...read } }]
            : [];
        })
      : [];
  });
}

function readIn(rest: string, at: number): { [column: string]: Word } | undefined {
  const named: { [column: string]: Word } = {};
  for (const m of rest.matchAll(NAMED)) {
    const key = [m[1], m[2], m[3], m[4], m[5], m[6]].join("").toLowerCase();
    if (named[key] === undefined && m[7] !== undefined) named[key] = wordSaid(m[7], at + m.index);
  }
  if (Object.keys(named).length > 1) return named;
  const triple = TRIPLE.exec(rest);
  if (triple?.groups && triple.index < 40) {
    const { be = "", bc = "", ce = "" } = triple.groups;
    const where = at + triple.index;
    return { be: wordSaid(be, where), bc: wordSaid(bc, where), ce: wordSaid(ce, where) };
  }
  if (OPEN_ALL.test(rest)) return { be: wordSaid("OL", at), bc: wordSaid("OL", at), ce: wordSaid("OL", at) };
  return undefined;
}

/** Transistors across the top of a table and their junctions down its side. */
export function junctionsAcross({ header, rows }: Table, board: Board): SaidRow[] {
  const junctions = rows.flatMap((row) => {
    const [first] = row.cells;
    const [, a = "", b = ""] = JUNCTION.exec(first?.text.trim() ?? "") ?? [];
    return a === "" ? [] : [{ key: `${a[0]}${b[0]}`.toLowerCase(), row }];
  });
  if (junctions.length < 2) return [];
  return header.cells.flatMap(({ text }, at): SaidRow[] => {
    const part = /^(?:Q|TR|T)\d/i.test(text) ? boardIndex(board).part(text) : undefined;
    if (!part) return [];
    const read = junctions.flatMap(({ key, row }) => {
      const cell = row.cells[at];
      return cell && cell.text !== "" ? [[key, { text: cell.text, span: cell.span }] as const] : [];
    });
    const [first] = read;
    return first
      ? [
          {
            procedure: PROCEDURE,
            cells: { ref: { text: part.ref, span: first[1].span }, ...Object.fromEntries(read) },
          },
        ]
      : [];
  });
}

const JUNCTION =
  /^v?(b(?:ase)?|c(?:ollector)?|e(?:mitter)?)\s*(?:[-\u2013/>\u2192]+|to)?\s*(b(?:ase)?|c(?:ollector)?|e(?:mitter)?)$/i;

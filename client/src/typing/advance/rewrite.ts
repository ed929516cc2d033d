// What is to be written for a cell, and what is known of it then.
import { Range, type TextDocument } from "vscode";
import type { PlacedEdit, Typed } from "../../../../server/src/protocol/custom-requests/typing";
import type { LinePosition } from "../../../../server/src/text/line-index";
import { asOne } from "../apply";
import { asKeystrokes, type Step } from "./keystrokes";
import type { Rewriting } from "./own-edits";
import type { Run } from "./run";

/** A cell that nothing is typed into yet. */
export const emptyRun = (document: TextDocument, { line, character }: LinePosition): Run => ({
  start: { line, character },
  lead: document.lineAt(line).text.slice(0, character),
  shown: "",
  keys: [],
  digits: undefined,
  habit: false,
  taken: "",
  backs: 0,
});

/**
 * What stands in the cell becomes another text. The character before the first that differs is written once more: no key
 * does that, so the change is not taken for one of a key, nor that of a key for it.
 */
export function showing({ start: { line, character }, lead, shown }: Run, wanted: string): Rewriting {
  let same = 0;
  while (same < Math.min(shown.length, wanted.length) && shown[same] === wanted[same]) same += 1;
  const before = (lead + wanted).slice(Math.max(0, lead.length + same - 1));
  const from = character + wanted.length - before.length;
  return { range: new Range(line, from, line, character + shown.length), before, after: "" };
}

/** All edits of an answer as one; undefined where they only move the cursor. */
export function answered(document: TextDocument, typed: Typed): Rewriting | undefined {
  const { start, end, before, after } = asOne(document, typed);
  if (start === end && before + after === "") return undefined;
  return { range: new Range(document.positionAt(start), document.positionAt(end)), before, after };
}

/**
 * The cell that a step led to, once it has.
 * @param line the line of the cell that was left, as it was typed
 */
export function cellAfter(
  document: TextDocument,
  run: Run,
  { reading, direction, length }: Step,
  cursor: LinePosition,
  line: string,
): Run {
  const next = { ...emptyRun(document, cursor), keys: run.keys.slice(length) };
  if (direction !== "advance") return next;
  const stays = cursor.line === run.start.line && !next.lead.slice(run.lead.length).includes("|");
  return {
    ...next,
    habit: true,
    // Behind the last reading of a table there is nothing that could lead on.
    digits: stays ? null : run.digits,
    left: { start: run.start, reading, line },
  };
}

/** A rewriting, and what is known of the cell once it is made. */
export interface TakenBack {
  readonly rewriting: Rewriting;
  /** True where the cursor goes back to the reading that was left. */
  readonly returns: boolean;
  made(run: Run): Run;
}

/** Puts back what Backspace took in an empty cell, and takes off the reading that was left what it was pressed for. */
export function takingBack(
  document: TextDocument,
  { start, lead, shown, taken, backs, left }: Run,
): TakenBack {
  const { line, character } = start;
  const end = { line, character: character + shown.length };
  if (backs === 0 || !left) {
    const to = { line, character: character + taken.length };
    return {
      rewriting: {
        range: new Range(line, Math.max(0, character - 1), line, end.character),
        before: lead.slice(-1) + taken + shown,
        after: "",
      },
      returns: false,
      made: (run) => ({ ...run, start: to, lead: run.lead + taken, taken: "", backs: 0 }),
    };
  }
  const { start: from, reading } = left;
  const rest = reading.slice(0, Math.max(0, reading.length - backs));
  const own = document.lineAt(from.line).text;
  const behind = left.line.slice(from.character + reading.length);
  const whole: PlacedEdit = {
    range: { start: { line: from.line, character: 0 }, end: { line: from.line, character: own.length } },
    newText: left.line.slice(0, from.character) + rest + behind,
  };
  const restored: PlacedEdit = { range: { start, end }, newText: taken };
  const cursor = { line: from.line, character: from.character + rest.length };
  const edits = from.line === line ? [whole] : [whole, restored];
  const one = asOne(document, { edits, cursor });
  return {
    rewriting: { ...one, range: new Range(document.positionAt(one.start), document.positionAt(one.end)) },
    returns: true,
    made: ({ keys, digits }) => ({
      ...emptyRun(document, from),
      shown: rest,
      keys: [...asKeystrokes(rest), ...keys],
      digits,
    }),
  };
}

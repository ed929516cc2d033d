import { boardIndex } from "../analysis/board-index";
import type { LogContext } from "../analysis/context";
import { modificationsIn } from "../analysis/parts/modifications";
import { safetyWord, saysDefeated } from "../analysis/parts/safety";
import { placeIn, type WorkRow, workRows } from "../analysis/parts/work";
import type { LogDocument } from "../log/document";
import { documentCheck } from "./check";
import { exampleLog } from "./example-board";

export default documentCheck({
  code: "safety-input-defeated",
  title: "A safety or slam input put out of action without a note to the owner",
  severity: "warning",
  scope: "document",
  why: "Slam, tilt, door and thermal switches protect people and the machine. Whoever opens the cabinet next relies on them, and cannot see a jumper on the board.",
  remedy:
    "Undo it before the board goes back. If it has to stay, tell the owner: write so in the row's note or in the text, with the word owner and the input's name. Local codes may forbid it.",
  examples: {
    bad: [
      exampleLog(`## Work

| Ref | Action | Note                      |
|-----|--------|---------------------------|
| J3  | jumper | slam switch held closed   |
  ^^ safety-input-defeated: slam
`),
      exampleLog(`## Work

| Ref | Action           | Part         |
|-----|------------------|--------------|
| J3  | fit modification | quiet-tilt   |
  ^^ safety-input-defeated: tilt
`),
    ],
    good: [
      exampleLog(`## Work

| Ref | Action | Note                                        |
|-----|--------|---------------------------------------------|
| J3  | jumper | slam switch held closed, owner was told     |
| J3  | reflow | tilt line, was open                         |
`),
    ],
  },
  *run({ doc, ctx }) {
    for (const row of workRows(doc)) {
      const at = row.ref ?? row.part ?? row.actionText;
      if (row.kind !== "work" || !at) continue;
      const word = defeated(row, doc, ctx);
      if (word === undefined) continue;
      if (/\bowner\b/i.test(row.note?.text ?? "") || toldInText(doc.text, word)) continue;
      yield {
        span: placeIn(row, at),
        message: `This row puts the ${word} input out of action, and nothing in the log tells the owner. Undo it before the board goes back, or tell the owner in the note; local codes may forbid it.`,
      };
    }
  },
  noFix: "Whether it may stay, and what the owner is told, is a person's decision.",
});

/** The safety input that a row puts out of action, by what the row and the modification it fits say. */
function defeated(row: WorkRow, doc: LogDocument, ctx: LogContext): string | undefined {
  const { action, part, note, actionText } = row;
  const own = [actionText, part, note].map((cell) => cell?.text ?? "").join(" ");
  if (action === "jumper" || action === "cut") {
    const places = row.refs.flatMap((ref) => {
      const found = ctx.board && boardIndex(ctx.board.value).part(ref);
      return found ? [found.note ?? "", found.value ?? ""] : [];
    });
    return safetyWord(own) ?? safetyWord(places.join(" "));
  }
  if (action !== "fit-modification") return undefined;
  const steps = modificationsIn(doc, ctx.board?.value).find(
    (one) => one.row.ref === row.ref && one.row.part === row.part,
  )?.modification?.steps;
  const all = [own, ...(steps ?? [])];
  const line = all.find((text) => safetyWord(text) !== undefined && saysDefeated(text));
  return line === undefined ? undefined : safetyWord(line);
}

/** A sentence of the log that speaks of the owner and of the input. */
function toldInText(text: string, word: string): boolean {
  const lower = text.toLowerCase();
  for (let at = lower.indexOf("owner"); at >= 0; at = lower.indexOf("owner", at + 5)) {
    // A sentence may run over a few lines; the front matter's own field is no sentence.
    if (/^owner:/.test(lower.slice(at, at + 6))) continue;
    if (lower.slice(Math.max(0, at - 200), at + 200).includes(word)) return true;
  }
  return false;
}

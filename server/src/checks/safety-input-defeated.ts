import type { LogDocument } from "../log/document";
import { placeIn, type WorkRow } from "../log/timeline";
import { defeatedInputs } from "../review/parts/defeated";
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
      exampleLog(`## Work

| Ref | Action           | Part        |
|-----|------------------|-------------|
| J3  | fit modification | input-strap |
  ^^ safety-input-defeated: Slam switch
`),
    ],
    good: [
      exampleLog(`## Work

| Ref | Action           | Part        | Note                                        |
|-----|------------------|-------------|---------------------------------------------|
| J3  | fit modification | input-strap | the owner knows: slam switch out of action  |
`),
      exampleLog(`## Work

| Ref | Action | Note                                        |
|-----|--------|---------------------------------------------|
| J3  | jumper | slam switch held closed, owner was told     |
| J3  | reflow | tilt line, was open                         |
`),
    ],
  },
  *run({ doc, ctx }) {
    for (const { row, names, by } of defeatedInputs(doc, ctx)) {
      const at = row.ref ?? row.part ?? row.actionText;
      const untold = names.filter((name) => !isTold(name, row, doc));
      if (!at || untold.length === 0) continue;
      const what =
        by === undefined
          ? `the ${untold.join(" and ")} input out of action`
          : `${untold.join(" and ")} out of action (${by.id})`;
      yield {
        span: placeIn(row, at),
        fact: `This row puts ${what}, and nothing in the log tells the owner.`,
        cause: "Local codes may forbid it.",
        step: "Undo it before the board goes back, or tell the owner in the note.",
        source: by === undefined ? undefined : `the board file, of ${by.id}`,
      };
    }
  },
  noFix: "A person must decide whether it stays and what to tell the owner.",
});

/** The row's note, or a sentence of the log, speaks of the owner; the sentence of the input too. */
const isTold = (name: string, row: WorkRow, doc: LogDocument): boolean =>
  /\bowner\b/i.test(row.note?.text ?? "") || toldInText(doc.text, name.toLowerCase());

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

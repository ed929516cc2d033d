import { defined } from "../base/defined";
import { boardIndex } from "../knowledge/board-index";
import { placeIn, workRows } from "../log/timeline";
import { fitAt } from "../review/parts/fits";
import { pinsOfSocket } from "../review/parts/sockets";
import { documentCheck } from "./check";
import { exampleLog } from "./example-board";
import { placesOfPart } from "./in-board";

export default documentCheck({
  code: "part-does-not-fit",
  title: "A part fitted that does not belong at that place",
  severity: "warning",
  scope: "document",
  why: "A chip of another function, a capacitor of a lower voltage or a larger fuse can be soldered in and even seem to work, until it takes something else with it.",
  remedy:
    "Check the number on the part itself. If it is right for this board, name it under `fits` of that part in the board file; if it is another family, say in the note why it will do.",
  examples: {
    bad: [
      exampleLog(`## Parts fitted

| Ref | Part   | Note |
|-----|--------|------|
| U14 | 74LS08 |      |
        ^^^^^^ part-does-not-fit: hex inverter belongs there
`),
      exampleLog(`## Parts fitted

| Ref | Part       | Note |
|-----|------------|------|
| C5  | 10 uF 10 V |      |
        ^^^^^^^^^^ part-does-not-fit: rated below the 10 uF 16 V
| R12 | 47k        |      |
        ^^^ part-does-not-fit: outside the tolerance of the 4k7
`),
      exampleLog(`## Parts fitted

| Ref | Part    | Note |
|-----|---------|------|
| U14 | 74ALS04 |      |
        ^^^^^^^ part-does-not-fit: 74ALS04 at U14 is Advanced low-power Schottky TTL instead of Low-power Schottky TTL
`),
    ],
    good: [
      exampleLog(`## Parts fitted

| Ref | Part          | Note                           |
|-----|---------------|--------------------------------|
| U14 | SN74LS04N     |                                |
| U14 | DIP-14 socket |                                |
| U15 | 74ALS04       | drives one LS input only       |
| C5  | 10 uF 25 V    |                                |
| R12 | 4k7 1 %       |                                |
`),
    ],
  },
  *run({ doc, ctx }) {
    const board = ctx.board?.value;
    if (!board) return;
    const told = new Set<string>();
    for (const row of workRows(doc)) {
      const { part, note } = row;
      if (!part || pinsOfSocket(part.text) !== undefined || /\bsocket|\bholder/i.test(part.text)) continue;
      if (row.action !== undefined && row.action !== "replace" && row.action !== "fit") continue;
      for (const ref of row.refs) {
        const place = boardIndex(board).part(ref);
        if (!place) continue;
        const fit = fitAt(place, part.text, ctx.library);
        if (fit.kind !== "wrong" && fit.kind !== "other-family") continue;
        // A note says that it was meant; another function or a lower rating it cannot excuse.
        if (fit.kind === "other-family" && note) continue;
        // The same part at the same place in both tables is told once.
        const key = `${place.ref} ${part.text.toUpperCase()}`;
        if (told.has(key)) continue;
        told.add(key);
        const allowed =
          place.fits.length > 0
            ? `The board file allows ${[place.device, ...place.fits].join(", ")}.`
            : undefined;
        yield defined({
          span: placeIn(row, part),
          severity: fit.kind === "other-family" ? ("information" as const) : undefined,
          fact: `${part.text} at ${place.ref} ${fit.reason}.`,
          cause: [fit.why, allowed].filter(Boolean).join(" "),
          step:
            fit.kind === "wrong" ? "Check the number on the part." : "If it is meant, say so in the note.",
          related: placesOfPart(place.ref, ctx),
        });
        break;
      }
    }
  },
  noFix: "What is soldered in is on the board, and not in the log.",
});

import { partTestPoint } from "../judge/test-point";
import { placeIn, workRows } from "../log/timeline";
import { pinsOfSocket, socketPins } from "../review/parts/sockets";
import { documentCheck } from "./check";
import { exampleLog } from "./example-board";
import { placesOfPart } from "./in-board";

export default documentCheck({
  code: "socket-wrong-size",
  title: "A socket with another number of pins than the chip",
  severity: "warning",
  scope: "document",
  why: "A socket of the wrong size does not go in, or leaves a chip one row off with its supply on the wrong pins.",
  remedy: "Correct the size or the designator.",
  examples: {
    bad: [
      {
        text: exampleLog(`## Parts fitted

| Part          | Ref |
|---------------|-----|
| DIP-16 socket | U14 |
  ^^^^^^^^^^^^^ socket-wrong-size: 14 pins
`),
        fixes: [
          {
            title: "Change to DIP-14 socket",
            makes: `
 |---------------|-----|
-| DIP-16 socket | U14 |
+| DIP-14 socket | U14 |
`,
          },
        ],
      },
      {
        text: exampleLog(`## Work

| Ref | Action | Part          |
|-----|--------|---------------|
| U34 | socket | 28-pin socket |
                 ^^^^^^^^^^^^^ socket-wrong-size: 24 pins
`),
        fixes: [
          {
            title: "Change to DIP-24 socket",
            makes: `
 |-----|--------|---------------|
-| U34 | socket | 28-pin socket |
+| U34 | socket | DIP-24 socket |
`,
          },
        ],
      },
    ],
    good: [
      exampleLog(`## Parts fitted

| Part          | Ref      |
|---------------|----------|
| DIP-14 socket | U14, U15 |
`),
    ],
  },
  *run({ doc, ctx }) {
    for (const row of workRows(doc)) {
      const { part } = row;
      const has = part && pinsOfSocket(part.text);
      if (!part || has === undefined) continue;
      for (const ref of row.refs) {
        const needs = socketPins(partTestPoint(ref, ctx.board?.value, ctx.library));
        if (needs === undefined || needs === has) continue;
        yield {
          span: placeIn(row, part),
          fact: `The socket has ${has} contacts, but ${ref} has ${needs} pins.`,
          step: "Correct the size or the designator.",
          related: placesOfPart(ref, ctx),
          data: { newText: `DIP-${needs} socket` },
        };
        break;
      }
    }
  },
  fixes: {
    change(finding) {
      const { newText } = finding.data as { newText: string };
      return [{ title: `Change to ${newText}`, edits: [{ span: finding.span, newText }] }];
    },
  },
});

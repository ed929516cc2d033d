import { placeIn } from "../log/timeline";
import { chargedLithium } from "../review/parts/backup-cell";
import { documentCheck } from "./check";
import { exampleLog } from "./example-board";
import { placesOfPart } from "./in-board";

export default documentCheck({
  code: "lithium-cell-charged",
  title: "A lithium cell where the board charges",
  severity: "error",
  scope: "document",
  why: "A lithium coin or thionyl cell must not be charged: it can leak, burst or burn. A board that was made for a NiCd feeds its place through a resistor or a diode whenever it is on; lithium-ion needs its own charger.",
  remedy:
    "Take the cell out before the board is switched on. Remove the charging resistor or diode, or fit a blocking diode, measure that no current flows into the place, and write that as a row of work. Then fit the cell. Follow the cell maker's sheet and local rules.",
  examples: {
    bad: [
      exampleLog(`## Work

| Ref | Action | Part             |
|-----|--------|------------------|
| BT1 | fitted | CR2032 in holder |
                 ^^^^^^^^^^^^^^^^ lithium-cell-charged: the board charged a 3.6 V NiCd
`),
    ],
    good: [
      exampleLog(`## Work

| Ref | Action | Part             | Note                             |
|-----|--------|------------------|----------------------------------|
| R12 | cut    |                  | one leg of the charging resistor |
| BT1 | fitted | CR2032 in holder |                                  |
`),
      exampleLog(`## Work

| Ref | Action | Part       | Note |
|-----|--------|------------|------|
| BT1 | fitted | 3.6 V NiMH |      |
`),
    ],
  },
  *run({ doc, ctx }) {
    for (const { row, cell, ref, path, isIon } of chargedLithium(doc, ctx)) {
      const at = row.part ?? row.note ?? row.actionText ?? row.ref;
      if (!at) continue;
      const place = ref === undefined ? "" : ` at ${ref}`;
      const what = isIon ? "lithium-ion, which needs its own charger" : "a lithium cell";
      yield {
        span: placeIn(row, at),
        fact: `${cell}${place} is ${what}, and ${path}.`,
        cause: "Charged, it can burst or burn.",
        step: `${row.state === "planned" ? "Do not fit it" : "Take it out before you apply power"}. Remove the charging resistor or diode, or fit a blocking diode, and write that as a row of work.`,
        ...(ref === undefined ? {} : { related: placesOfPart(ref, ctx) }),
      };
    }
  },
  noFix: "The cell is on the board, and not in the log.",
});

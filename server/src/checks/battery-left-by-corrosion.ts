import { workRows } from "../log/timeline";
import { corrosionIn, namesBattery } from "../review/parts/corrosion";
import { documentCheck } from "./check";
import { exampleLog } from "./example-board";

export default documentCheck({
  code: "battery-left-by-corrosion",
  title: "A battery left in place next to corrosion",
  severity: "warning",
  scope: "document",
  why: "Leaked alkali keeps creeping under chips and along tracks for as long as the cell that leaks is there, and what was repaired is eaten again.",
  remedy:
    "Take the battery off, neutralise with a mild acid, wash and dry. Wear gloves and eye protection, and hand the cell and the residue in as local rules say. Then write the removal as a row of work.",
  examples: {
    bad: [
      exampleLog(`## Inspection

| Item           | Result | Note           |
|----------------|--------|----------------|
| BT1            | leaking |               |
                   ^^^^^^^ battery-left-by-corrosion: "leaking" seen beside BT1; the log does not say that the battery was taken off
`),
      exampleLog(`## Inspection

| Item           | Result   | Note           |
|----------------|----------|----------------|
| Battery        | old      | still on       |
| Tracks by U20  | corroded |                |
                   ^^^^^^^^ battery-left-by-corrosion: "corroded" seen beside Battery; the log does not say that the battery was taken off
`),
    ],
    good: [
      exampleLog(`## Inspection

| Item           | Result   | Note           |
|----------------|----------|----------------|
| BT1            | leaking  |                |
| U20 socket     | corroded |                |

## Work

| Ref | Action  | Note         |
|-----|---------|--------------|
| BT1 | removed | taken to the hazardous-waste point |
`),
      exampleLog(`## Inspection

| Item    | Result | Note                          |
|---------|--------|-------------------------------|
| Battery | ok     | no leakage, renewed last year |
`),
    ],
  },
  *run({ doc, ctx }) {
    const seen = corrosionIn(doc);
    if (!seen || seen.gone) return;
    const batteries = [...(ctx.board?.value.parts.values() ?? [])]
      .filter(({ ref, value }) => /^BT\d/i.test(ref) || (value !== undefined && namesBattery(value)))
      .map(({ ref }) => ref.toUpperCase());
    const taken = workRows(doc).some(({ action, refs, part, actionText, note }) => {
      const about =
        refs.some((ref) => /^BT\d/.test(ref) || batteries.includes(ref)) ||
        [part, actionText, note].some((cell) => cell && namesBattery(cell.text));
      return about && (action === "remove" || action === "replace" || action === "fit-modification");
    });
    if (taken) return;
    yield {
      span: seen.span,
      fact: `"${seen.text}" seen beside ${seen.battery}; the log does not say that the battery was taken off.`,
      step: "Take it off before you repair anything else. Wear gloves and eye protection. Then write it as a row of work.",
    };
  },
  noFix: "The battery has to be taken off.",
});

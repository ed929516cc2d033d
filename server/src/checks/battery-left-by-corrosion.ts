import { workRows } from "../analysis/parts/work";
import { tablesOf } from "../log/document";
import type { CellText } from "../log/model";
import { type Span, shift } from "../text/span";
import { documentCheck } from "./check";
import { exampleLog } from "./example-board";

/** What leaked alkali looks like in words. */
const CORRODED =
  /\b(?:leak(?:s|ed|ing|age)?|corro(?:ded|sion|ding)|alkalin?e?|residue|green|verdigris|furry|crusted)\b/i;
const DENIED = /\b(?:no|not|none|never|without|free of)\b/i;
const BATTERY = /\b(?:BT\d+|batter(?:y|ies)|ni-?cd|ni-?mh|accumulator|coin cell|cells?)\b/i;
const GONE = /\b(?:removed|taken (?:off|out)|gone|cut (?:off|out)|missing|off the board)\b/i;

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
                   ^^^^^^^ battery-left-by-corrosion: nothing says that the battery was taken off
`),
      exampleLog(`## Inspection

| Item           | Result   | Note           |
|----------------|----------|----------------|
| Battery        | old      | still on       |
| Tracks by U20  | corroded |                |
                   ^^^^^^^^ battery-left-by-corrosion: nothing says that the battery was taken off
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
    let corroded: { span: Span; text: string } | undefined;
    let battery: string | undefined;
    let gone = false;
    for (const { start, table } of tablesOf(doc)) {
      if (table.procedure.id !== "inspection") continue;
      for (const row of table.rows) {
        const cells = Object.values(row.cells) as CellText[];
        const typed = table.source.rows[row.index]?.cells ?? [];
        const words = typed.map(({ text }) => text).join(" | ");
        const names = BATTERY.exec(words)?.[0];
        battery ??= names;
        if (names && GONE.test(words)) gone = true;
        const sign = [...typed].find(({ text }) => CORRODED.test(text) && !DENIED.test(text));
        if (sign && !corroded && cells.length > 0)
          corroded = { span: shift(sign.span, start), text: sign.text };
      }
    }
    if (!corroded || battery === undefined || gone) return;
    const batteries = [...(ctx.board?.value.parts.values() ?? [])]
      .filter(({ ref, value }) => /^BT\d/i.test(ref) || (value !== undefined && BATTERY.test(value)))
      .map(({ ref }) => ref.toUpperCase());
    const taken = workRows(doc).some(({ action, refs, part, actionText, note }) => {
      const about =
        refs.some((ref) => /^BT\d/.test(ref) || batteries.includes(ref)) ||
        [part, actionText, note].some((cell) => cell && BATTERY.test(cell.text));
      return about && (action === "remove" || action === "replace" || action === "fit-modification");
    });
    if (taken) return;
    yield {
      span: corroded.span,
      message: `"${corroded.text}" was seen and the log names ${battery}, but nothing says that the battery was taken off. Take it off before anything else is repaired, with gloves and eye protection, and write it as a row of work.`,
    };
  },
  noFix: "The battery has to be taken off.",
});

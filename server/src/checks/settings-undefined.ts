import { type DecodedSetting, decodeBank } from "../compute/memory/switch-settings";
import { someOf } from "../compute/nets/net-text";
import type { LogTable } from "../log/model";
import { type NotedBank, notedBanks, switchOf } from "../review/memory/settings-from-log";
import { blockCheck, type Draft } from "./check";
import { exampleLog } from "./example-board";

export default blockCheck({
  code: "settings-undefined",
  title: "Switches set to something the board does not know, or not to what the log says",
  severity: "warning",
  scope: "block",
  why: "A position without a meaning makes the program do what nobody has written down, and looks like a fault. A setting noted in words that the switches do not show is one of the two noted wrongly, and the owner gets the wrong prices back.",
  remedy:
    "Look at the bank again: it may be fitted upside down, or a lever is between two positions. The hover shows every setting of the bank; completion on a setting's meaning gives the positions.",
  examples: {
    bad: [
      exampleLog(`## Settings

| Bank | 1  | 2   | 3   |
|------|----|-----|-----|
| SW1  | on | off | off |
         ^^ settings-undefined: no meaning for 10
`),
      exampleLog(`## Settings

| Bank | Switch | State | Meaning         |
|------|--------|-------|-----------------|
| SW1  | 1      | off   | Coins: one coin |
                          ^^^^^^^^^^^^^^^ settings-undefined: two coins
| SW1  | 2      | on    |                 |
`),
    ],
    good: [
      exampleLog(`## Settings

| Bank | 1   | 2  | 3   |
|------|-----|----|-----|
| SW1  | off | on | off |

## Settings after repair

| Bank | Switch | State | Meaning          |
|------|--------|-------|------------------|
| SW1  | 1      | off   | Coins: two coins |
| SW1  | 2      | on    | two coins        |
| SW1  | 3      | on    |                  |
`),
    ],
  },
  *run({ block, ctx }) {
    const board = ctx.board?.value;
    if (!board || board.switchBanks.size === 0) return;
    for (const table of block.tables) {
      for (const noted of notedBanks(table, board)) yield* ofBank(noted, table);
    }
  },
  noFix: "Only a look at the bank shows how the switches are set.",
});

function* ofBank(noted: NotedBank, table: LogTable): Iterable<Draft> {
  const { bank, positions, at, twice } = noted;
  for (const reading of twice) {
    yield {
      span: reading.cell.span,
      fact: `Switch ${switchOf(reading)} of ${bank.ref} is noted twice in this table, once on and once off.`,
      step: "Keep the one that is right.",
    };
  }
  for (const decoded of decodeBank(bank, positions).settings) {
    const first = decoded.setting.switches
      .map((number) => at.get(number))
      .find((reading) => reading !== undefined);
    if (!first) continue;
    if (decoded.state === "undefined") {
      yield {
        span: first.cell.span,
        fact: `"${decoded.setting.title}": the board file gives no meaning for ${decoded.pattern} (1 is on).`,
        cause: `It knows ${someOf(
          [...decoded.setting.meaning].map(([pattern, meaning]) => `${pattern} ${meaning}`),
          4,
        )}.`,
        step: `Check switches ${decoded.setting.switches.join(", ")} again.`,
      };
      continue;
    }
    yield* saidOtherwise(decoded, noted, table);
  }
}

/** A meaning written beside a switch that its setting does not have as the switches stand. */
function* saidOtherwise(decoded: DecodedSetting, { bank, at }: NotedBank, table: LogTable): Iterable<Draft> {
  const fold = (text: string) => text.trim().toLowerCase();
  const { setting, candidates, missing } = decoded;
  for (const number of setting.switches) {
    const reading = at.get(number);
    const said = reading && table.shape === "long" ? reading.subject.setting : undefined;
    if (!said) continue;
    const title = fold(setting.title);
    const words = fold(said.text);
    const meaning = words.startsWith(title) ? words.slice(title.length).replace(/^\s*[:=,-]?\s*/, "") : words;
    const known = [...setting.meaning.values()].find((each) => fold(each) === meaning);
    // Other words are the technician's own.
    if (known === undefined || candidates.some((each) => fold(each.meaning) === meaning)) continue;
    const means = [...new Set(candidates.map((each) => each.meaning))].join(" or ");
    yield {
      span: said.span,
      fact: `${bank.ref} switches ${setting.switches.join(", ")} are at ${decoded.pattern}${missing.length > 0 ? " (? is not noted)" : ""}: this means ${means}, not ${known}.`,
      step: "Check the switches, or correct the meaning.",
    };
  }
}

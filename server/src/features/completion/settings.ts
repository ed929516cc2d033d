// Switch banks: what each position would mean, and the positions that give a meaning.

import { defined } from "../../base/defined";
import { decodeBank, encodeBank } from "../../compute/memory/switch-settings";
import type { SwitchBank, SwitchBankSetting } from "../../knowledge/types";
import type { CellPosition } from "../../log/position";
import { bankOf, notedBanks, switchOf } from "../../review/memory/settings-from-log";
import type { Completion } from "../types";
import type { LogView } from "../view";

interface Place {
  readonly bank: SwitchBank;
  readonly number: number;
  readonly setting: SwitchBankSetting;
}

/** The switch a cell's row, or in a grid its column, is about. */
function placeOf(view: LogView, at: CellPosition): Place | undefined {
  const board = view.ctx.board?.value;
  const row = at.table.rows[at.row]?.cells ?? {};
  const header = at.table.shape === "wide" ? at.table.columns[at.column]?.header : undefined;
  const subject = at.reading?.subject ?? {
    ...row,
    ...(header ? { switch: { text: header.text, span: header.span } } : {}),
  };
  const bank = board && bankOf({ subject }, board);
  const number = switchOf({ subject });
  const setting = bank?.settings.find(({ switches }) => number !== undefined && switches.includes(number));
  return bank && number !== undefined && setting ? { bank, number, setting } : undefined;
}

/** On and off, each with what the bank would mean then; the one that gives the setting written beside it first. */
export function switchStates(view: LogView, at: CellPosition): readonly Completion[] {
  const place = placeOf(view, at);
  const wanted = place && wantedState(place, at);
  const items = [true, false].map((on): Completion => {
    const word = on ? "on" : "off";
    const meaning = place && meaningWith(view, at, place, on);
    return defined({
      label: word,
      kind: "value",
      description: meaning,
      span: at.edit,
      newText: word,
      preselect: wanted === on ? true : undefined,
    });
  });
  const dash: Completion = {
    label: "-",
    kind: "value",
    description: "not noted",
    span: at.edit,
    newText: "-",
  };
  return [...items.sort((a, b) => Number(b.preselect ?? false) - Number(a.preselect ?? false)), dash];
}

function meaningWith(view: LogView, at: CellPosition, place: Place, on: boolean): string {
  const board = view.ctx.board!.value;
  const noted = notedBanks(at.table, board).find(({ bank }) => bank === place.bank);
  const positions = new Map(noted?.positions ?? []).set(place.number, on);
  const decoded = decodeBank(place.bank, positions).settings.find(({ setting }) => setting === place.setting);
  const means = [...new Set(decoded?.candidates.map(({ meaning }) => meaning))];
  return `${place.setting.title}: ${means.length > 0 ? means.join(" or ") : "no meaning in the board file"}`;
}

/** The position that the words written in the table ask for. */
function wantedState({ bank, number, setting }: Place, at: CellPosition): boolean | undefined {
  const fold = (text: string) => text.trim().toLowerCase();
  for (const { cells } of at.table.rows) {
    const words =
      cells.ref?.text.toUpperCase() === bank.ref.toUpperCase() ? fold(cells.setting?.text ?? "") : undefined;
    if (!words?.startsWith(fold(setting.title))) continue;
    const meaning = words.slice(setting.title.length).replace(/^\s*[:=,-]?\s*/, "");
    const encoded = encodeBank(bank, new Map([[setting.title, meaning]]));
    if (encoded.ok) return encoded.positions.get(number);
  }
  return undefined;
}

/** Every meaning of the switch's setting with the positions that give it; of the whole bank where no switch is named. */
export function settingMeanings(view: LogView, at: CellPosition): readonly Completion[] {
  const board = view.ctx.board?.value;
  if (!board) return [];
  const row = at.table.rows[at.row]?.cells ?? {};
  const place = placeOf(view, at);
  const bank = bankOf({ subject: row }, board);
  const banks = bank ? [bank] : [...board.switchBanks.values()];
  return banks.flatMap((each) =>
    each.settings
      .filter((setting) => !place || setting === place.setting)
      .flatMap((setting) =>
        [...setting.meaning].map(
          ([pattern, meaning]): Completion => ({
            label: `${setting.title}: ${meaning}`,
            kind: "value",
            description: `${each.ref} ${setting.switches.map((at, i) => `${at} ${pattern[i] === "1" ? "on" : "off"}`).join(", ")}`,
            span: at.edit,
            newText: `${setting.title}: ${meaning}`,
          }),
        ),
      ),
  );
}

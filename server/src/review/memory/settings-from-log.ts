// A log's settings tables as positions of the board's switch banks.

import type { Positions } from "../../compute/memory/switch-settings";
import type { Board, SwitchBank } from "../../knowledge/types";
import type { LogTable, Reading } from "../../log/model";

/** A bank as one table noted it; true in `positions` is on. */
export interface NotedBank {
  readonly bank: SwitchBank;
  readonly positions: Positions;
  /** By switch number. Spans are of the block. */
  readonly at: ReadonlyMap<number, Reading>;
  /** Switches noted twice in the table with different states. */
  readonly twice: readonly Reading[];
}

/** The banks a settings table speaks of. Banks and switches the board file does not have are left out. */
export function notedBanks(table: LogTable, board: Board): readonly NotedBank[] {
  if (table.kind.holds !== "settings") return [];
  interface Draft {
    readonly positions: Map<number, boolean>;
    readonly at: Map<number, Reading>;
    readonly twice: Reading[];
  }
  const banks = new Map<SwitchBank, Draft>();
  for (const reading of table.readings) {
    if (reading.spec.role !== "state") continue;
    const bank = bankOf(reading, board);
    const number = switchOf(reading);
    const on = isOn(reading.value.typed);
    if (!bank || number === undefined || on === undefined) continue;
    const noted: Draft = banks.get(bank) ?? { positions: new Map(), at: new Map(), twice: [] };
    banks.set(bank, noted);
    if (noted.positions.has(number) && noted.positions.get(number) !== on) noted.twice.push(reading);
    noted.positions.set(number, on);
    noted.at.set(number, reading);
  }
  return [...banks].map(([bank, noted]) => ({ bank, ...noted }));
}

/** The board's bank that a row names, whatever its case; undefined for one that the board file does not have. */
export function bankOf({ subject }: Pick<Reading, "subject">, board: Board): SwitchBank | undefined {
  const typed = subject.ref?.text.toUpperCase();
  return [...board.switchBanks.values()].find(({ ref }) => ref.toUpperCase() === typed);
}

/** The number of the switch that a row names: 3 of "3", "switch 3" and "SW1-3"; undefined where it names none. */
export function switchOf({ subject }: Pick<Reading, "subject">): number | undefined {
  const digits = /(\d{1,2})$/.exec(subject.switch?.text.trim() ?? "")?.[1];
  return digits === undefined ? undefined : Number(digits);
}

/** Undefined for words that depend on how the bank was fitted, as up and down. */
export function isOn(typed: string): boolean | undefined {
  if (/^(?:on|1|closed|yes)$/i.test(typed)) return true;
  if (/^(?:off|0|open|no)$/i.test(typed)) return false;
  return undefined;
}

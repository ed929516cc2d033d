import type { ShopNumbers } from "../../review/numbers";
import type { PlaceColumns } from "../../review/numbers/types";

export interface StatsSource {
  readonly numbers: ShopNumbers;
  readonly shop?: string | undefined;
  /** What a board and a test procedure are called, by their ids. */
  boardTitle(id: string): string;
  procedureTitle(id: string): string;
}

/** "Supply rails, loaded: ripple", "Diode check": what was read at a place. */
export function testWords({ procedure, measure, load }: PlaceColumns, source: StatsSource): string {
  const title = source.procedureTitle(procedure);
  const words = load === null ? title : `${title}, ${load}`;
  return measure === "drop" || measure === "resistance" || measure === "voltage" || measure === "reading"
    ? words
    : `${words}: ${measure}`;
}

/** The same for two rows of one place. */
export const placeKeyOf = ({ board, procedure, measure, load, place }: PlaceColumns): string =>
  JSON.stringify([board, procedure, measure, load, place]);

/** "1 board", "7 boards". */
export const counted = (count: number, one: string, many = `${one}s`): string =>
  `${count} ${count === 1 ? one : many}`;

/** A share in whole percent; below one percent it says so. */
export function percentText(share: number): string {
  const whole = Math.round(share * 100);
  return whole === 0 && share > 0 ? "below 1 %" : `${whole} %`;
}

// Where parts stand on the board, as far as their printed places say.
import type { Part } from "../../knowledge/types";

/** Board places as printed: a letter and a number. Neighbours differ by one at most in each. */
export function isNear(part: Part, battery: Part): boolean {
  const a = place(part.location);
  const b = place(battery.location);
  return a !== undefined && b !== undefined && Math.abs(a[0] - b[0]) <= 1 && Math.abs(a[1] - b[1]) <= 1;
}

function place(location: string | undefined): readonly [number, number] | undefined {
  const match = /^([A-Z])(\d+)$/i.exec(location ?? "");
  return match ? [(match[1] ?? "").toUpperCase().charCodeAt(0), Number(match[2])] : undefined;
}

// Where parts stand on the board, as far as their printed places say, and which of their pins stand side by side.
import type { Part, PinRef } from "../../knowledge/types";
import type { BoardModel } from "./board-model";

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

/** A pin of the first net with one of the other beside it on the same part: where solder would join the two. */
export function sideBySide(model: BoardModel, one: string, other: string): PinRef | undefined {
  const [a, b] = [one, other].map((name) => model.board.nets.get(name));
  if (!a || !b) return undefined;
  const few = a.pins.length <= b.pins.length ? a : b;
  const many = few === a ? b : a;
  return few.pins.find(({ ref, pin }) => {
    const at = Number(pin);
    return [at - 1, at + 1].some((next) => model.netAt(ref, String(next)) === many);
  });
}

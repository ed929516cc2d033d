// What the work noted in a log left off the board: a chip pulled and not put back is out for the tables that follow.
import { type Disconnection, disconnectionsIn } from "../disconnections";
import { type LogDocument, tablesOf } from "../document";
import type { LogTable } from "../model";
import { type RowOfWork, rowsOfWork } from "./work";

/** Words of work that put a part back where it was. */
const BACK =
  /\b(?:put|plugged|pushed|soldered)\s+(?:back|in)\b|\bback in\b|\bre-?(?:fit|seat|insert|instal|solder|flow|connect)|\bplugged in\b/i;

/** Tables whose readings were taken with something off, by what the work before them says was done. */
export function leftOff(doc: LogDocument): ReadonlyMap<LogTable, readonly Disconnection[]> {
  const found = new Map<LogTable, readonly Disconnection[]>();
  const off = new Map<string, Disconnection>();
  for (const { table } of tablesOf(doc)) {
    if (table.kind.holds === "work") {
      for (const row of rowsOfWork(table)) if (row.state !== "planned") work(row, off);
      continue;
    }
    if (off.size === 0) continue;
    // A part that is itself read without a word of its being out is back in.
    const read = new Set(table.readings.flatMap(({ subject }) => subject.ref?.text.toUpperCase() ?? []));
    const still = [...off.values()].filter(({ ref }) => ref !== undefined && !read.has(ref.toUpperCase()));
    if (still.length > 0) found.set(table, still);
  }
  return found;
}

function work({ ref: named, action, actionText, note }: RowOfWork, off: Map<string, Disconnection>): void {
  const ref = named?.text;
  if (ref === undefined) return;
  const words = actionText?.text ?? "";
  const said = `${words} ${note?.text ?? ""}`;
  const key = ref.toUpperCase();
  const pins = disconnectionsIn(said).filter(({ how, pin }) => how === "lifted" && pin !== undefined);
  if (BACK.test(said) || ["replace", "fit", "socket", "reflow"].includes(action ?? "")) {
    for (const [name, { ref: of }] of off) if (of?.toUpperCase() === key) off.delete(name);
  } else if (pins.length > 0) {
    for (const { pin } of pins) if (pin !== undefined) off.set(`${key}.${pin}`, { ref, pin, how: "lifted" });
  } else if (action === "remove" || /\b(?:unplug|disconnect|lift)/i.test(words)) {
    off.set(key, { ref, how: "out" });
  }
}

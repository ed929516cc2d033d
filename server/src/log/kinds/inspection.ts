import type { Board } from "../../knowledge/types";
import type { KindRecord, NewLogRow } from "./kind";

export default {
  id: "inspection",
  inJob: 10,
  holds: "inspection",
  place: "item",
  judgedBy: "expected",
  observedAs: "look",
  acrossJobs: "expected",
  newLog: { columns: ["item", "result", "note"], rows: ({ file }) => inspected(file) },
} satisfies KindRecord;

/** What to look at first on a board of that age, all of it where no file lists the parts: common practice, no source. */
function inspected(board: Board | undefined): readonly NewLogRow[] {
  const refs = [...(board?.parts.keys() ?? [])];
  const battery = board === undefined || board.backups.length > 0 || refs.some((ref) => /^BT?\d/i.test(ref));
  const fuses = board === undefined || refs.some((ref) => /^F\d/i.test(ref));
  return [
    ...(battery ? ["Battery and the board around it"] : []),
    "Headers and their joints",
    "Burnt, bulged or missing parts",
    "Sockets and legs of chips",
    ...(fuses ? ["Fuses, value and wire"] : []),
    "Earlier repairs, cuts and jumpers",
  ].map((item) => ({ item }));
}

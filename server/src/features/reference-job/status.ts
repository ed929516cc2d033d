// What is made of a job that is taken as the reference, for the hover over its key.
import { placesOf } from "../../judge/baseline/places";
import { emptyBoard } from "../../judge/stated/lay-over";
import { summarise } from "../../log/summary";
import { type Markdown, markdown, md } from "../../text/markdown";
import type { LogView } from "../view";

/** Undefined where the log is none. */
export function referenceStatus({ doc, front, ctx, earlier }: LogView): Markdown | undefined {
  const { board, job } = front;
  if (!front.reference) return undefined;
  if (!board) return markdown`It is not used yet: the log does not say which board it is of.`;
  const back = [...(earlier?.values() ?? [])].find(
    (log) => log.board === board && job !== undefined && log.comebackOf === job,
  );
  if (back)
    return markdown`It is not used: the board came back as ${md(back.job ?? "another job")}, so what was missed may be among its readings.`;
  const summary = summarise(doc);
  const places = placesOf(summary, ctx.board?.value ?? emptyBoard(board, board), ctx.library);
  const read = summary.tables.reduce((sum, { readings }) => sum + readings.length, 0);
  const left = read - places.size;
  const count = places.size === 1 ? markdown`1 place` : markdown`${places.size} places`;
  const out =
    left > 0
      ? markdown` The other ${left} of its readings are not: read again later, of a replaced part, out of limits before the repair, or not one value.`
      : "";
  return markdown`Its readings at ${count} are used for other boards of ${md(board)}, once the log is saved.${out}`;
}

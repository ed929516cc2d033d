// What rows of a long table take over from its heading or its header. A piece of such a table may stand anywhere, so that it cannot
// say how far from it they are: their spans are counted from far in front of the block, in all pieces alike.
import type { Span } from "../text/span";
import { shift } from "../text/span";
import type { CellText, Subject } from "./model";

/** Further than any text is long. */
export const FROM_HEAD = -(2 ** 40);

/** True for a span of a piece that stands in its table's heading or header. */
export const isFromHead = ({ start }: Span): boolean => start < FROM_HEAD / 2;

/** @param subject with spans of the block; those that have been told to be of the head are left as they are */
export const subjectFromHead = <S extends Subject>(subject: S): S =>
  mapSubject(subject, (cell) =>
    isFromHead(cell.span) ? cell : { text: cell.text, span: shift(cell.span, FROM_HEAD) },
  );

export function mapSubject<S extends Subject>(subject: S, change: (cell: CellText) => CellText): S {
  const all: { [role: string]: CellText } = {};
  for (const role in subject) {
    const said = subject[role as keyof Subject];
    if (said) all[role] = change(said);
  }
  return all as S;
}

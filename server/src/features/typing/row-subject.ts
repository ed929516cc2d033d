// What the rows of a table say of their chip and its pin, in cells of their own or in one: "U5-4".
import { defined } from "../../base/defined";
import { partWords } from "../../log/part-words";
import { span } from "../../text/span";
import type { Sheet, Texts } from "./sheet";

/** What a row is about. */
export interface RowSubject {
  readonly ref: string | undefined;
  /** "" where no pin is named. */
  readonly pin: string;
  /** True where the row names its chip itself. */
  readonly own: boolean;
  /** The cell that has both in it, and what stands in it around the pin. */
  readonly both?: { readonly column: number; readonly before: string; readonly behind: string };
}

export const partWordsIn = ({ view }: Sheet, text: string | undefined) =>
  text === undefined || text === ""
    ? undefined
    : partWords({ text, span: span(0, text.length) }, view.ctx.library);

/** Each row with its designator, taken from above where it is left blank. */
export function rowSubjects(
  sheet: Sheet,
  rows: readonly Texts[],
  refColumn: number,
  pinColumn: number,
): RowSubject[] {
  let ref = sheet.table.section.ref?.text;
  return rows.map((texts): RowSubject => {
    const named = texts[refColumn] ?? "";
    const column = partWordsIn(sheet, texts[pinColumn])?.pin ? pinColumn : refColumn;
    const words = partWordsIn(sheet, texts[column]);
    const own = words?.ref.text ?? named;
    if (own !== "") ref = own;
    const text = texts[column] ?? "";
    return defined({
      ref,
      own: own !== "",
      pin: words?.pin?.text ?? texts[pinColumn] ?? "",
      both: words?.pin
        ? {
            column,
            before: text.slice(0, words.pin.span.start),
            behind: text.slice(words.pin.span.end),
          }
        : undefined,
    });
  });
}

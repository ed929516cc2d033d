import type { Section } from "../../log/model";
import { joined, md } from "../../text/markdown";
import { span } from "../../text/span";
import { byRef, partLine } from "../shared/describe";
import { cautionLines } from "../shared/documentation";
import type { Completion } from "../types";
import type { LogView } from "../view";
import { boardTables } from "./board-table";
import { chipTables } from "./chip-table";
import { headingNotes } from "./notes";
import { namedOnly } from "./refs";

/** Headings behind `#`, whole readings tables on a line of their own, designators inside a sentence. */
export function completeProse(view: LogView, offset: number, section: Section): readonly Completion[] {
  const { text } = view.doc;
  const lineStart =
    offset === 0 ? 0 : Math.max(...["\n", "\r"].map((end) => text.lastIndexOf(end, offset - 1))) + 1;
  const before = text.slice(lineStart, offset);
  const heading = /^(#{1,6})(?:[ \t]+(.*))?$/.exec(before);
  if (heading && /\bwith(?:out)?\s+[A-Za-z]*\d*$/i.test(before)) return headingNotes(view, offset, before);
  // Below a line of prose a lone mark is rather a number's: "#3".
  if (heading && heading[2] === undefined && isInParagraph(text, lineStart)) return [];
  if (heading)
    return [
      ...headings(view, lineStart, offset, heading[1] ?? "##"),
      ...(/\s\S+\s+\S*$/.test(before) ? designatorCompletions(view, offset, before) : []),
    ];
  if (isTableBegun(before))
    return [
      ...boardTables(view, section, lineStart, offset),
      ...chipTables(view, section, lineStart, offset),
    ];
  return designatorCompletions(view, offset, before);
}

/** True where the line above is one of prose. */
const isInParagraph = (text: string, lineStart: number): boolean => {
  const above =
    text.slice(0, lineStart).trimEnd() === "" ? "" : text.slice(0, lineStart).replace(/\r?\n$/, "");
  const line = above.slice(Math.max(above.lastIndexOf("\n"), above.lastIndexOf("\r")) + 1).trim();
  return line !== "" && !/^(?:#|\||---|>|<!--)/.test(line);
};

function headings(view: LogView, lineStart: number, offset: number, marks: string): Completion[] {
  const lineEnd = /[\r\n]|$/.exec(view.doc.text.slice(offset));
  const end = offset + (lineEnd?.index ?? 0);
  return view.ctx.library.procedures.flatMap((procedure) => {
    const one = (title: string): Completion => ({
      label: `${marks} ${title}`,
      kind: "heading",
      description: procedure.powered === "either" ? "" : procedure.powered,
      documentation: joined([md(procedure.purpose), ...cautionLines(procedure.cautions)], "\n\n"),
      span: span(lineStart, end),
      newText: `${marks} ${title}`,
    });
    const repeated = procedure.columns.some((column) => column.role === "reading" || column.role === "state");
    return repeated ? [one(procedure.title), one(`${procedure.title} after repair`)] : [one(procedure.title)];
  });
}

/** One word of a name on a line of its own, or a designator with the beginning of its number behind it. */
export const isTableBegun = (before: string): boolean =>
  /^[ \t]*(?:\|[ \t]*)?(?:\w[\w/.-]*|(?:[A-Z]{1,4}\d{1,4}[A-Z]?|\d{1,2}[A-Z]\d?)[ \t]+[\w.-]*)?$/.test(
    before,
  );

/** Designators that begin like the word before the cursor, which is written with a capital. */
export function designatorCompletions(view: LogView, offset: number, before: string): Completion[] {
  const board = view.ctx.board?.value;
  const word = /[A-Za-z]{1,3}\d*$/.exec(before)?.[0];
  if (word === undefined || !/^[A-Z]/.test(word)) return [];
  const edit = span(offset - word.length, offset);
  const known = [...(board?.parts.values() ?? [])]
    .sort((a, b) => byRef(a.ref, b.ref))
    .map(
      (part): Completion => ({
        label: part.ref,
        kind: "part",
        description: board ? partLine(part, board, view.ctx) : "",
        span: edit,
        newText: part.ref,
      }),
    );
  return [...known, ...namedOnly(view, { edit })].filter(({ label }) =>
    label.toUpperCase().startsWith(word.toUpperCase()),
  );
}

// The parts list in the log: written, brought up to date and taken out again on demand, and never otherwise.

import { memo } from "../../base/memo";
import type { Steps } from "../../base/steps";
import { endOf, LogReader } from "../../log/document";
import { isOfWork, kindOf } from "../../log/kinds";
import { type PartsSection, partsSections, writePartsSection } from "../../log/parts-section";
import { type PartsList, partsList } from "../../review/parts/list";
import { suggestionSteps } from "../../review/parts/suggest";
import type { TextEdit } from "../../text/edits";
import type { Span } from "../../text/span";
import type { SuspectsSection } from "../shared/diagnosis";
import type { Refactor } from "../types";
import type { LogView } from "../view";
import { partsMarkdown } from "./markdown";

const HEADING = "## Parts list";

const lists = memo((_view: LogView): { made?: PartsList } => ({}));

/** The parts list of a log as it stands, made once for a view. */
export function partsListOf(view: LogView): PartsList {
  const list = lists(view);
  list.made ??= partsList(view);
  return list.made;
}

/** The slow part of it in steps, for callers that have to let others in between. */
export function* partsListSteps(view: LogView): Steps<void> {
  if (!lists(view).made) yield* suggestionSteps(view);
}

/** True where actions are offered for which the list has to be made. */
export function wantsPartsList(view: LogView, selected: Span): boolean {
  const { sections, loose } = partsSections(view.doc);
  if (loose.length > 0 || sections.length > 1) return false;
  const [section] = sections;
  return (section !== undefined && isWithin(section.span, selected)) || atWork(view, selected);
}

/**
 * What is offered in the front matter, at the title, at a table of work or of parts fitted, and in the list itself.
 * Nothing where a comment of the section lacks the other one or there are two sections: then which text is ours is
 * not known, and a finding says so.
 */
export function partsListActions(view: LogView, selected: Span): readonly Refactor[] {
  if (!wantsPartsList(view, selected)) return [];
  const [section] = partsSections(view.doc).sections;
  if (!section) {
    const edit = insertion(view);
    return edit ? [{ title: "Write the parts list", edits: [edit] }] : [];
  }
  const edit = update(view, section);
  const title = section.edited ? "Overwrite the edited parts list" : "Update the parts list";
  return [
    ...(edit ? [{ title, edits: [edit] }] : []),
    ...(section.edited ? [] : [{ title: "Take the parts list out", edits: [removal(view, section)] }]),
  ];
}

/** The edit that brings the list up to date, or puts it at the end of the log: what a command asks for, wherever it was given. */
export function writePartsList(view: LogView): SuspectsSection {
  const { sections, loose } = partsSections(view.doc);
  const [section] = sections;
  if (loose.length > 0 || sections.length > 1)
    return { ok: false, reason: "It is not clear which parts list is meant. Correct its comments first." };
  // What somebody changed in it is theirs; the quick fix that writes over it says so.
  if (section?.edited)
    return {
      ok: false,
      reason: "The parts list was edited by hand and stays as it is. Ctrl+. on it overwrites it.",
    };
  const edit = section ? update(view, section) : insertion(view);
  if (!edit && !section)
    return { ok: false, reason: "An open fence or comment at the end of the log would hide the parts list." };
  return { ok: true, edit };
}

/** What is selected lies in the place: who selects the whole log asks for something else. */
const isWithin = (place: Span, selected: Span): boolean =>
  selected.start >= place.start && selected.end <= place.end;

/** In the front matter, on the title, or in a section of work or of parts fitted. */
function atWork({ doc }: LogView, selected: Span): boolean {
  const front = doc.parsed.frontMatter?.content;
  if (front && isWithin({ start: 0, end: front.end + 4 }, selected)) return true;
  return doc.blocks.some(({ start, block }) =>
    block.sections.some(({ heading, procedure }, index) => {
      const isWork = procedure !== undefined && isOfWork(kindOf(procedure.id));
      if (!heading || !(heading.depth === 1 || isWork)) return false;
      const next = block.sections[index + 1]?.heading;
      const end = heading.depth === 1 ? heading.span.end : (next?.span.start ?? block.source.text.length) - 1;
      return isWithin({ start: start + heading.span.start, end: start + end }, selected);
    }),
  );
}

const eolOf = (text: string): string => (text.includes("\r\n") ? "\r\n" : "\n");

const sectionText = (view: LogView, gap: number): string => {
  const eol = eolOf(view.doc.text);
  return writePartsSection(partsMarkdown(partsListOf(view)).join(eol), gap, eol);
};

/** At the end of the log; undefined where the end lies in something that would swallow it, such as an open fence. */
function insertion(view: LogView): TextEdit | undefined {
  const { doc, ctx } = view;
  const end = endOf(doc);
  const text = doc.text.slice(0, end);
  const eol = eolOf(doc.text);
  const gap = /(\r?\n){2}$/.test(text) ? 0 : text.endsWith("\n") ? 1 : 2;
  // Another board's heading may follow.
  const behind = end < doc.text.length ? eol : "";
  const newText = `${eol.repeat(gap)}${HEADING}${eol}${eol}${sectionText(view, gap)}${eol}${behind}`;
  const last = doc.blocks.at(-1)?.block.source.text ?? "";
  const tail = new LogReader(doc.uri).read(last + newText, ctx.library);
  if (partsSections(tail).sections.length !== 1) return undefined;
  return { span: { start: end, end }, newText };
}

function update(view: LogView, { span, gap }: PartsSection): TextEdit | undefined {
  const newText = sectionText(view, gap);
  return view.doc.text.slice(span.start, span.end) === newText ? undefined : { span, newText };
}

/** The section with the heading and the blank lines that were written with it, where they still stand before it. */
function removal({ doc }: LogView, { span, gap }: PartsSection): TextEdit {
  const before = doc.text.slice(0, span.start);
  const eol = /^\r?\n/.exec(doc.text.slice(span.end))?.[0] ?? "";
  const heading = new RegExp(`(?:\\r?\\n){${gap}}${HEADING}\\r?\\n\\r?\\n$`).exec(before);
  return {
    span: { start: heading ? heading.index : span.start, end: span.end + eol.length },
    newText: "",
  };
}

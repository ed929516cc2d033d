import { type Span, shift, slice } from "../../text/span";
import { symbolsOf } from "../symbols";
import type { DocumentSymbol, Fold } from "../types";
import type { LogView } from "../view";

/** What can be folded away: front matter, sections by their headings, tables, comments of several lines. */
export function foldingRanges(view: LogView): readonly Fold[] {
  const { doc } = view;
  const folds: Fold[] = [];
  const visit = (symbol: DocumentSymbol): void => {
    if (symbol.kind === "field") folds.push({ span: symbol.span, kind: "front-matter" });
    if (symbol.kind === "section") folds.push({ span: symbol.span, kind: "section" });
    if (symbol.kind === "readings") folds.push({ span: symbol.span, kind: "table" });
    for (const child of symbol.children) visit(child);
  };
  for (const symbol of symbolsOf(view)) visit(symbol);
  for (const { start, block } of doc.blocks) {
    for (const table of block.proseTables)
      folds.push({ span: shift(table.source.span, start), kind: "table" });
    for (const comment of block.comments) folds.push({ span: shift(comment.span, start), kind: "comment" });
  }
  // A comment that is never closed runs to the end of the text; a section ends with its last words, and so must it.
  const trimmed = folds.map(({ span, kind }) => ({ span: withoutBlanks(doc.text, span), kind }));
  return trimmed.filter(({ span }) => /[\r\n]/.test(slice(doc.text, span)));
}

const withoutBlanks = (text: string, span: Span): Span => ({
  start: span.start,
  end: span.start + slice(text, span).trimEnd().length,
});

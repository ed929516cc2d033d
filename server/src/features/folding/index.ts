import { shift } from "../../text/span";
import { symbolsOf } from "../symbols";
import type { DocumentSymbol, Fold } from "../types";
import type { LogView } from "../view";

/** What can be folded away: front matter, sections by their headings, tables, comments of several lines. */
export function foldsOf(view: LogView): readonly Fold[] {
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
  return folds.filter(({ span }) => doc.text.slice(span.start, span.end).includes("\n"));
}

import {
  type FoldingRange,
  FoldingRangeKind,
  type SymbolInformation,
  SymbolKind as WireKind,
  type DocumentSymbol as WireSymbol,
} from "vscode-languageserver";
import { defined } from "../base/defined";
import type { DocumentSymbol, Fold, SymbolKind } from "../features/types";
import type { ClientAbilities } from "./client-abilities";
import { toLspRange } from "./convert";
import type { OpenDocument } from "./documents";

const KINDS: Readonly<Record<SymbolKind, WireKind>> = {
  section: WireKind.String,
  readings: WireKind.Array,
  field: WireKind.Field,
  part: WireKind.Class,
  net: WireKind.Interface,
  rail: WireKind.Constant,
  group: WireKind.Namespace,
};

/** A tree where the client takes one, else the same names one after another, each with the name of its parent. */
export function toLspSymbols(
  symbols: readonly DocumentSymbol[],
  document: OpenDocument,
  can: ClientAbilities,
): WireSymbol[] | SymbolInformation[] {
  return can.symbolTree
    ? symbols.map((symbol) => tree(symbol, document))
    : symbols.flatMap((symbol) => flat(symbol, document, undefined));
}

function tree(symbol: DocumentSymbol, document: OpenDocument): WireSymbol {
  return defined({
    name: nameOf(symbol),
    detail: symbol.detail,
    kind: KINDS[symbol.kind],
    range: toLspRange(document.lines, symbol.span),
    selectionRange: toLspRange(document.lines, symbol.selection),
    children: symbol.children.map((child) => tree(child, document)),
  });
}

function flat(
  symbol: DocumentSymbol,
  document: OpenDocument,
  parent: string | undefined,
): SymbolInformation[] {
  const name = nameOf(symbol);
  const own: SymbolInformation = defined({
    name,
    kind: KINDS[symbol.kind],
    location: { uri: document.clientUri, range: toLspRange(document.lines, symbol.span) },
    containerName: parent,
  });
  return [own, ...symbol.children.flatMap((child) => flat(child, document, name))];
}

/** Editors refuse a whole outline in which one name is empty; a heading may well be, while it is typed. */
const nameOf = ({ name }: DocumentSymbol): string => (name.trim() === "" ? "(no name)" : name);

/** Folds of at least two lines. Where there are more than the client shows, the longest are kept. */
export function toLspFolds(
  folds: readonly Fold[],
  { lines }: OpenDocument,
  can: ClientAbilities,
): FoldingRange[] {
  const ranges = folds.flatMap(({ span, kind }): FoldingRange[] => {
    const { start, end } = toLspRange(lines, span);
    // A span that ends where a line begins does not reach into that line.
    const endLine = end.character === 0 && end.line > start.line ? end.line - 1 : end.line;
    if (endLine <= start.line) return [];
    return [
      defined({
        startLine: start.line,
        endLine,
        startCharacter: !can.foldLinesOnly
          ? lines.lineEnd(start.line) - lines.lineStart(start.line)
          : undefined,
        endCharacter: !can.foldLinesOnly ? lines.lineEnd(endLine) - lines.lineStart(endLine) : undefined,
        kind: kind === "comment" ? FoldingRangeKind.Comment : FoldingRangeKind.Region,
      }),
    ];
  });
  if (can.foldLimit === undefined || ranges.length <= can.foldLimit) return ranges;
  const length = (range: FoldingRange) => range.endLine - range.startLine;
  return ranges.sort((a, b) => length(b) - length(a)).slice(0, can.foldLimit);
}

import {
  type CompletionItem,
  CompletionItemKind,
  type CompletionList,
  InsertTextFormat,
  MarkupKind,
} from "vscode-languageserver";
import type { Completion, CompletionKind } from "../features/types";
import type { Abilities } from "./abilities";
import { type LinedText, rangeOf } from "./convert";

const KINDS: Readonly<Record<CompletionKind, CompletionItemKind>> = {
  field: CompletionItemKind.Field,
  value: CompletionItemKind.Value,
  part: CompletionItemKind.Class,
  pin: CompletionItemKind.Interface,
  unit: CompletionItemKind.Unit,
  device: CompletionItemKind.Module,
  heading: CompletionItemKind.Text,
  table: CompletionItemKind.Struct,
  symptom: CompletionItemKind.Event,
  board: CompletionItemKind.File,
  keyword: CompletionItemKind.Keyword,
};

/**
 * Every item says itself what it replaces: clients differ in what they take for a word in Markdown. The list is
 * complete, so that the client narrows it down without asking again.
 */
export function completionList(
  items: readonly Completion[],
  { lines }: LinedText,
  can: Abilities,
): CompletionList {
  const width = String(items.length).length;
  return {
    isIncomplete: false,
    items: items.map((item, index): CompletionItem => {
      const snippet = can.snippets ? item.snippet : undefined;
      return {
        label: item.label,
        kind: KINDS[item.kind],
        sortText: String(index).padStart(width, "0"),
        textEdit: { range: rangeOf(lines, item.span), newText: snippet ?? item.newText },
        insertTextFormat: snippet === undefined ? InsertTextFormat.PlainText : InsertTextFormat.Snippet,
        ...(item.description !== undefined &&
          (can.labelDetails
            ? { labelDetails: { description: item.description } }
            : { detail: item.description })),
        ...(item.documentation !== undefined && {
          documentation: {
            kind: can.completionMarkdown ? MarkupKind.Markdown : MarkupKind.PlainText,
            value: item.documentation,
          },
        }),
        ...(item.filterText !== undefined && { filterText: item.filterText }),
        ...(item.preselect && { preselect: true }),
      };
    }),
  };
}

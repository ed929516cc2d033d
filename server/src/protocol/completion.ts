import {
  type CompletionItem,
  CompletionItemKind,
  type CompletionList,
  InsertTextFormat,
} from "vscode-languageserver";
import type { Completion, CompletionKind } from "../features/types";
import type { ClientAbilities } from "./client-abilities";
import { SUGGEST_AGAIN } from "./command-names";
import { contentOf } from "./content";
import { type LinedText, toLspRange } from "./convert";

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
 * complete, so that the client narrows it down without asking again, except where the whole library would have to be in it.
 */
export function completionList(
  all: readonly Completion[],
  { lines }: LinedText,
  can: ClientAbilities,
  later?: LaterDocumentation,
): CompletionList {
  // A name that is not written yet can be nobody's choice, nor what an editor would have to fill in and cannot.
  const items = all.filter(
    ({ label, variables }) => label.trim() !== "" && (!variables || can.snippetVariables),
  );
  const list = later?.remember(items);
  const width = String(items.length).length;
  return {
    isIncomplete: items.some(({ oneOfMany }) => oneOfMany),
    items: items.map((item, index): CompletionItem => {
      const filled = can.nextRow && can.snippetVariables ? item.filled : undefined;
      const snippet = can.snippets ? (filled ?? item.snippet) : undefined;
      return {
        label: item.label,
        ...(can.completionKinds.has(KINDS[item.kind]) && { kind: KINDS[item.kind] }),
        sortText: String(index).padStart(width, "0"),
        textEdit: { range: toLspRange(lines, item.span), newText: snippet ?? item.newText },
        insertTextFormat: snippet === undefined ? InsertTextFormat.PlainText : InsertTextFormat.Snippet,
        ...(item.description !== undefined &&
          (can.labelDetails
            ? { labelDetails: { description: item.description } }
            : { detail: item.description })),
        ...(item.documentation === undefined || item.documentation === ""
          ? {}
          : list === undefined
            ? { documentation: contentOf(item.documentation, can.completionMarkdown) }
            : { data: { list, index } satisfies LaterData }),
        ...(item.filterText !== undefined && { filterText: item.filterText }),
        ...(item.preselect && { preselect: true }),
        ...(item.thenSuggest && can.suggestAgain && { command: { title: "", command: SUGGEST_AGAIN } }),
      };
    }),
  };
}

interface LaterData {
  readonly list: number;
  readonly index: number;
}

/**
 * What the items of the last list say of themselves: most are never looked at, and the texts are most of a list. An item
 * of an older list, which no editor shows any more, stays without.
 */
export class LaterDocumentation {
  readonly #can: ClientAbilities;
  #list = 0;
  #items: readonly Completion[] = [];

  constructor(can: ClientAbilities) {
    this.#can = can;
  }

  /** Number of the list; undefined for a client that has to have everything at once. */
  remember(items: readonly Completion[]): number | undefined {
    if (!this.#can.resolveCompletion.includes("documentation")) return undefined;
    this.#items = items;
    return ++this.#list;
  }

  resolve(item: CompletionItem): CompletionItem {
    const data = item.data as LaterData | undefined;
    const text = data?.list === this.#list ? this.#items[data.index]?.documentation : undefined;
    return text === undefined
      ? item
      : { ...item, documentation: contentOf(text, this.#can.completionMarkdown) };
  }
}

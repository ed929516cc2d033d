import { defined } from "../../../base/defined";
import type { Markdown } from "../../../text/markdown";
import type { KnowledgeFile } from "../../shared/knowledge-file";
import { literal } from "../../shared/snippet-text";
import type { Completion } from "../../types";
import type { YamlCursor } from "../place";

/** What has to be written around an entry for it to be one where the cursor is. */
export type EntryFrame = "" | "braces" | "brackets" | "dash";

const AROUND: Readonly<Record<EntryFrame, readonly [string, string]>> = {
  "": ["", ""],
  braces: ["{ ", " }"],
  brackets: ["[", "]"],
  dash: ["- ", ""],
};

export interface Insert {
  readonly label: string;
  /** YAML, as it stands in the file. */
  readonly text: string;
  /** The same with tab stops. */
  readonly snippet?: string;
  readonly kind: Completion["kind"];
  readonly description?: string;
  readonly documentation?: Markdown;
  /** More words by which it is found. */
  readonly words?: string;
  readonly thenSuggest?: boolean;
}

/** Makes the item: brackets where they are missing, a blank behind the colon, quotes kept as they were begun. */
export function insertion(
  file: KnowledgeFile,
  place: YamlCursor,
  around: EntryFrame,
  item: Insert,
): Completion {
  const { label, text, snippet, kind, description, documentation, words, thenSuggest } = item;
  const { start, end } = place.span;
  // A dash or a colon wants a blank behind it.
  const gap = /[:-]/.test(file.text[start - 1] ?? "") && place.where !== "key" ? " " : "";
  const [before, behind] = AROUND[around];
  const quote = /^["']/.exec(file.text.slice(start, end))?.[0];
  const body = quote === undefined || snippet !== undefined ? text : quoteWith(quote, label);
  const filter = [label, words].filter(Boolean).join(" ");
  return defined({
    label,
    kind,
    description: description || undefined,
    documentation: documentation || undefined,
    thenSuggest: thenSuggest || undefined,
    span: place.span,
    newText: gap + before + body + behind,
    snippet: snippet === undefined ? undefined : literal(gap + before) + snippet + literal(behind),
    ...(quote === undefined ? (words ? { filterText: filter } : {}) : { filterText: quote + filter }),
  });
}

const quoteWith = (quote: string, text: string): string =>
  quote === "'" ? `'${text.replaceAll("'", "''")}'` : JSON.stringify(text);

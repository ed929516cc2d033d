// One line of block-style YAML, taken apart without a parser: what it opens and whether its value goes on below.

export type ValueForm = "none" | "mapping" | "list" | "text";

/** Brackets and a quote still open. */
export interface Unfinished {
  readonly depth: number;
  readonly quote: string;
}

export interface LineParts {
  /** The dashes and the key that the line begins with, by their columns behind the indentation; a dash has no key. */
  readonly tokens: readonly { readonly column: number; readonly key?: string }[];
  /** Of the value behind them. */
  readonly form: ValueForm;
  /** Where the value goes on below: as a block of text, or until brackets and quotes are closed. */
  readonly goesOn?: "block" | Unfinished;
}

const KEY = /^("(?:[^"\\]|\\.)*"|'[^']*'|[^\s#"'[\]{}&*!|>%@`,?-][^#]*?|-[^\s#][^#]*?)[ \t]*:(?:[ \t]+|$)/;

/** @param content the line without its indentation */
export function readLine(content: string): LineParts {
  const tokens: { column: number; key?: string }[] = [];
  let column = 0;
  for (;;) {
    const dash = /^-(?:[ \t]+|$)/.exec(content.slice(column));
    if (!dash) break;
    tokens.push({ column });
    column += dash[0].length;
  }
  const key = KEY.exec(content.slice(column));
  if (key) {
    tokens.push({ column, key: /^["']/.test(key[1]!) ? key[1]!.slice(1, -1) : key[1]! });
    column += key[0].length;
  }
  const value = content.slice(column).replace(/^(?:[&!]\S*[ \t]*)+/, "");
  if (value === "" || value.startsWith("#")) return { tokens, form: "none" };
  if (/^[|>][-+\d]*(?:\s|$)/.test(value)) return { tokens, form: "text", goesOn: "block" };
  const form = value.startsWith("{") ? "mapping" : value.startsWith("[") ? "list" : "text";
  const open = /^[[{"']/.test(value) ? unfinished(value, { depth: 0, quote: "" }) : undefined;
  return open ? { tokens, form, goesOn: open } : { tokens, form };
}

/** What is still open behind `text`, where `before` was open ahead of it; undefined where nothing is. */
export function unfinished(text: string, before: Unfinished): Unfinished | undefined {
  let { depth, quote } = before;
  for (let at = 0; at < text.length; at++) {
    const sign = text[at]!;
    if (quote !== "") {
      if (sign === "\\" && quote === '"') at++;
      else if (sign === quote) quote = "";
    } else if (/["']/.test(sign) && /[\s[{,:]/.test(text[at - 1] ?? " ")) quote = sign;
    else if (sign === "#" && /\s/.test(text[at - 1] ?? " ")) break;
    else if (/[[{]/.test(sign)) depth++;
    else if (/[\]}]/.test(sign)) depth--;
  }
  return depth > 0 || quote !== "" ? { depth, quote } : undefined;
}

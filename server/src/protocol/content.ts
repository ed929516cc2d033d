import { type MarkupContent, MarkupKind } from "vscode-languageserver";
import type { Markdown } from "../text/markdown";
import { markdownToPlainText } from "./plain-text";

/**
 * What is shown beside the text, as the client takes it: the one place where Markdown leaves for an editor.
 * @param marks whether the client shows Markdown; else it is given the words alone
 */
export const contentOf = (value: Markdown, marks: boolean): MarkupContent =>
  marks
    ? { kind: MarkupKind.Markdown, value }
    : { kind: MarkupKind.PlainText, value: markdownToPlainText(value) };

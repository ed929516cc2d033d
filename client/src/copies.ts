// The editor shows copies of files as documents of their own: what a rename would make of them, how they stood in Git or in
// the local history. A copy is no job, and the server is told of none.
import type { TextDocument } from "vscode";
import type { Middleware } from "vscode-languageclient";

/** Schemes of such copies, as the editor names them; from memory. */
const COPIES: ReadonlySet<string> = new Set([
  "vscode-bulkeditpreview",
  "vscode-bulkeditpreview-editor",
  "vscode-local-history",
  "git",
  "gitfs",
  "review",
]);

export const isCopy = ({ uri }: Pick<TextDocument, "uri">): boolean => COPIES.has(uri.scheme);

export const withoutCopies: Middleware = {
  didOpen: async (document, next) => {
    if (!isCopy(document)) await next(document);
  },
  didChange: async (event, next) => {
    if (!isCopy(event.document)) await next(event);
  },
  didClose: async (document, next) => {
    if (!isCopy(document)) await next(document);
  },
};

// What a request must say before anything looks at it, so that a client which asks wrongly is told so and not of a fault of
// ours. Only what every request of the kind has in common; what may be left out is read where it is used.

import { Message, type MessageStrategy } from "vscode-languageserver";

type Params = Readonly<Record<string, unknown>>;

const isObject = (value: unknown): value is Params =>
  typeof value === "object" && value !== null && !Array.isArray(value);

const isPosition = (value: unknown): boolean =>
  isObject(value) && typeof value.line === "number" && typeof value.character === "number";

const isRange = (value: unknown): boolean =>
  isObject(value) && isPosition(value.start) && isPosition(value.end);

const isDocument = (value: unknown): boolean => isObject(value) && typeof value.uri === "string";

const DOCUMENT = "a `textDocument` with its `uri`";

type Need = readonly [what: string, has: (params: Params) => boolean];

/** What each request needs, and how to see it; whatever is not here is looked at where it is used. */
const NEEDS: Readonly<Record<string, readonly Need[]>> = (() => {
  const document = [[DOCUMENT, ({ textDocument }: Params) => isDocument(textDocument)]] as const;
  const position = [
    ...document,
    ["a `position` with `line` and `character`", ({ position: at }: Params) => isPosition(at)],
  ] as const;
  const range = [
    ...document,
    ["a `range` with `start` and `end`", ({ range: over }: Params) => isRange(over)],
  ] as const;
  const item = [["a `label`", ({ label }: Params) => typeof label === "string"]] as const;
  return {
    initialize: [["the client's `capabilities`", ({ capabilities }: Params) => isObject(capabilities)]],
    "textDocument/completion": position,
    "textDocument/hover": position,
    "textDocument/definition": position,
    "textDocument/references": position,
    "textDocument/documentHighlight": position,
    "textDocument/signatureHelp": position,
    "textDocument/prepareRename": position,
    "textDocument/rename": [
      ...position,
      ["a `newName`", ({ newName }: Params) => typeof newName === "string"],
    ],
    "textDocument/onTypeFormatting": position,
    "textDocument/codeAction": range,
    "textDocument/inlayHint": range,
    "textDocument/rangeFormatting": range,
    "textDocument/semanticTokens/range": range,
    "textDocument/semanticTokens/full": document,
    "textDocument/semanticTokens/full/delta": document,
    "textDocument/documentSymbol": document,
    "textDocument/documentLink": document,
    "textDocument/foldingRange": document,
    "textDocument/codeLens": document,
    "textDocument/formatting": document,
    "textDocument/diagnostic": document,
    "textDocument/selectionRange": [
      ...document,
      [
        "`positions`",
        ({ positions }: Params) => Array.isArray(positions) && positions.every((at) => isPosition(at)),
      ],
    ],
    "completionItem/resolve": item,
    "inlayHint/resolve": [["a `position`", ({ position: at }: Params) => isPosition(at)]],
    "codeLens/resolve": [["a `range`", ({ range: over }: Params) => isRange(over)]],
    "codeAction/resolve": [["a `title`", ({ title }: Params) => typeof title === "string"]],
    "workspace/executeCommand": [
      ["the name of a `command`", ({ command }: Params) => typeof command === "string"],
    ],
    "workspaceSymbol/resolve": [["a `name`", ({ name }: Params) => typeof name === "string"]],
    "workspace/symbol": [["a `query`", ({ query }: Params) => typeof query === "string"]],
    "workspace/diagnostic": [
      [
        "`previousResultIds`",
        ({ previousResultIds }: Params) =>
          previousResultIds === undefined || Array.isArray(previousResultIds),
      ],
    ],
    "workspace/willRenameFiles": [["`files`", ({ files }: Params) => Array.isArray(files)]],
  };
})();

/** What is wrong with a request's parameters, as a sentence; undefined where nothing is. */
export function wrongParams(method: string, params: unknown): string | undefined {
  const needs = Object.hasOwn(NEEDS, method) ? NEEDS[method]! : [];
  const isOurs = method.startsWith("mendlog/") && params !== undefined;
  if (needs.length === 0 && !isOurs) return undefined;
  if (!isObject(params)) return `${method} needs an object of parameters.`;
  const missing = needs.find(([, has]) => !has(params));
  return missing && `${method} needs ${missing[0]}.`;
}

/** The name under which a request that cannot be answered goes on to whoever answers what has no handler. */
export const WRONG_PARAMS = "$/wrongParams";

/** For every connection: puts the requests that say too little in the way of an answer that tells so. */
export const refuseWrongParams: MessageStrategy = {
  handleMessage(message, next) {
    const { method, params } = message as Message & { readonly method?: string; readonly params?: unknown };
    const wrong = Message.isRequest(message) && method !== undefined && wrongParams(method, params);
    return next(wrong ? ({ ...message, method: WRONG_PARAMS, params: { wrong } } as Message) : message);
  },
};

import type {
  CancellationToken,
  SemanticTokens,
  SemanticTokensDelta,
  SemanticTokensDeltaParams,
  SemanticTokensOptions,
  SemanticTokensParams,
  SemanticTokensRangeParams,
} from "vscode-languageserver";
import { nextTurn } from "../base/turns";
import { TOKEN_MODIFIERS, TOKEN_TYPES, type Token } from "../features/semantic-tokens";
import type { LineIndex } from "../text/line-index";
import type { Span } from "../text/span";
import { answering } from "./answer";
import { spanOf } from "./convert";
import type { OpenDocument } from "./documents";
import { tokensIn } from "./features";
import type { Session } from "./session";
import { tokenEdits } from "./token-edits";

export const SEMANTIC_TOKENS: SemanticTokensOptions = {
  legend: { tokenTypes: [...TOKEN_TYPES], tokenModifiers: [...TOKEN_MODIFIERS] },
  full: { delta: true },
  range: true,
};

/** The last whole answer for a document: what a delta is a delta of. */
interface Given {
  readonly resultId: string;
  readonly data: readonly number[];
}

/** Tokens never overlap and never go beyond a line, so every client can show them whatever it supports. */
export function handleSemanticTokens(session: Session): void {
  const { connection, documents, service, can, ready } = session;
  if (!can.semanticTokens) return;
  const { semanticTokens } = connection.languages;
  const safely = answering(session);
  const given = new Map<string, Given>();
  let answers = 0;

  /** The document, when the board files are read and what came in meanwhile is heard. */
  const opened = async (clientUri: string, token: CancellationToken): Promise<OpenDocument | undefined> => {
    await ready;
    await nextTurn(token);
    return documents.get(clientUri);
  };
  /** Empty for a document that is neither a log nor a knowledge file. */
  const dataOf = ({ uri, lines }: OpenDocument, within?: Span): number[] =>
    encode(tokensIn(service, uri, within) ?? [], lines);
  const keep = (document: OpenDocument, data: readonly number[]): Given => {
    for (const uri of given.keys()) if (!documents.get(uri)) given.delete(uri);
    answers += 1;
    const now = { resultId: String(answers), data };
    given.set(document.clientUri, now);
    return now;
  };
  const whole = (document: OpenDocument): SemanticTokens => {
    const { resultId, data } = keep(document, dataOf(document));
    return { resultId, data: [...data] };
  };
  const nothing: SemanticTokens = { data: [] };

  semanticTokens.on(
    safely("Colours", nothing, async ({ textDocument }: SemanticTokensParams, token) => {
      const found = await opened(textDocument.uri, token);
      return found ? whole(found) : nothing;
    }),
  );

  semanticTokens.onDelta(
    safely<SemanticTokensDeltaParams, SemanticTokens | SemanticTokensDelta>(
      "Colours",
      nothing,
      async ({ textDocument, previousResultId }, token) => {
        const found = await opened(textDocument.uri, token);
        if (!found) return nothing;
        const before = given.get(textDocument.uri);
        if (before?.resultId !== previousResultId) return whole(found);
        const data = dataOf(found);
        const edits = tokenEdits(before.data, data);
        // The same colours keep their name: the next delta is asked from it.
        if (edits.length === 0) return { resultId: previousResultId, edits };
        return { resultId: keep(found, data).resultId, edits };
      },
    ),
  );

  semanticTokens.onRange(
    safely("Colours", nothing, async ({ textDocument, range }: SemanticTokensRangeParams, token) => {
      const found = await opened(textDocument.uri, token);
      if (!found) return nothing;
      return { data: dataOf(found, spanOf(found.lines, range)) };
    }),
  );
}

/** Five numbers a token, each place counted from the token before it. */
export function encode(tokens: readonly Token[], lines: LineIndex): number[] {
  const data: number[] = [];
  let line = 0;
  let character = 0;
  for (const { span, type, modifiers } of tokens) {
    const at = lines.positionAt(span.start);
    const set = modifiers.reduce((bits, modifier) => bits | (1 << TOKEN_MODIFIERS.indexOf(modifier)), 0);
    data.push(
      at.line - line,
      at.line === line ? at.character - character : at.character,
      span.end - span.start,
      TOKEN_TYPES.indexOf(type),
      set,
    );
    ({ line, character } = at);
  }
  return data;
}

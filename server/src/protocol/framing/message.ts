// What a frame holds: a message, or the answer that whoever sent something else is due.
import { ErrorCodes, type Message, type ResponseMessage } from "vscode-languageserver";
import type { Frame } from "./frames";

export type Read =
  | { readonly is: "message"; readonly message: Message }
  | { readonly is: "wrong"; readonly answer: ResponseMessage };

/** The protocol's own encoding, by both of the names that it allows. */
const OURS: ReadonlySet<string | undefined> = new Set([undefined, "utf-8", "utf8"]);

const decoder = new TextDecoder("utf-8", { fatal: true });

export function readMessage({ body, charset }: Extract<Frame, { is: "message" }>): Read {
  if (!OURS.has(charset)) return wrong(ErrorCodes.ParseError, `A message comes in UTF-8, not in ${charset}.`);
  let value: unknown;
  try {
    value = JSON.parse(decoder.decode(body));
  } catch {
    return wrong(ErrorCodes.ParseError, "A message that is no JSON in UTF-8, as long as its header says.");
  }
  if (typeof value !== "object" || value === null || Array.isArray(value))
    return wrong(ErrorCodes.InvalidRequest, "A message is one JSON object.");
  const { id, method } = value as { readonly id?: unknown; readonly method?: unknown };
  const isAnswer = "result" in value || "error" in value;
  if (typeof method === "string" || (method === undefined && isAnswer))
    return { is: "message", message: value as Message };
  const known = typeof id === "string" || typeof id === "number" ? id : null;
  return wrong(ErrorCodes.InvalidRequest, "A request names its method.", known);
}

/** @param id of the request; null where it could not be read, as JSON-RPC 2.0 has it in section 5 */
const wrong = (code: number, message: string, id: string | number | null = null): Read => ({
  is: "wrong",
  answer: { jsonrpc: "2.0", id, error: { code, message } },
});

import type { Nodes } from "mdast";
import type { Span } from "../text/span";

/**
 * The source of a node, without line ends at its beginning: on `\r\n` text the parser lets some nodes begin at the
 * line end before them. Undefined for a node the parser made up.
 */
export function nodeSpan(text: string, node: Nodes): Span | undefined {
  const from = node.position?.start.offset;
  const end = node.position?.end.offset;
  if (from === undefined || end === undefined) return undefined;
  let start = from;
  while (start < end && (text[start] === "\r" || text[start] === "\n")) start++;
  return { start, end };
}

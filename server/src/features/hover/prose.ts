import { partTestPoint, pinTestPoint } from "../../judge/test-point";
import type { Net } from "../../knowledge/types";
import { joined, type Markdown } from "../../text/markdown";
import type { Span } from "../../text/span";
import { netDocumentation } from "../shared/documentation";
import { hoverPart, pinMarkdown } from "../shared/part-text";
import { originOfNet, saidLine } from "../shared/stated";
import type { Hover } from "../types";
import type { LogView } from "../view";

/** A designator in a sentence, with its pin where one stands behind it ("U14.3"), or a net by its name. */
export function hoverProse(view: LogView, word: { text: string; span: Span }): Hover | undefined {
  const board = view.ctx.board?.value;
  if (!board) return undefined;
  const match = /^([A-Za-z]{1,4}\d{1,4}[A-Za-z]?|\d{1,2}[A-Za-z]\d?)(?:[./-](\w+))?$/.exec(word.text);
  if (match?.[1] !== undefined) {
    const place = partTestPoint(match[1], board, view.ctx.library);
    if (match[2] === undefined || !place.device) {
      // In a sentence many a word looks like a designator: only what is known is told.
      const part = place.part && hoverPart(view, match[1], word.span);
      if (part) return part;
    } else {
      const markdown = pinMarkdown(pinTestPoint(place, match[2], board), view.ctx);
      if (markdown !== undefined) return { span: word.span, markdown };
    }
  }
  const net = board.nets.get(word.text);
  return net && { span: word.span, markdown: netMarkdown(view, net) };
}

/** A net with what is on it, and whose word it is. */
export const netMarkdown = (view: LogView, net: Net): Markdown =>
  joined([netDocumentation(net, view.ctx), ...saidLine(originOfNet(view, net))], "\n\n");

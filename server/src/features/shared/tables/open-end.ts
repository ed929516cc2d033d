import type { SyntaxBlock } from "../../../syntax/block";
import { nodeSpan } from "../../../syntax/node-span";
import { slice } from "../../../text/span";

/** True where what stands last, a fence or a comment that is not closed, would swallow all that is put behind it. */
export function openAtEnd({ text, tree }: SyntaxBlock): boolean {
  const last = tree.children.at(-1);
  const span = last && nodeSpan(text, last);
  if (!last || !span) return false;
  const source = slice(text, span);
  if (last.type === "html")
    return (
      !/(?:-->|\?>|\]\]>|<\/(?:script|pre|style|textarea)>)[ \t]*$/i.test(source) &&
      /^[ \t]*<(?:!|\?|script|pre|style|textarea)/i.test(source)
    );
  const fence = last.type === "code" ? /^[ \t]*(`{3,}|~{3,})/.exec(source)?.[1] : undefined;
  if (fence === undefined) return false;
  const end = source.slice(source.lastIndexOf("\n") + 1).trim();
  return !(source.includes("\n") && end.length >= fence.length && end === fence.charAt(0).repeat(end.length));
}

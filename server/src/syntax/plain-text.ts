import type { Nodes } from "mdast";

/** What a reader sees of a node: its text, code and the alternative texts of images, joined. No HTML. */
export function nodeText(node: Nodes): string {
  let text = "";
  const waiting: Nodes[] = [node];
  // A stack instead of recursion: emphasis may be nested deeper than the call stack is.
  for (let next = waiting.pop(); next !== undefined; next = waiting.pop()) {
    if (next.type === "image" || next.type === "imageReference") text += next.alt ?? "";
    else if (next.type === "break") text += "\n";
    else if (next.type === "text" || next.type === "inlineCode" || next.type === "code") text += next.value;
    else if ("children" in next) waiting.push(...[...next.children].reverse());
  }
  return text;
}

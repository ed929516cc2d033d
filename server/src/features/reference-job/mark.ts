// The line of the front matter by which a job's board stands for others of its type.
import type { TextEdit } from "../../text/edits";
import type { LogView } from "../view";

const KEY = "reference";

/** Why a log cannot be the reference of anything, as a sentence; undefined where it can. */
export function whyNoReference({ doc, front }: LogView): string | undefined {
  if (!doc.parsed.frontMatter)
    return 'The front matter opens with "---" but never closes. Put a line with "---" alone below its last field first.';
  if (!front.board && !front.boards)
    return "The log does not say which board it is of. Write its name under `board:` first, so that other logs of that board are compared with this one.";
  return undefined;
}

/**
 * What makes the log the reference; undefined where it is already or cannot be. A key that is there with another value
 * gets this one.
 */
export function takeAsReference(view: LogView): TextEdit | undefined {
  const { doc, front } = view;
  const at = doc.parsed.frontMatter?.content.end;
  if (front.reference || at === undefined || whyNoReference(view) !== undefined) return undefined;
  const typed = entryOf(view);
  if (typed) {
    const { span } = typed.value;
    const gap = span.start === span.end && doc.text[span.start - 1] === ":" ? " " : "";
    return { span, newText: `${gap}true` };
  }
  const root = doc.frontMatter.tree.root;
  if (root?.kind === "map" && root.flow) {
    const end = root.entries.at(-1)?.value.span.end ?? root.span.start + 1;
    return { span: { start: end, end }, newText: `${root.entries.length > 0 ? ", " : ""}${KEY}: true` };
  }
  const eol = doc.text.includes("\r\n") ? "\r\n" : "\n";
  const isOpen = !/(?:^|\n)$/.test(doc.text.slice(0, at));
  const newText = `${isOpen ? eol : ""}${KEY}: true${isOpen ? "" : eol}`;
  return { span: { start: at, end: at }, newText };
}

/** What takes it back. A line that says more than the key keeps what it says. */
export function noLongerReference(view: LogView): TextEdit | undefined {
  const { doc, front } = view;
  const typed = front.reference ? entryOf(view) : undefined;
  if (!typed) return undefined;
  const { text } = doc;
  const start = text.lastIndexOf("\n", typed.keySpan.start - 1) + 1;
  const end = text.indexOf("\n", typed.value.span.end);
  const line = end < 0 ? undefined : text.slice(start, end + 1);
  const isAlone = line !== undefined && /^[ \t]*["']?reference["']?[ \t]*:[ \t]*true[ \t]*\r?\n$/.test(line);
  return isAlone
    ? { span: { start, end: end + 1 }, newText: "" }
    : { span: typed.value.span, newText: "false" };
}

function entryOf({ doc }: LogView) {
  const { root } = doc.frontMatter.tree;
  return root?.kind === "map" ? root.byKey.get(KEY) : undefined;
}

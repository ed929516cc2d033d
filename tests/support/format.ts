import { formatTables } from "../../server/src/features/format";
import { applyEdits } from "../../server/src/text/edits";
import { slice } from "../../server/src/text/span";
import { openAt } from "./workspace";

const FRONT = "---\nmendlog: 1\nboard: example\n---\n\n";

export interface Formatted {
  /** The body behind the front matter. */
  readonly body: string;
  /** What was put in whose place, one pair an edit. */
  readonly edits: readonly (readonly [before: string, after: string])[];
}

/** The body of a log formatted; two `$0` are the ends of the range to be formatted. */
export async function formatBody(body: string): Promise<Formatted> {
  const [before = "", between, after] = body.split("$0");
  const marked = after === undefined ? undefined : { before, between: between ?? "", after };
  const plain = marked ? marked.before + marked.between + marked.after : body;
  const eol = /\r\n/.test(body) ? "\r\n" : "\n";
  const front = FRONT.replaceAll("\n", eol);
  const { view } = await openAt(`$0${front}${plain}`);
  const start = front.length + (marked?.before.length ?? 0);
  const edits = formatTables(view, marked && { start, end: start + marked.between.length });
  const text = applyEdits(view.doc.text, edits);
  return {
    body: text.slice(front.length),
    edits: edits.map(({ span, newText }) => [slice(view.doc.text, span), newText]),
  };
}

// What stands right above a table says of it: "All of U7, a 7402, red lead on ground:".
import type { Library } from "../../knowledge/library";
import type { SyntaxBlock } from "../../syntax/block";
import type { Table } from "../../syntax/tables";
import { span } from "../../text/span";
import { type PartWords, partsInHeading } from "../part-words";

export interface Caption {
  readonly text: string;
  /** The one part that it names. */
  readonly part?: PartWords;
  /** It is a line of its own that ends as a title does: "U9 (74LS86):", "**U9**". */
  readonly isTitle: boolean;
}

/** More is a story, and its last word on a part need not be what the table is of. */
const LONGEST = 600;

const INSTEAD =
  /\b(?:fixture|tester|emulator|adapt[eo]r|jig|rig|test (?:rom|box|board|chip)|in (?:the )?place of|instead of|without|except|all but)\b[^.;,]{0,24}$/i;
const GONE = /^[^.;,]{0,6}\b(?:out|pulled|removed|unplugged|lifted|off)\b/i;

/** What was put in its socket is what reads, and what was taken out is not read. */
const isAside = (ref: string, before: string, behind: string): boolean =>
  INSTEAD.test(before) || (!/^(?:J|P|CN|CON)\d/i.test(ref) && GONE.test(behind));

/** Undefined where something else than running words stands there. */
export function captionOf(
  table: Table,
  { outline, text }: SyntaxBlock,
  library: Library,
): Caption | undefined {
  const at = outline.children.findIndex(
    (node) => (node.position?.start.offset ?? -1) >= table.span.start - 2,
  );
  const node = outline.children[at < 0 ? outline.children.length - 1 : at - 1];
  const from = node?.position?.start.offset;
  const to = node?.position?.end.offset;
  if (node?.type !== "paragraph" || from === undefined || to === undefined || to - from > LONGEST)
    return undefined;
  const whole = text.slice(from, to);
  const parts = (start: number, words: string) =>
    partsInHeading({ text: words, span: span(from + start, from + start + words.length) }, library);
  const all = parts(0, whole);
  // Of several the last sentence tells.
  const last = Math.max(
    whole.lastIndexOf("\n"),
    whole.lastIndexOf("\r"),
    ...[...whole.matchAll(/[.;!?]\s+(?=\S)/g)].map((m) => m.index + 1),
  );
  const ofLast = all.length > 1 && last > 0 ? parts(last, whole.slice(last)) : all;
  const [part, another] = ofLast.filter(
    ({ ref }) => !isAside(ref.text, text.slice(from, ref.span.start), text.slice(ref.span.end, to)),
  );
  const isTitle =
    /[:\u2013\u2014-]\s*\**$|^\*\*.*\*\*$/.test(whole.trim()) || !/[.!?]/.test(whole.replace(/\d\.\d/g, ""));
  return { text: whole, isTitle, ...(part && !another ? { part } : {}) };
}

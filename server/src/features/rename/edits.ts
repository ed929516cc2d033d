import { rehash } from "../../log/parts-section";
import type { TextEdit } from "../../text/edits";
import type { FileMentions } from "../references/search";
import { type EntityReference, isLoose } from "../shared/mentions";
import { isPlain } from "./may-rename";

export interface RenameEdit extends TextEdit {
  /** Said in free words: a person should look at it before it is changed. */
  readonly loose: boolean;
}

/** The edits that put the new name in place of the old in one file, in order. */
export function renameEdits({ text, mentions, file }: FileMentions, newName: string): RenameEdit[] {
  const edits = mentions
    .map((mention) => ({
      span: mention.span,
      newText: file ? inYaml(text, mention, newName) : inLog(text, mention, newName),
      loose: isLoose(mention),
    }))
    .filter(({ span, newText }) => text.slice(span.start, span.end) !== newText)
    .sort((a, b) => a.span.start - b.span.start);
  const marks = file || edits.length === 0 ? [] : rehash(text, edits);
  return [...edits, ...marks.map((edit) => ({ ...edit, loose: false }))].sort(
    (a, b) => a.span.start - b.span.start,
  );
}

/** "u14" typed in haste stays in small letters. */
const cased = (text: string, { span, thing }: EntityReference, newName: string): string => {
  const typed = text.slice(span.start, span.end);
  const small = typed !== thing.name && typed === typed.toLowerCase();
  return small && thing.kind === "parts" ? newName.toLowerCase() : newName;
};

function inLog(text: string, mention: EntityReference, newName: string): string {
  if (mention.place.startsWith("front-")) return inYaml(text, mention, newName);
  return cased(text, mention, newName);
}

/** In quotes where the name needs them and has none: a revision "1" is no number. */
function inYaml(text: string, mention: EntityReference, newName: string): string {
  const { span, pin, place } = mention;
  const name = cased(text, mention, newName);
  if (pin || place === "note" || place === "remark" || place === "prose") return name;
  const quoted = /["']/.test(text[span.start - 1] ?? "") && text[span.start - 1] === text[span.end];
  return quoted || isPlain(name) ? name : `"${name}"`;
}

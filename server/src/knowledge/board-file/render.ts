import { Document, Scalar, YAMLSeq } from "yaml";
import { type BoardEntry, isFields, isListSection } from "./entry";

/** Words that YAML 1.1 took for yes and no, and many programs still do. */
const WORD = /^(?:y|n|yes|no|on|off|true|false|null|~)$/i;
/** Numbers, times, dates and whatever else begins like one and has no unit behind it, in either version of YAML. */
const NUMBER = /^[+-]?(?:[\d.][\d_,.:]*(?:e[+-]?\d*)?|0[box][\da-f_]*|\.inf|\.nan)$|^\d{4}-\d/i;
/** Signs in front that mean something to some reader, and characters that nobody sees. */
const ODD = /^[-+=<]|[\p{C}\p{Zl}\p{Zp}]|(?! )\p{Zs}/u;

/** The text as a YAML scalar that stays this text, within brackets and outside, on one line. */
export function scalarText(text: string): string {
  const node = new Scalar(text);
  if (WORD.test(text) || NUMBER.test(text) || ODD.test(text)) node.type = Scalar.QUOTE_DOUBLE;
  const list = new YAMLSeq();
  list.flow = true;
  list.items.push(node);
  const document = new Document(null, { version: "1.2", schema: "core" });
  document.contents = list as unknown as typeof document.contents;
  const whole = document.toString({
    lineWidth: 0,
    doubleQuotedMinMultiLineLength: Number.MAX_SAFE_INTEGER,
    flowCollectionPadding: false,
  });
  const written = whole.slice(1, whole.lastIndexOf("]"));
  if (!written.startsWith('"')) return written;
  // Some editors end a line at these, and nobody sees them.
  return written.replace(
    /[\x7f-\x9f\u2028\u2029\uFEFF]/g,
    (unit) => `\\u${unit.charCodeAt(0).toString(16).toUpperCase().padStart(4, "0")}`,
  );
}

export const listText = (texts: readonly string[]): string => `[${texts.map(scalarText).join(", ")}]`;

export const pairText = (key: string, value: string | readonly string[]): string =>
  `${scalarText(key)}: ${typeof value === "string" ? scalarText(value) : listText(value)}`;

export function valueText(value: BoardEntry["value"]): string {
  if (typeof value === "string") return scalarText(value);
  if (!isFields(value)) return listText(value);
  const pairs = Object.entries(value).map(([field, given]) => pairText(field, given));
  return pairs.length === 0 ? "{}" : `{ ${pairs.join(", ")} }`;
}

/** `U5: { device: "7404" }`; in a section that is a list, without a key. */
export const entryText = ({ section, key, value }: BoardEntry): string =>
  isListSection(section) ? valueText(value) : `${scalarText(key)}: ${valueText(value)}`;

/** A long list in rows of some 90 characters, as many texts as fit in each. */
export function wrapList(texts: readonly string[]): string[] {
  const rows: string[] = [];
  for (const [index, text] of texts.entries()) {
    const word = scalarText(text) + (index < texts.length - 1 ? "," : "");
    const last = rows.at(-1);
    if (last !== undefined && last.length + word.length < 90) rows[rows.length - 1] = `${last} ${word}`;
    else rows.push(word);
  }
  return rows;
}

/** One line of plain words for behind a `#`; undefined where nothing is left of it. */
export function commentText(text: string | undefined): string | undefined {
  const line = (text ?? "").replace(/[\p{C}\p{Z}]+/gu, " ").trim();
  return line === "" ? undefined : line;
}

// A mapping of one plain word or number a line, as nearly all front matter is, read here in one go and to the last position as
// the parser reads it. Where a single line is anything else, the whole text is the parser's.

import type { YamlEntry, YamlList, YamlMap, YamlNode, YamlScalar } from "./yaml-node";

/** A key in column 0, a blank, and words that are no markup of YAML's, in quotes or not, or a list of such. */
const LINE =
  /([A-Za-z][A-Za-z0-9_-]{0,99}): (?:([A-Za-z0-9\u00c0-\u024f][A-Za-z0-9\u00c0-\u024f ./_+()-]{0,999})|"([A-Za-z0-9\u00c0-\u024f ./_+():,#-]{0,999})"|(\[[A-Za-z0-9 ./_+(),-]{1,999}\]))(?:\n|$)/y;
const ITEM = /[A-Za-z0-9](?:[A-Za-z0-9 ./_+()-]*[A-Za-z0-9./_+()-])?/y;
/** What the core schema may take for something else than text. */
const VALUE = /^(?:null|true|false|0x[0-9a-f]+|0o[0-7]+|[0-9]+(?:\.[0-9]*)?(?:e[-+]?[0-9]+)?)$/i;
/** One that every reader takes for the same number. */
const WHOLE = /^(?:0|[1-9][0-9]{0,14})$/;

/**
 * The root of a text as `parseYaml` gives it; undefined where it is not as plain as that.
 * @param at its place in the document
 */
export function plainYaml(text: string, at: number): YamlMap | undefined {
  const entries: YamlEntry[] = [];
  const byKey = new Map<string, YamlEntry>();
  for (LINE.lastIndex = 0; LINE.lastIndex < text.length; ) {
    const start = LINE.lastIndex;
    const line = LINE.exec(text);
    if (!line) return undefined;
    const [, key = "", words, quoted, list = ""] = line;
    const from = at + start + key.length + 2;
    const value =
      words !== undefined
        ? scalarOf(words, from)
        : quoted !== undefined
          ? quotedOf(quoted, from)
          : listOf(list, from);
    if (!value || byKey.has(key)) return undefined;
    const keySpan = { start: at + start, end: at + start + key.length };
    const entry: YamlEntry = { key, keySpan, value, duplicate: false };
    entries.push(entry);
    byKey.set(key, entry);
  }
  const last = entries.at(-1);
  return last && { kind: "map", span: { start: at, end: last.value.span.end }, flow: false, entries, byKey };
}

function scalarOf(source: string, start: number): YamlScalar | undefined {
  if (source.endsWith(" ")) return undefined;
  const isText = !VALUE.test(source);
  if (!isText && !WHOLE.test(source)) return undefined;
  return {
    kind: "scalar",
    span: { start, end: start + source.length },
    source,
    value: isText ? source : Number(source),
    quoted: false,
  };
}

const quotedOf = (source: string, start: number): YamlScalar => ({
  kind: "scalar",
  span: { start, end: start + source.length + 2 },
  source,
  value: source,
  quoted: true,
});

/** @param text from bracket to bracket */
function listOf(text: string, start: number): YamlList | undefined {
  const items: YamlNode[] = [];
  for (let i = 1; ; ) {
    ITEM.lastIndex = i;
    const item = ITEM.exec(text)?.[0];
    const node = item === undefined ? undefined : scalarOf(item, start + i);
    if (item === undefined || !node) return undefined;
    items.push(node);
    i += item.length;
    if (i === text.length - 1) break;
    if (!text.startsWith(", ", i)) return undefined;
    i += 2;
  }
  return { kind: "list", span: { start, end: start + text.length }, flow: true, items };
}

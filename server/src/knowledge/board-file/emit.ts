import { isNull, type YamlList, type YamlMap, type YamlNode } from "../../syntax/yaml";
import { startOfBlanks } from "../../text/blanks";
import type { TextEdit } from "../../text/edits";
import { type Span, span } from "../../text/span";
import type { BoardSection } from "./change";
import { isListSection, KEY_ORDER } from "./entry";
import {
  appendFlowLines,
  appendInline,
  appendLines,
  behind,
  fillNull,
  type Item,
  insertAt,
  itemLines,
  linesBelow,
  rootColumn,
} from "./insert";
import { type BoardText, lineEnd, lineStart, sectionNode } from "./open";
import type { Patch } from "./planning";
import { commentText, listText, pairText, scalarText, valueText } from "./render";

/** Why a patch cannot be made, or its edits. `note` is put behind the line that `at` is in. */
export type Patched =
  | { readonly edits: readonly TextEdit[]; readonly note?: { readonly at: number; readonly text: string } }
  | undefined;

/** New entries at the end of their section, which is begun where it is not there. */
export function emitSection(file: BoardText, section: BoardSection, items: readonly Item[]): TextEdit[] {
  const node = sectionNode(file, section);
  if (section === "grounds") return emitGrounds(file, node, items);
  const dash = isListSection(section);
  const indent = " ".repeat(rootColumn(file)) + file.step;
  if (node === undefined) {
    const { at, spaced } = newPlace(file, section);
    const lines = items.map((item) => file.eol + itemLines(file, indent, item, dash)).join("");
    return [insertAt(at, `${spaced}${file.eol}${" ".repeat(rootColumn(file))}${section}:${lines}`)];
  }
  if (isNull(node) || (node.kind !== "scalar" && node.flow && isBlank(file, node))) {
    const from = startOfBlanks(file.text, node.span.start);
    const cut: TextEdit[] =
      node.span.end > node.span.start ? [{ span: span(from, node.span.end), newText: "" }] : [];
    return [...cut, ...linesBelow(file, behind(file, node.span.end, rootColumn(file)), indent, items, dash)];
  }
  if (node.kind === "scalar") return [];
  return node.flow ? appendFlowLines(file, node, items) : appendLines(file, node, items);
}

function emitGrounds(file: BoardText, node: YamlNode | undefined, items: readonly Item[]): TextEdit[] {
  const names = items.filter(({ off }) => !off).map(({ body }) => body);
  if (names.length === 0) return [];
  const list = `[${names.join(", ")}]`;
  if (node === undefined) {
    const { at, spaced } = newPlace(file, "grounds");
    return [insertAt(at, `${spaced}${file.eol}${" ".repeat(rootColumn(file))}grounds: ${list}`)];
  }
  if (isNull(node)) return fillNull(file, node, list) ?? [];
  if (node.kind !== "list") return [];
  return node.flow ? appendInline(file, node, names) : appendLines(file, node, items);
}

/** Brackets with nothing in them, not even a comment. */
const isBlank = (file: BoardText, node: YamlMap | YamlList): boolean =>
  file.text.slice(node.span.start + 1, node.span.end - 1).trim() === "";

/** Below the nearest of the keys that usually stand before it. */
function newPlace(file: BoardText, section: BoardSection): { at: number; spaced: string } {
  const before = KEY_ORDER.slice(0, KEY_ORDER.indexOf(section));
  const entry =
    before.map((key) => file.root.byKey.get(key)).findLast((found) => found !== undefined) ??
    file.root.entries.at(-1)!;
  const end = Math.max(entry.keySpan.end, entry.value.span.end);
  const own = file.root.entries.filter(({ value }) => value.kind !== "scalar");
  const airy = own.filter(({ keySpan }) => blankAbove(file, keySpan.start)).length;
  return {
    at: behind(file, end, rootColumn(file), entry.value),
    spaced: own.length > 0 && airy * 2 > own.length ? file.eol : "",
  };
}

/** A blank line above the line, its comments left out. */
function blankAbove({ text }: BoardText, offset: number): boolean {
  let start = lineStart(text, offset);
  while (start > 0) {
    const above = lineStart(text, start - 1);
    const line = text.slice(above, lineEnd(text, above));
    if (line.trim() === "") return true;
    if (!/^\s*#/.test(line)) return false;
    start = above;
  }
  return false;
}

/** What an entry that is there gets, in the way it is written. Undefined where it is written in none of them. */
export function emitPatch(file: BoardText, { section, node, set, append, from, key }: Patch): Patched {
  const pins = append.get("");
  const source = commentText([...from].join("; "));
  if (pins)
    return extendList(file, node, pins, pins.length > 3 ? `${pins.length} pins` : pins.join(", "), source);
  const edits: TextEdit[] = [];
  const lacking: [string, string | readonly string[]][] = [];
  for (const [field, value] of set) {
    const typed = node.kind === "map" ? node.byKey.get(field)?.value : undefined;
    if (!typed) lacking.push([field, value]);
    else {
      const text = typeof value === "string" ? scalarText(value) : listText(value);
      const put =
        fillNull(file, typed, text) ?? (isNull(typed) ? undefined : [{ span: typed.span, newText: text }]);
      if (!put) return undefined;
      edits.push(...put);
    }
  }
  for (const [field, texts] of append) {
    const typed = node.kind === "map" ? node.byKey.get(field)?.value : undefined;
    if (!typed) lacking.push([field, texts]);
    else {
      const put = extendList(file, typed, texts, field, undefined);
      if (!put) return undefined;
      edits.push(...put.edits);
    }
  }
  const pairs = lacking.map(([field, value]) => pairText(field, value));
  const label =
    source &&
    `${section === "expected" ? "" : key}${section === "expected" ? "" : " "}${[...set.keys()].join(", ")}: ${source}`;
  const note = (at: number) => (label ? { note: { at, text: label } } : {});
  if (pairs.length === 0) return { edits, ...note(node.span.end) };
  if (isNull(node)) {
    const put = fillNull(file, node, valueText(Object.fromEntries(lacking)));
    return put && { edits: [...edits, ...put], ...note(node.span.end) };
  }
  if (node.kind !== "map") return undefined;
  if (node.flow) {
    const put = appendInline(file, node, pairs);
    return { edits: [...edits, ...put], ...note(put[0]!.span.end) };
  }
  return {
    edits: [
      ...edits,
      ...appendLines(
        file,
        node,
        pairs.map((body) => ({ body, comment: source })),
      ),
    ],
  };
}

function extendList(
  file: BoardText,
  node: YamlNode,
  texts: readonly string[],
  label: string,
  source: string | undefined,
): Patched {
  const note = (at: number) => (source ? { note: { at, text: `${label}: ${source}` } } : {});
  if (isNull(node)) {
    const put = fillNull(file, node, listText(texts));
    return put && { edits: put, ...note(node.span.end) };
  }
  if (node.kind !== "list") return undefined;
  if (!node.flow) {
    return {
      edits: appendLines(
        file,
        node,
        texts.map((text) => ({ body: scalarText(text), comment: source })),
      ),
    };
  }
  const edits = appendInline(file, node, texts.map(scalarText));
  return { edits, ...note(edits[0]!.span.end) };
}

/** The sources of what was put into lines, each behind its line, in the comment that is there or in a new one. */
export function emitNotes(file: BoardText, notes: readonly { at: number; text: string }[]): TextEdit[] {
  const lines = new Map<number, string[]>();
  for (const { at, text } of notes) {
    const end = lineEnd(file.text, at);
    if (file.folded.some((folded) => folded.start < end && end < folded.end)) continue;
    const told = lines.get(end) ?? [];
    if (!told.includes(text)) told.push(text);
    lines.set(end, told);
  }
  const remarks = new Map<number, Span>(file.comments.map((comment) => [comment.end, comment]));
  return [...lines].flatMap(([end, told]) => {
    const remark = remarks.get(end);
    const more = told.filter((text) => !remark || !file.text.slice(remark.start, end).includes(text));
    if (more.length === 0) return [];
    return [insertAt(end, remark ? `; ${more.join("; ")}` : ` # ${more.join("; ")}`)];
  });
}

/** Comments of the section that are lines of their own, without the sign. */
export function remarksIn(file: BoardText, section: BoardSection): string[] {
  const entry = file.root.byKey.get(section);
  if (!entry) return [];
  const next = file.root.entries.find(({ keySpan }) => keySpan.start > entry.keySpan.start);
  const end = next?.keySpan.start ?? file.text.length;
  return file.comments
    .filter(
      (comment) =>
        comment.start > entry.keySpan.start &&
        comment.end <= end &&
        file.text.slice(lineStart(file.text, comment.start), comment.start).trim() === "",
    )
    .map((comment) => file.text.slice(comment.start + 1, comment.end).trim());
}

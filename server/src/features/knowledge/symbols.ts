import { defined } from "../../base/defined";
import { railText } from "../../knowledge/tolerance";
import type { YamlEntry, YamlMap, YamlNode } from "../../syntax/yaml";
import { type Span, span } from "../../text/span";
import type { KnowledgeFile } from "../shared/knowledge-file";
import type { DocumentSymbol, SymbolKind } from "../types";

/** The file's outline: its top-level keys, and below them what they hold by name. */
export function symbolsOfKnowledge({ tree }: KnowledgeFile): readonly DocumentSymbol[] {
  const { root } = tree;
  if (root?.kind !== "map") return [];
  return root.entries.map((entry) => {
    const { key, value } = entry;
    const children = childrenOf(key, value).filter(({ span: at }) => isWithin(at, value.span));
    const detail =
      value.kind === "scalar" ? value.source : children.length > 0 ? String(children.length) : "";
    return symbol(
      key,
      detail,
      value.kind === "scalar" ? "field" : "group",
      whole(entry),
      entry.keySpan,
      children,
    );
  });
}

const KINDS: Readonly<Record<string, SymbolKind>> = {
  parts: "part",
  nets: "net",
  rails: "rail",
  meters: "part",
  stock: "part",
};

function childrenOf(key: string, value: YamlNode): DocumentSymbol[] {
  const kind = KINDS[key] ?? "field";
  if (value.kind === "map") {
    return value.entries.map((entry) =>
      symbol(entry.key, detailOf(key, entry.value), kind, whole(entry), entry.keySpan, []),
    );
  }
  if (value.kind !== "list") return [];
  // Lists of names or sentences are no places anyone looks for.
  return value.items.flatMap((item) =>
    item.kind === "map" ? [symbol(nameOf(item), listDetail(item), kind, item.span, firstSpan(item), [])] : [],
  );
}

function detailOf(key: string, value: YamlNode): string {
  if (value.kind === "scalar") return value.source;
  if (value.kind === "list") {
    const pins = value.items.length;
    return key === "nets" ? `${pins} ${pins === 1 ? "pin" : "pins"}` : texts(value.items).join(" - ");
  }
  switch (key) {
    case "parts":
      return text(value, "device") || text(value, "value");
    case "rails":
      return railText({ nominal: text(value, "nominal"), tolerance: text(value, "tolerance") });
    case "pins":
      return [text(value, "name"), text(value, "direction")].filter(Boolean).join(" ");
    default:
      return text(value, "title");
  }
}

/** What an entry of a list is about: where it is measured, or what it is called. */
function nameOf(item: YamlMap): string {
  const at = [text(item, "ref"), text(item, "pin")].filter(Boolean).join(".");
  const names = ["rail", "title", "part", "name", "role", "id"].map((key) => text(item, key));
  return at || names.find((name) => name !== "") || "(no name)";
}

const listDetail = (item: YamlMap): string =>
  text(item, "procedure") || text(item, "quantity") || text(item, "function") || text(item, "measure");

function text(map: YamlMap, key: string): string {
  const value = map.byKey.get(key)?.value;
  return value?.kind === "scalar" ? value.source : "";
}

const texts = (items: readonly YamlNode[]): string[] =>
  items.flatMap((item) => (item.kind === "scalar" ? item.source : []));

/** An entry from its key to its value's end; an alias has its value elsewhere. */
const whole = ({ keySpan, value }: YamlEntry): Span =>
  span(keySpan.start, Math.max(keySpan.end, value.span.end));

/** What an alias repeats stands elsewhere, and is listed there. */
const isWithin = (inner: Span, outer: Span): boolean => inner.start >= outer.start && inner.end <= outer.end;

const firstSpan = (item: YamlMap): Span => item.entries[0]?.keySpan ?? item.span;

const symbol = (
  name: string,
  detail: string,
  kind: SymbolKind,
  at: Span,
  selection: Span,
  children: readonly DocumentSymbol[],
): DocumentSymbol =>
  defined({
    name: name.trim() === "" ? "(no name)" : name,
    detail: detail === "" ? undefined : detail,
    kind,
    span: at,
    selection,
    children,
  });

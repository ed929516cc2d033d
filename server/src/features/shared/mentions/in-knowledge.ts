// What is named where in a board, device or shop file, as its format says, and in its free words.
import { defined } from "../../../base/defined";
import { memo } from "../../../base/memo";
import { SCHEMAS, type SchemaKind, type SchemaNode } from "../../../knowledge/schema";
import { childSchema, typesOf } from "../../../knowledge/schema-walk";
import { pinRef } from "../../../knowledge/shape-board";
import type { YamlNode, YamlScalar, YamlTree } from "../../../syntax/yaml";
import { type Span, span } from "../../../text/span";
import { withoutQuotes } from "./in-log";
import { findNames, type NameIndex, nameIndex, standsOut } from "./names";
import { type Entity, type EntityReference, OF_BOARD, type ThingKind } from "./types";

const SECTIONS: ReadonlySet<string> = OF_BOARD;

/** Everything named in the file, in order. */
export const mentionsInKnowledge: (tree: YamlTree, kind: SchemaKind) => readonly EntityReference[] =
  memo(collect);

function collect(tree: YamlTree, kind: SchemaKind): EntityReference[] {
  const found = new Map<string, EntityReference>();
  // An alias leads to the same characters again.
  const add = (mention: EntityReference): void => {
    const key = `${mention.span.start} ${mention.span.end}`;
    if (!found.has(key)) found.set(key, mention);
  };
  const scalars: Span[] = [];
  const words: Span[] = [];
  const { text, baseOffset } = tree;
  const at = (own: Span): Span => withoutQuotes(text, span(own.start - baseOffset, own.end - baseOffset));
  const placed = (own: Span): Span => span(own.start + baseOffset, own.end + baseOffset);

  const scalar = (node: YamlScalar, schema: SchemaNode | undefined, path: readonly string[]): void => {
    scalars.push(node.span);
    const bare = at(node.span);
    // Where escapes make the characters others than the text they say, nothing can be pointed at.
    if (text.slice(bare.start, bare.end) !== node.source) {
      words.push(bare);
      return;
    }
    const thing = thingOf(kind, path, schema, node.source);
    if (thing) {
      add(
        defined({
          thing,
          span: placed(bare),
          place: "value",
          declares: path.length === 1 ? (true as const) : undefined,
        }),
      );
    } else if (schema?.refersTo === "pin") {
      const pin = pinRef(node.source);
      if (!pin) return;
      const end = bare.start + pin.ref.length;
      add({
        thing: { kind: "parts", name: pin.ref },
        span: placed(span(bare.start, end)),
        place: "value",
        pin: { text: pin.pin, span: placed(span(end + 1, bare.end)) },
      });
    } else if (schema === undefined || isFree(schema)) words.push(bare);
  };
  const visit = (node: YamlNode, schema: SchemaNode | undefined, path: readonly string[]): void => {
    if (node.kind === "scalar") scalar(node, schema, path);
    else if (node.kind === "list") {
      for (const [index, item] of node.items.entries())
        visit(item, childSchema(schema, index), [...path, "#"]);
    } else
      for (const entry of node.entries) {
        scalars.push(entry.keySpan);
        const declared = declaredBy(kind, path, entry.key);
        const bare = at(entry.keySpan);
        if (declared && text.slice(bare.start, bare.end) === entry.key)
          add(
            defined({
              thing: declared,
              span: placed(bare),
              place: "key",
              declares: path[0] === "switch-banks" ? undefined : (true as const),
            }),
          );
        visit(entry.value, childSchema(schema, entry.key), [...path, entry.key]);
      }
  };
  if (tree.root) visit(tree.root, SCHEMAS[kind], []);

  const names = nameIndex([...found.values()].filter((it) => it.declares).map((it) => it.thing));
  for (const own of words)
    for (const it of inWords(text, own, names)) add(placedMention(it, baseOffset, "note"));
  for (const own of remarks(text, scalars, baseOffset))
    for (const it of inWords(text, own, names)) add(placedMention(it, baseOffset, "remark"));
  return [...found.values()].sort((a, b) => a.span.start - b.span.start);
}

const placedMention = (
  it: ReturnType<typeof findNames>[number],
  by: number,
  place: "note" | "remark",
): EntityReference => ({
  ...it,
  span: span(it.span.start + by, it.span.end + by),
  ...(it.pin ? { pin: { ...it.pin, span: span(it.pin.span.start + by, it.pin.span.end + by) } } : {}),
  place,
});

const inWords = (text: string, own: Span, names: NameIndex) => findNames(text, own, names, standsOut);

function declaredBy(kind: SchemaKind, path: readonly string[], key: string): Entity | undefined {
  const [section] = path;
  if (path.length !== 1 || section === undefined) return undefined;
  if (kind === "board" && SECTIONS.has(section)) return { kind: section as ThingKind, name: key };
  if (kind === "board" && section === "switch-banks") return { kind: "parts", name: key };
  return kind === "shop" && section === "meters" ? { kind: "meter", name: key } : undefined;
}

function thingOf(
  kind: SchemaKind,
  path: readonly string[],
  schema: SchemaNode | undefined,
  name: string,
): Entity | undefined {
  if (name === "") return undefined;
  if (path.length === 1 && path[0] === "id") {
    const own = kind === "board" || kind === "device" || kind === "procedure" ? kind : undefined;
    return own && { kind: own, name };
  }
  if (kind === "device" && path.length === 2 && path[0] === "aliases") return { kind: "device", name };
  if (kind === "shop" && path[0] === "stock" && path[2] === "part") return { kind: "device", name };
  const to = schema?.refersTo;
  if (to === undefined) return undefined;
  return SECTIONS.has(to) || to === "device" || to === "procedure"
    ? { kind: to as ThingKind, name }
    : undefined;
}

/** Text of the writer's own: no quantity, choice, date or number. */
const isFree = (schema: SchemaNode): boolean =>
  typesOf(schema).join() === "string" &&
  schema.refersTo === undefined &&
  schema.quantity === undefined &&
  schema.enum === undefined &&
  schema.pattern === undefined;

/** The `# ...` of lines, where no text has them inside; offsets of the tree's own text. */
function remarks(text: string, scalars: readonly Span[], baseOffset: number): Span[] {
  const taken = [...scalars].sort((a, b) => a.start - b.start);
  const found: Span[] = [];
  let next = 0;
  for (const { 0: line, index } of text.matchAll(/(?:^|(?<=[ \t]))#[^\r\n]*/gm)) {
    const at = index + baseOffset;
    while (next < taken.length && taken[next]!.end <= at) next++;
    const over = taken[next];
    if (over && over.start <= at) continue;
    found.push(span(index, index + line.length));
  }
  return found;
}

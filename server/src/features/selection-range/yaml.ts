import type { YamlNode } from "../../syntax/yaml";
import { type Span, span, touches } from "../../text/span";

/** Scalar, pair, mapping and so on up to the root, the smallest first. */
export function yamlSpans(root: YamlNode | undefined, offset: number): Span[] {
  const spans: Span[] = [];
  for (let node = root; node !== undefined; ) {
    spans.unshift(node.span);
    const next: { readonly own: Span; readonly node?: YamlNode } | undefined = childAt(node, offset);
    if (next) spans.unshift(next.own);
    node = next?.node;
  }
  return spans;
}

/** The pair or item at a place, and the node to look into; on a key there is none. */
function childAt(node: YamlNode, offset: number): { own: Span; node?: YamlNode } | undefined {
  if (node.kind === "scalar") return undefined;
  if (node.kind === "list") {
    const item = node.items.find((each) => touches(each.span, offset));
    return item && { own: item.span, node: item };
  }
  for (const { keySpan, value } of node.entries) {
    const pair = span(keySpan.start, Math.max(keySpan.end, value.span.end));
    if (touches(pair, offset))
      return touches(value.span, offset) ? { own: pair, node: value } : { own: pair };
  }
  return undefined;
}

import { nodeAt, type YamlPath } from "../syntax/yaml";
import type { Span } from "../text/span";
import type { LogDocument } from "./document";

/** Where a front-matter value stands; undefined where the field is absent. */
export function frontSpan(doc: LogDocument, path: YamlPath): Span | undefined {
  return nodeAt(doc.frontMatter.tree, path)?.valueSpan;
}

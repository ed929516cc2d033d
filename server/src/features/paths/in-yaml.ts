import type { YamlTree } from "../../syntax/yaml";
import { type Span, span } from "../../text/span";

export interface YamlPathName {
  readonly span: Span;
  readonly path: string;
}

const kept = new WeakMap<YamlTree, readonly YamlPathName[]>();

/** A relative path with the ending of a file that is looked at: "sheets/74ls14.pdf" in a source or a note. */
const PATH =
  /(?<![\w./:@%+-])(?:\.{1,2}\/)*[A-Za-z0-9_][\w%+-]*(?:[./][\w%+-]+)*\.(?:pdf|png|jpe?g|gif|webp|svg|md|markdown|html?|txt|csv|bin|rom)(?![\w/])/gi;

/** What looks like a file beside this one; whether it is there is not asked here. */
export function pathsInYaml(tree: YamlTree): readonly YamlPathName[] {
  let known = kept.get(tree);
  if (!known) {
    known = [...tree.text.matchAll(PATH)].map(({ 0: path, index }) => ({
      span: span(tree.baseOffset + index, tree.baseOffset + index + path.length),
      path,
    }));
    kept.set(tree, known);
  }
  return known;
}

import { memo } from "../../../base/memo";
import type { YamlTree } from "../../../syntax/yaml";
import { type Span, span } from "../../../text/span";

export interface YamlPathName {
  readonly span: Span;
  readonly path: string;
}

/** A relative path with the ending of a file that is looked at: "sheets/74ls14.pdf" in a source or a note. */
const PATH =
  /(?<![\w./:@%+-])(?:\.{1,2}\/)*[A-Za-z0-9_][\w%+-]*(?:[./][\w%+-]+)*\.(?:pdf|png|jpe?g|gif|webp|svg|md|markdown|html?|txt|csv|bin|rom)(?![\w/])/gi;

/** What looks like a file beside this one; whether it is there is not asked here. */
export const pathsInYaml = memo(({ text, baseOffset }: YamlTree): readonly YamlPathName[] =>
  [...text.matchAll(PATH)].map(({ 0: path, index }) => ({
    span: span(baseOffset + index, baseOffset + index + path.length),
    path,
  })),
);

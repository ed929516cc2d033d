import type { Root } from "mdast";
import remarkFrontmatter from "remark-frontmatter";
import remarkGfm from "remark-gfm";
import remarkParse from "remark-parse";
import { type Data, unified } from "unified";
import { findFrontMatter } from "./boundaries";
import "./quick-edits";

/**
 * Names that links and footnote calls may refer to, in the parser's own comparable form (white space made
 * single, case folded to capitals). Only these decide whether `[x]` is a link or three characters.
 */
export interface Names {
  readonly links: readonly string[];
  readonly footnotes: readonly string[];
}

/** What a text refers to that defines nothing. */
export const NO_NAMES: Names = { links: [], footnotes: [] };

export interface MarkdownReading {
  readonly tree: Root;
  /** What this text itself defines, wherever in it; without the names it was given. */
  readonly names: Names;
}

const plain = unified().use(remarkParse).use(remarkGfm).freeze();
const withFrontMatter = unified().use(remarkParse).use(remarkGfm).use(remarkFrontmatter).freeze();

/**
 * The CommonMark + GFM tree of a whole text; offsets in the tree do not count a leading byte order mark.
 * Never throws: where the parser itself fails (quotes nested thousands deep overflow its stack) the tree is empty.
 * The time taken grows faster than the text for one long paragraph or table; the documents people edit are read
 * through `parseBlocks`, which bounds it.
 */
export function parseMarkdown(text: string, options: { readonly frontMatter: boolean }): Root {
  try {
    // The front-matter extension waits for the closing fence and reads no list or quote meanwhile; where none comes
    // it leaves the whole text without them. So it is only let loose on front matter that is closed.
    const closed =
      options.frontMatter && findFrontMatter(text, text.startsWith("\uFEFF") ? 1 : 0) !== undefined;
    return (closed ? withFrontMatter : plain).parse(text);
  } catch {
    return { type: "root", children: [] };
  }
}

type SyntaxExtension = NonNullable<Data["micromarkExtensions"]>[number];

/** The two lists of the parser that this module reads and fills; both are part of its published types. */
interface ParserNames {
  defined: string[];
  gfmFootnotes?: string[];
}

/**
 * A parser that can be told names defined elsewhere, and tells those it met. It hangs on to the parser's
 * context by a construct that is asked first thing at the first line and always declines.
 */
function nameAwareReader(): (text: string, elsewhere: Names) => MarkdownReading {
  let given = NO_NAMES;
  let context: ParserNames | undefined;

  const listener: SyntaxExtension = {
    document: {
      null: {
        name: "mendlogNames",
        tokenize(_effects, _ok, nok) {
          if (context === undefined) {
            context = this.parser as unknown as ParserNames;
            context.defined.push(...given.links);
            context.gfmFootnotes ??= [];
            context.gfmFootnotes.push(...given.footnotes);
          }
          return nok;
        },
      },
    },
  };

  const processor = unified()
    .use(remarkParse)
    .use(remarkGfm)
    .use(function (this: { data(): Data }) {
      const data = this.data();
      data.micromarkExtensions = [...(data.micromarkExtensions ?? []), listener];
    })
    .freeze();

  return (text, elsewhere) => {
    given = elsewhere;
    context = undefined;
    const tree = processor.parse(text);
    const met = context as ParserNames | undefined;
    const links = met === undefined ? [] : met.defined.slice(elsewhere.links.length);
    const footnotes = met?.gfmFootnotes?.slice(elsewhere.footnotes.length) ?? [];
    return { tree, names: links.length + footnotes.length === 0 ? NO_NAMES : { links, footnotes } };
  };
}

/**
 * Parses a piece of a document, without front matter, as if `elsewhere` were defined in another part of it.
 * @throws whatever the parser throws (RangeError on absurd nesting); callers turn that into an unparsed block.
 */
export const readMarkdown = nameAwareReader();

/** Parses a piece that is one front-matter fence. @throws as `readMarkdown`. */
export const readFrontMatter = (text: string): Root => withFrontMatter.parse(text);

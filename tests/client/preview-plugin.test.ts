import fc from "fast-check";
import MarkdownIt from "markdown-it";
import { parse, parseFragment } from "parse5";
import { describe, expect, test } from "vitest";
import { previewPlugin } from "../../client/src/preview/plugin";
import type { PreviewContent, PreviewSource } from "../../client/src/preview/source";
import type { Preview, PreviewMark } from "../../server/src/protocol/custom-requests/preview";

const WORDS: PreviewSource["words"] = {
  findings: (count) => `${count} findings`,
  line: (line) => `Line ${line}`,
  severity: { error: "error", warning: "warning", information: "information", hint: "hint" },
  suspects: "Suspects:",
  share: ({ how, percent }) => `${how} ${percent} %`,
  nextReading: "Next reading:",
  minutes: (minutes) => `about ${minutes} min`,
  pictures: "Drawn from the table above",
};

const URI = "file:///log.md";

/** Renders as the editor does: first the tokens, without a document, then the page. */
function render(text: string, shown?: PreviewContent, asked: unknown[][] = []): string {
  const source: PreviewSource = {
    shown: (...args) => {
      asked.push(args);
      return shown;
    },
    words: WORDS,
  };
  const md = new MarkdownIt({ html: true }).use(previewPlugin, source);
  const tokens = md.parse(text, { currentDocument: undefined });
  return md.renderer.render(tokens, md.options, { currentDocument: { toString: () => URI } });
}

const HEAD = "---\nmendlog: 1\nboard: x\n---\n\n";
const LOG = `${HEAD}## Diode check

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | 1.42    |
| U14 | 2   | 0.58    |
`;
const lineOf = (text: string, piece: string): number =>
  text.slice(0, text.indexOf(piece)).split("\n").length - 1;

const mark = (more: Partial<PreviewMark> = {}): PreviewMark => ({
  line: lineOf(LOG, "| U14 | 1 "),
  column: 2,
  text: "1.42",
  verdict: "out-of-limits",
  glyph: "▲",
  words: "Out of limits",
  sentence: "U14 pin 1 reads 1.42 V.",
  ...more,
});

const answer = (marks: readonly PreviewMark[], more: Partial<Preview> = {}): PreviewContent => ({
  preview: {
    version: 1,
    tables: [{ heading: 5, line: lineOf(LOG, "| Ref"), marks, pictures: [] }],
    findings: [],
    ...more,
  },
});

/** The words of a page without those of marks, pictures and the summary. */
function wordsOf(page: string): string {
  const texts: string[] = [];
  const walk = (node: {
    nodeName: string;
    value?: string;
    attrs?: { name: string; value: string }[];
    childNodes?: never[];
  }) => {
    if (node.attrs?.some(({ name, value }) => name === "class" && /^mendlog-/.test(value))) return;
    if (node.value !== undefined && node.nodeName === "#text") texts.push(node.value);
    for (const child of node.childNodes ?? []) walk(child);
  };
  walk(parseFragment(page) as never);
  return texts.join("").replace(/\s+/g, " ").trim();
}

describe("a mark", () => {
  test("stands in its cell, behind the reading, as a shape, in words and with the whole sentence", () => {
    const page = render(LOG, answer([mark()]));
    const cell = /<td>1\.42(.*?)<\/td>/.exec(page)?.[1];
    expect(cell).toContain(
      '<span aria-hidden="true">▲</span><span class="mendlog-words">out of limits</span>',
    );
    expect(cell).toContain('title="Out of limits: U14 pin 1 reads 1.42 V."');
    expect(page.match(/mendlog-mark/g)).toHaveLength(1);
  });

  test.each([
    ["another line", { line: 8 }],
    ["another column", { column: 1 }],
    ["a column there is not", { column: 9 }],
    ["a reading that has been changed since", { text: "1.4" }],
  ])("is left out for %s", (_, more) => {
    expect(render(LOG, answer([mark(more)]))).not.toContain("mendlog-mark");
  });

  test("finds a cell behind one with an escaped pipe", () => {
    const text = LOG.replace("| U14 | 1 ", "| U14\\|a | 1 ");
    expect(render(text, answer([mark()]))).toContain("mendlog-mark");
  });

  test("takes nothing from a table in a list, which is no table of readings", () => {
    const text = LOG.replace(/^\|/gm, "  |").replace("  | Ref", "- | Ref");
    expect(render(text, answer([mark()]))).not.toContain("mendlog-mark");
  });
});

test("the editor is asked for exactly this text of this document, and only when it is rendered", () => {
  const asked: unknown[][] = [];
  const source: PreviewSource = { shown: (...args) => void asked.push(args), words: WORDS };
  const md = new MarkdownIt().use(previewPlugin, source);
  const crlf = LOG.replaceAll("\n", "\r\n");
  const tokens = md.parse(crlf, {});
  expect(asked).toEqual([]);
  md.renderer.render(tokens, md.options, { currentDocument: { toString: () => URI } });
  expect(asked).toEqual([[URI, LOG]]);
});

test("a picture comes below its table, a finding leads to its line", () => {
  const picture = { svg: "<svg><title>U14</title></svg>" };
  const { preview } = answer([]);
  const page = render(LOG, {
    preview: {
      ...preview,
      tables: preview.tables.map((table) => ({ ...table, pictures: [picture] })),
      findings: [{ line: mark().line, severity: "warning", message: "look" }],
    },
  });
  expect(page.indexOf("</table>")).toBeLessThan(page.indexOf("<svg>"));
  const [, target = ""] = /<a href="#(.*?)">Line 10<\/a>/.exec(page) ?? [];
  expect(page).toContain(`<tr id="${target}">`);
});

test("everything that was typed is escaped", () => {
  const evil = `"><script>alert(1)</script>&amp;'`;
  const page = render(LOG, {
    ...answer([mark({ sentence: evil, words: evil, glyph: evil, verdict: evil })], {
      findings: [{ line: 9, severity: "error", message: evil }],
    }),
    suspects: {
      version: 1,
      suspects: [
        {
          name: evil,
          title: evil,
          share: { how: evil as "about", percent: 50 },
          for: [],
          before: [],
          against: [],
          notTaken: [],
        },
      ],
      next: { action: evil, why: evil, minutes: 1, cautions: [evil] },
      others: [],
      unproven: [],
      toProve: 0,
      notes: [],
    },
  });
  expect(page).not.toContain("<script");
  const names = new Set<string>();
  const walk = (node: { nodeName: string; attrs?: { name: string }[]; childNodes?: never[] }) => {
    names.add(node.nodeName);
    for (const { name } of node.attrs ?? []) expect(name).toMatch(/^(class|title|id|href|open|aria-hidden)$/);
    for (const child of node.childNodes ?? []) walk(child);
  };
  walk(parse(page) as never);
  expect([...names]).not.toContain("script");
});

const MARKDOWN = fc.stringMatching(/^[-|a-z0-9 .:#>*`\\\n<&"]{0,160}$/);

describe("Markdown that is no log", () => {
  test("is rendered as without the plugin, and nothing is asked", () => {
    fc.assert(
      fc.property(MARKDOWN, (text) => {
        fc.pre(!/mendlog/.test(text));
        const asked: unknown[][] = [];
        expect(render(text, answer([mark()]), asked)).toBe(new MarkdownIt({ html: true }).render(text));
        expect(asked).toEqual([]);
      }),
    );
  });
});

test("a log keeps its words, whatever is known about it", () => {
  const row = fc
    .array(fc.stringMatching(/^[a-z0-9.\\| ]{0,6}$/), { maxLength: 4 })
    .map((cells) => `| ${cells.join(" | ")} |`);
  const body = fc.array(fc.oneof(MARKDOWN, row, fc.constant("|---|---|"), fc.constant("## Diode check")), {
    maxLength: 12,
  });
  const marks = fc.array(
    fc.record({ line: fc.nat(20), column: fc.nat(4), text: fc.stringMatching(/^[a-z0-9.]{0,3}$/) }),
    { maxLength: 8 },
  );
  fc.assert(
    fc.property(body, marks, (parts, places) => {
      const text = `${HEAD}${parts.join("\n")}`;
      const shown = answer(
        places.map((place) => mark(place)),
        {
          findings: places.map(({ line }) => ({ line, severity: "error" as const, message: "found" })),
        },
      );
      const plain = new MarkdownIt({ html: true }).render(text);
      expect(wordsOf(render(text, shown))).toBe(wordsOf(plain));
      // Until an answer is there nothing but the anchors is new.
      expect(render(text).replace(/ id="mendlog-line-\d+"/g, "")).toBe(plain);
    }),
  );
});

describe("photographs of before and after", () => {
  const TEXT = `${HEAD}# Log

![U14 before](a.png)

![U14 "after" <b>](b.png)

![U14 after](c.png)

words ![U2 before](d.png)

![U2 after](e.png)
`;
  const at = (piece: string): number => lineOf(TEXT, piece);
  const shownWith = (pairs: Preview["pairs"]): PreviewContent =>
    answer([], pairs ? { tables: [], pairs } : { tables: [] });
  const sideBySide = (page: string): string[] =>
    [...page.matchAll(/<div class="mendlog-pair">([\s\S]*?)<\/div>/g)].map(([, inside]) =>
      [...(inside ?? "").matchAll(/src="([^"]*)"/g)].map(([, src]) => src).join(" "),
    );

  test("stand side by side where the log says that they belong together", () => {
    const page = render(TEXT, shownWith([{ before: at("![U14 before"), after: at('![U14 "after"') }]));
    expect(sideBySide(page)).toEqual(["a.png b.png"]);
    // The caption is escaped by the renderer itself.
    expect(page).toContain('alt="U14 &quot;after&quot; &lt;b&gt;"');
  });

  test("after first is a pair as well, and each image is there once", () => {
    const page = render(TEXT, shownWith([{ before: at("![U14 after"), after: at('![U14 "after"') }]));
    expect(sideBySide(page)).toEqual(["b.png c.png"]);
    for (const name of ["a", "b", "c", "d", "e"]) expect(page.split(`${name}.png`)).toHaveLength(2);
  });

  test("are left as they stand where they do not follow each other, or are not known", () => {
    expect(sideBySide(render(TEXT, shownWith(undefined)))).toEqual([]);
    expect(
      sideBySide(render(TEXT, shownWith([{ before: at("![U14 before"), after: at("![U14 after") }]))),
    ).toEqual([]);
    expect(sideBySide(render(TEXT, shownWith([{ before: at("words"), after: at("![U2 after") }])))).toEqual(
      [],
    );
    expect(sideBySide(render(TEXT))).toEqual([]);
  });

  test.each([
    ["![U14 before", '![U14 "after"'],
    ["![U14 before", "![U14 after"],
    ['![U14 "after"', '![U14 "after"'],
    ['![U14 "after"', "![U14 after"],
  ])("every box that is opened is closed: %s beside %s", (first, second) => {
    const page = render(TEXT, shownWith([{ before: at(first), after: at(second) }]));
    expect(page.match(/<div/g)?.length ?? 0).toBe(page.match(/<\/div>/g)?.length ?? 0);
  });
});

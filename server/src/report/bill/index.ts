// The bill in each of its forms. All say the same amounts.

import { cell, type Html, html, joinedHtml, markup } from "../../text/html";
import { json } from "../../text/json";
import { joined, type Markdown, markdown, markdownRow, md, RULE, RULE_RIGHT } from "../../text/markdown";
import type { PrintedPage } from "../../text/printable";
import type { ReportFormat } from "../owner/formats";
import type { ReportSource } from "../owner/model";
import { factList, list, page, paragraphs, section, table } from "../owner/page";
import { quoteHeader, quoteRows } from "../owner/quote";
import { type Bill, billOf } from "./model";

export { type Bill, billOf } from "./model";

/** The data leaves out who the owner is, as every export does; the page and the text are for the owner. */
export const writeBill = (
  source: ReportSource,
  format: ReportFormat,
  personal = format !== "json",
): PrintedPage => WRITERS[format](billOf(source, personal));

const WRITERS: Readonly<Record<ReportFormat, (bill: Bill) => PrintedPage>> = {
  html: billHtml,
  md: billMarkdown,
  json: (bill) => json(bill),
};

export function billHtml({ title, shop, draft, facts, table: sums, notes, closing }: Bill): Html {
  const lines =
    sums === undefined
      ? ""
      : table(
          quoteHeader(sums),
          quoteRows(sums).map((row) => row.map(cell)),
          [sums.currency],
        );
  return page(
    title,
    joinedHtml(
      [
        markup`<h1>${cell(title)}</h1>\n`,
        shop === undefined ? "" : markup`<p class="shop">${html(shop)}</p>\n`,
        draft === undefined ? "" : markup`<p class="warn">${html(draft)}</p>\n`,
        factList(facts),
        section("Amount", lines),
        section("Notes", notes.length === 0 ? "" : list(notes)),
        ...closing.map(({ label, text }) => section(label, paragraphs([text]))),
      ],
      "",
    ),
  );
}

export function billMarkdown({ title, shop, draft, facts, table: sums, notes, closing }: Bill): Markdown {
  const blocks = [
    markdown`# ${md(title)}`,
    ...(shop === undefined ? [] : [md(shop)]),
    ...(draft === undefined ? [] : [markdown`**${md(draft)}**`]),
    ...(facts.length === 0
      ? []
      : [
          joined(
            facts.map(({ label, text }) => markdown`- **${md(label)}:** ${md(text)}`),
            "\n",
          ),
        ]),
    ...(sums === undefined
      ? []
      : [
          markdown`## Amount`,
          joined(
            [
              markdownRow(quoteHeader(sums).map(md)),
              markdownRow([RULE, RULE_RIGHT, RULE_RIGHT, RULE_RIGHT]),
              ...quoteRows(sums).map((cells) => markdownRow(cells.map(md))),
            ],
            "\n",
          ),
        ]),
    ...(notes.length === 0
      ? []
      : [
          markdown`## Notes`,
          joined(
            notes.map((note) => markdown`- ${md(note)}`),
            "\n",
          ),
        ]),
    ...closing.flatMap(({ label, text }) => [markdown`## ${md(label)}`, md(text)]),
  ];
  return markdown`${joined(blocks, "\n\n")}\n`;
}

// What every printed page is made of: one self-contained file, no script, nothing fetched.

import { cell, type Html, html, joinedHtml, markup } from "../../text/html";
import { usedColumns } from "./columns";
import { REPORT_STYLE } from "./style";

/** The page may load nothing but the pictures inside it, whatever slipped into it. */
const POLICY = markup`default-src 'none'; style-src 'unsafe-inline'; img-src data:`;

/** @param body HTML between the tags of the page's main part */
export const page = (title: string, body: Html, style: Html | "" = ""): Html => markup`<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${POLICY}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${html(title)}</title>
<style>${REPORT_STYLE}${style}</style>
</head>
<body>
<main>
${body}</main>
</body>
</html>
`;

/** A part of the page under its heading, `content` being HTML; nothing at all where that is empty. */
export const section = (title: string, content: Html | ""): Html | "" =>
  content === "" ? "" : markup`<section>\n<h2>${html(title)}</h2>\n${content}</section>\n`;

/** Texts as points of a list. They are made safe here. */
export const list = (items: readonly string[]): Html =>
  markup`<ul>\n${joinedHtml(
    items.map((item) => markup`<li>${cell(item)}</li>\n`),
    "",
  )}</ul>\n`;

/** Texts as paragraphs, each made safe; nothing where there are none. */
export const paragraphs = (texts: readonly string[]): Html =>
  joinedHtml(
    texts.map((text) => markup`<p>${cell(text)}</p>\n`),
    "",
  );

/** Labels and what stands beside them; nothing where there are none. */
export const factList = (all: readonly { readonly label: string; readonly text: string }[]): Html | "" =>
  all.length === 0
    ? ""
    : markup`<dl class="facts">\n${joinedHtml(all.map(({ label, text }) => markup`<dt>${html(label)}</dt><dd>${cell(text)}</dd>\n`))}</dl>\n`;

/** Columns whose cells are counts and sums. */
const NUMBERS = new Set(["Count", "Each"]);

/**
 * @param rows cells as HTML; the first names its row
 * @param numbers further columns set to the right
 */
export function table(
  allHeaders: readonly string[],
  allRows: readonly (readonly (Html | "")[])[],
  numbers: readonly string[] = [],
): Html {
  const { headers, rows } = usedColumns(allHeaders, allRows);
  const look = (header: string): Html =>
    NUMBERS.has(header) || numbers.includes(header) ? markup` class="number"` : markup``;
  const head = joinedHtml(
    headers.map((header) => markup`<th scope="col"${look(header)}>${html(header)}</th>`),
    "",
  );
  const body = rows.map(([first = "", ...rest]) => {
    const cells = rest.map((content, at) => {
      const header = headers[at + 1] ?? "";
      // A narrow screen shows a row as a card, and its style sheet takes the names of the columns from here.
      return markup`<td data-label="${html(header)}"${look(header)}>${content}</td>`;
    });
    return markup`<tr><th scope="row">${first}</th>${joinedHtml(cells)}</tr>\n`;
  });
  return markup`<table>\n<thead><tr>${head}</tr></thead>\n<tbody>\n${joinedHtml(body, "")}</tbody>\n</table>\n`;
}

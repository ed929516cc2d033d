// What every printed page is made of: one self-contained file, no script, nothing fetched.

import { cell, html } from "../../text/html";
import { usedColumns } from "./columns";
import { STYLE } from "./style";

/** The page may load nothing but the pictures inside it, whatever slipped into it. */
const POLICY = "default-src 'none'; style-src 'unsafe-inline'; img-src data:";

/** @param body HTML between the tags of the page's main part */
export const page = (title: string, body: string, style = ""): string => `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${POLICY}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${html(title)}</title>
<style>${STYLE}${style}</style>
</head>
<body>
<main>
${body}</main>
</body>
</html>
`;

/** A part of the page under its heading, `content` being HTML; nothing at all where that is empty. */
export const section = (title: string, content: string): string =>
  content === "" ? "" : `<section>\n<h2>${html(title)}</h2>\n${content}</section>\n`;

/** Texts as points of a list. They are made safe here. */
export const list = (items: readonly string[]): string =>
  `<ul>\n${items.map((item) => `<li>${cell(item)}</li>\n`).join("")}</ul>\n`;

/** Texts as paragraphs, each made safe; nothing where there are none. */
export const paragraphs = (texts: readonly string[]): string =>
  texts.map((text) => `<p>${cell(text)}</p>\n`).join("");

/** Labels and what stands beside them; nothing where there are none. */
export const factList = (all: readonly { readonly label: string; readonly text: string }[]): string =>
  all.length === 0
    ? ""
    : `<dl class="facts">\n${all.map(({ label, text }) => `<dt>${html(label)}</dt><dd>${cell(text)}</dd>\n`).join("")}</dl>\n`;

/** Columns whose cells are counts and sums. */
const NUMBERS = new Set(["Count", "Each"]);

/**
 * @param rows cells as HTML; the first names its row
 * @param numbers further columns set to the right
 */
export function table(
  allHeaders: readonly string[],
  allRows: readonly (readonly string[])[],
  numbers: readonly string[] = [],
): string {
  const { headers, rows } = usedColumns(allHeaders, allRows);
  const look = (header: string): string =>
    NUMBERS.has(header) || numbers.includes(header) ? ' class="number"' : "";
  const head = headers.map((header) => `<th scope="col"${look(header)}>${html(header)}</th>`).join("");
  const body = rows.map(([first = "", ...rest]) => {
    const cells = rest.map((content, at) => {
      const header = headers[at + 1] ?? "";
      // A narrow screen shows a row as a card, and its style sheet takes the names of the columns from here.
      return `<td data-label="${html(header)}"${look(header)}>${content}</td>`;
    });
    return `<tr><th scope="row">${first}</th>${cells.join("")}</tr>\n`;
  });
  return `<table>\n<thead><tr>${head}</tr></thead>\n<tbody>\n${body.join("")}</tbody>\n</table>\n`;
}

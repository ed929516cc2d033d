// The bench sheet in each of its forms. On paper it is dark on light whatever the screen prefers, and every row has room to
// write in.

import { cell, type Html, html, joinedHtml, markup } from "../../text/html";
import { json } from "../../text/json";
import { joined, type Markdown, markdown, markdownRow, md, RULE } from "../../text/markdown";
import type { PrintedPage } from "../../text/printable";
import type { ReportFormat } from "../owner/formats";
import type { ReportSource } from "../owner/model";
import { factList, list, page } from "../owner/page";
import { type BenchSheet, type SheetTable, sheetOf } from "./model";

export { type BenchSheet, sheetOf } from "./model";

/** The bench sheet of one log, filled in as far as the log goes. */
export const writeSheet = (source: ReportSource, format: ReportFormat): PrintedPage =>
  WRITERS[format](sheetOf(source));

const WRITERS: Readonly<Record<ReportFormat, (sheet: BenchSheet) => PrintedPage>> = {
  html: sheetHtml,
  md: sheetMarkdown,
  json: (sheet) => json(sheet),
};

/** A line is to be written in with a pencil: 8 mm are one. The page is A4 or Letter, whichever is in the printer. */
const LOOK = markup`
.sheet table { table-layout: auto; }
.sheet th, .sheet td { border: 1px solid var(--rule); padding: .2rem .4rem; }
.sheet tbody th { width: auto; font-variant-numeric: tabular-nums; }
.sheet tbody tr { height: 8mm; }
.sheet td.write { min-width: 18mm; }
.sheet td.named { padding-bottom: 7mm; }
@media screen and (max-width: 62rem) { .sheet th, .sheet td { overflow-wrap: anywhere; } .sheet td.write { min-width: 0; } }
@media screen and (max-width: 38rem) { .sheet tbody tr { height: auto; } .sheet td.write { min-height: 8mm; } .sheet td:empty { display: block; } }
@media print { .sheet h2 { margin-top: 6mm; } .sheet .warn { margin: 2mm 0; padding: 1mm 3mm; } }
`;

/** What stands before the log's name, and what behind it. */
const goesTo = ({ ofBoard }: BenchSheet): readonly [string, string] =>
  ofBoard
    ? ["A reading at number 2.3 is of row 3 of table 2, for a log of the board that ", " describes."]
    : ["A reading at number 2.3 goes into row 3 of table 2 of the log ", "."];

export function sheetHtml(sheet: BenchSheet): Html {
  const { title, facts, cautions, tables } = sheet;
  const [before, behind] = goesTo(sheet);
  return page(
    title,
    joinedHtml(
      [
        markup`<div class="sheet">\n<h1>${cell(title)}</h1>\n`,
        factList(facts),
        cautions.length === 0
          ? ""
          : markup`<section class="warn">\n<h2>Cautions</h2>\n${list(cautions)}</section>\n`,
        markup`<p class="small">${html(before)}${html(sheet.log)}${html(behind)} What is expected is what a reading can disprove; none of them proves a part.</p>\n`,
        ...tables.map(sheetTable),
        tables.length === 0 ? markup`<p>There is no table yet.</p>\n` : "",
        markup`</div>\n`,
      ],
      "",
    ),
    LOOK,
  );
}

function sheetTable({ number, heading, line, cautions, headers, rows, named }: SheetTable): Html {
  const head = joinedHtml(["No.", ...headers].map((header) => markup`<th scope="col">${html(header)}</th>`));
  const body = rows.map((cells, at) => {
    const rest = cells.map((text, i) => {
      const label = html(headers[i] ?? "");
      return text === ""
        ? markup`<td class="write" data-label="${label}"></td>`
        : markup`<td${named && i > 0 ? markup` class="named"` : ""} data-label="${label}">${cell(text)}</td>`;
    });
    return markup`<tr><th scope="row">${number}.${at + 1}</th>${joinedHtml(rest)}</tr>\n`;
  });
  return markup`<section>\n<h2>${number}. ${cell(heading)}</h2>\n${line === undefined ? "" : markup`<p class="small lead">Line ${line} of the log.</p>\n`}${
    cautions.length === 0 ? "" : markup`<div class="warn">\n${list(cautions)}</div>\n`
  }<table>\n<thead><tr>${head}</tr></thead>\n<tbody>\n${joinedHtml(body)}</tbody>\n</table>\n</section>\n`;
}

export function sheetMarkdown(sheet: BenchSheet): Markdown {
  const { title, facts, cautions, tables } = sheet;
  const [before, behind] = goesTo(sheet);
  const blocks = [
    markdown`# ${md(title)}`,
    joined(
      facts.map(({ label, text }) => markdown`- **${md(label)}:** ${md(text)}`),
      "\n",
    ),
    markdown`## Cautions`,
    joined(
      cautions.map((one) => markdown`- ${md(one)}`),
      "\n",
    ),
    markdown`${md(before)}${md(sheet.log)}${md(behind)}`,
    ...tables.flatMap(({ number, heading, line, cautions: own, headers, rows }) => [
      markdown`## ${number}. ${md(heading)}`,
      ...(line === undefined ? [] : [markdown`Line ${line} of the log.`]),
      ...(own.length === 0
        ? []
        : [
            joined(
              own.map((one) => markdown`- ${md(one)}`),
              "\n",
            ),
          ]),
      joined(
        [
          markdownRow(["No.", ...headers].map(md)),
          markdownRow(["No.", ...headers].map(() => RULE)),
          ...rows.map((cells, at) => markdownRow([markdown`${number}.${at + 1}`, ...cells.map(md)])),
        ],
        "\n",
      ),
    ]),
  ];
  return markdown`${joined(blocks, "\n\n")}\n`;
}

// The bench sheet in each of its forms. On paper it is dark on light whatever the screen prefers, and every row has room to
// write in.

import { cell, html } from "../../text/html";
import { md } from "../../text/markdown";
import type { ReportFormat } from "../owner/formats";
import type { ReportSource } from "../owner/model";
import { factList, list, page } from "../owner/page";
import { type BenchSheet, type SheetTable, sheetOf } from "./model";

export { type BenchSheet, sheetOf } from "./model";

/** The bench sheet of one log, filled in as far as the log goes. */
export const writeSheet = (source: ReportSource, format: ReportFormat): string =>
  WRITERS[format](sheetOf(source));

const WRITERS: Readonly<Record<ReportFormat, (sheet: BenchSheet) => string>> = {
  html: sheetHtml,
  md: sheetMarkdown,
  json: (sheet) => `${JSON.stringify(sheet, null, 2)}\n`,
};

/** A line is to be written in with a pencil: 8 mm are one. The page is A4 or Letter, whichever is in the printer. */
const LOOK = `
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

const goesTo = ({ log, ofBoard }: BenchSheet, marked: (text: string) => string): string =>
  ofBoard
    ? `A reading at number 2.3 is of row 3 of table 2, for a log of the board that ${marked(log)} describes.`
    : `A reading at number 2.3 goes into row 3 of table 2 of the log ${marked(log)}.`;

export function sheetHtml(sheet: BenchSheet): string {
  const { title, facts, cautions, tables } = sheet;
  return page(
    title,
    [
      `<div class="sheet">\n<h1>${cell(title)}</h1>\n`,
      factList(facts),
      cautions.length === 0 ? "" : `<section class="warn">\n<h2>Cautions</h2>\n${list(cautions)}</section>\n`,
      `<p class="small">${goesTo(sheet, html)} What is expected is what a reading can disprove; none of them proves a part.</p>\n`,
      ...tables.map(sheetTable),
      tables.length === 0 ? "<p>There is no table yet.</p>\n" : "",
      "</div>\n",
    ].join(""),
    LOOK,
  );
}

function sheetTable({ number, heading, line, cautions, headers, rows, named }: SheetTable): string {
  const head = ["No.", ...headers].map((header) => `<th scope="col">${html(header)}</th>`).join("");
  const body = rows.map((cells, at) => {
    const rest = cells.map((text, i) => {
      const label = html(headers[i] ?? "");
      return text === ""
        ? `<td class="write" data-label="${label}"></td>`
        : `<td${named && i > 0 ? ' class="named"' : ""} data-label="${label}">${cell(text)}</td>`;
    });
    return `<tr><th scope="row">${number}.${at + 1}</th>${rest.join("")}</tr>\n`;
  });
  return `<section>\n<h2>${number}. ${cell(heading)}</h2>\n${line === undefined ? "" : `<p class="small lead">Line ${line} of the log.</p>\n`}${
    cautions.length === 0 ? "" : `<div class="warn">\n${list(cautions)}</div>\n`
  }<table>\n<thead><tr>${head}</tr></thead>\n<tbody>\n${body.join("")}</tbody>\n</table>\n</section>\n`;
}

export function sheetMarkdown(sheet: BenchSheet): string {
  const { title, facts, cautions, tables } = sheet;
  const row = (cells: readonly string[]): string => `| ${cells.join(" | ")} |`;
  const blocks = [
    `# ${md(title)}`,
    facts.map(({ label, text }) => `- **${md(label)}:** ${md(text)}`).join("\n"),
    "## Cautions",
    cautions.map((one) => `- ${md(one)}`).join("\n"),
    goesTo(sheet, md),
    ...tables.flatMap(({ number, heading, line, cautions: own, headers, rows }) => [
      `## ${number}. ${md(heading)}`,
      ...(line === undefined ? [] : [`Line ${line} of the log.`]),
      ...(own.length === 0 ? [] : [own.map((one) => `- ${md(one)}`).join("\n")]),
      [
        row(["No.", ...headers.map(md)]),
        row(["---", ...headers.map(() => "---")]),
        ...rows.map((cells, at) => row([`${number}.${at + 1}`, ...cells.map(md)])),
      ].join("\n"),
    ]),
  ];
  return `${blocks.join("\n\n")}\n`;
}

// One self-contained page: no script, nothing fetched, everything of the log escaped. PDF comes of printing it.
import { chartSvg } from "./chart-svg";
import { usedColumns } from "./columns";
import { cell, html } from "./escape";
import type { OwnerReport, ProvingLine, ReadingChart } from "./model";
import { quoteHeader, quoteRows } from "./quote";
import { STYLE } from "./style";
import { STATES } from "./words";

/** The page may load nothing but the pictures inside it, whatever slipped into it. */
const POLICY = "default-src 'none'; style-src 'unsafe-inline'; img-src data:";

export function ownerHtml(report: OwnerReport): string {
  const { shop, draft } = report;
  return `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${POLICY}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${html(report.title)}</title>
<style>${STYLE}</style>
</head>
<body>
<main>
<h1>${cell(report.title)}</h1>
${shop === undefined ? "" : `<p class="shop">${html(shop)}</p>\n`}${draft === undefined ? "" : `<p class="warn">${html(draft)}</p>\n`}${facts(report)}${[
  warned("Before you power it", report.beforePower),
  section("What was found", found(report)),
  section("What was done", done(report)),
  section("Parts fitted", fitted(report)),
  section("Quote", quoted(report)),
  section("Readings", charts(report)),
  section("Proving", proving(report)),
  section("From the log", paragraphs(report.notes)),
  section("Pictures", pictures(report)),
  warned("Cautions", report.cautions),
  ...report.closing.map(({ label, text }) => section(label, paragraphs([text]))),
].join("")}</main>
</body>
</html>
`;
}

const section = (title: string, content: string): string =>
  content === "" ? "" : `<section>\n<h2>${html(title)}</h2>\n${content}</section>\n`;

const warned = (title: string, items: readonly string[]): string =>
  items.length === 0 ? "" : `<section class="warn">\n<h2>${html(title)}</h2>\n${list(items)}</section>\n`;

const list = (items: readonly string[]): string =>
  `<ul>\n${items.map((item) => `<li>${cell(item)}</li>\n`).join("")}</ul>\n`;

const paragraphs = (texts: readonly string[]): string =>
  texts.map((text) => `<p>${cell(text)}</p>\n`).join("");

const facts = (report: OwnerReport): string => {
  const all = [
    ...report.facts,
    ...(report.symptoms.length > 0 ? [{ label: "Came in with", text: report.symptoms.join("; ") }] : []),
  ];
  return all.length === 0
    ? ""
    : `<dl class="facts">\n${all.map(({ label, text }) => `<dt>${html(label)}</dt><dd>${cell(text)}</dd>\n`).join("")}</dl>\n`;
};

/** Columns whose cells are counts and sums. */
const NUMBERS = new Set(["Count", "Each"]);

/**
 * @param rows cells as HTML; the first names its row
 * @param numbers further columns set to the right
 */
function table(
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

/** "U14 (hex inverter, switch matrix)": the designator is what the eye looks for. */
function place(where: string): string {
  const [, ref, what] = /^([A-Z]{1,4}\d{1,4}) (\(.*\))$/s.exec(where) ?? [];
  return ref === undefined || what === undefined
    ? cell(where)
    : `${html(ref)} <span class="what">${cell(what)}</span>`;
}

const day = (text: string): string =>
  /^\d{4}-\d{2}-\d{2}$/.test(text) ? `<span class="once">${text}</span>` : cell(text);

const several = (texts: readonly string[]): string =>
  texts.length > 1
    ? `<ul>${texts.map((text) => `<li>${cell(text)}</li>`).join("")}</ul>`
    : texts.map(cell).join("");

const found = ({ found: items }: OwnerReport): string =>
  items.length === 0
    ? paragraphs(["The log holds no reading outside its limits and no test that did not work."])
    : table(
        ["Where", "Found", "Then"],
        items.map(({ where, said, outcome }) => [place(where), several(said), cell(outcome ?? "")]),
      );

const done = ({ done: items }: OwnerReport): string =>
  items.length === 0
    ? paragraphs(["No work is written down."])
    : table(
        ["Where", "Work", "Part", "Date", "Note"],
        items.map(({ where, action, part, date, note }) => [
          place(where),
          cell(action),
          cell(part ?? ""),
          day(date ?? ""),
          cell(note ?? ""),
        ]),
      );

const fitted = ({ fitted: items }: OwnerReport): string =>
  items.length === 0
    ? ""
    : table(
        ["Part", "Quantity", "Where", "Note"],
        items.map(({ part, quantity, where, note, caution }) =>
          [part, quantity, where, [note, caution].filter(Boolean).join(". ")].map(cell),
        ),
      );

const quoted = ({ quote }: OwnerReport): string =>
  quote === undefined
    ? ""
    : table(
        quoteHeader(quote),
        quoteRows(quote).map((row) => row.map(cell)),
        [quote.currency],
      ) + list(quote.notes);

function charts({ charts: all, chartsNote }: OwnerReport): string {
  if (all.length === 0) return "";
  const legend =
    "The shaded band between dashed lines is where the reading should lie. A ring is the reading before the repair, or the only one; a filled diamond is the one after it. An arrow head means beyond the scale, as an open circuit reads.";
  return `<p class="small lead">${html(legend)}</p>\n<p class="small lead">${html(chartsNote)}</p>\n<div class="charts">\n${all.map(chart).join("")}</div>\n`;
}

/** The drawing's own title says all that is drawn; what stands below it is what it leaves out. */
const chart = (one: ReadingChart, index: number): string =>
  `<figure>\n<h3>${cell(one.title)}</h3>\n${chartSvg(one, `chart-${index + 1}`)}\n<figcaption>Source of the limits: ${cell(one.source)}</figcaption>\n</figure>\n`;

const proving = ({ proving: lines }: OwnerReport): string =>
  lines.length === 0
    ? ""
    : table(
        ["Item", "State", "By what"],
        lines.map(({ item, state, said }) => [cell(item), stateTag(state), cell(said)]),
      );

const stateTag = (state: ProvingLine["state"]): string =>
  `<span class="state ${state}">${html(STATES[state])}</span>`;

const pictures = ({ images }: OwnerReport): string =>
  images.length === 0
    ? ""
    : `<div class="pictures">\n${images
        .map(({ alt, source, data, leftOut }) =>
          data === undefined
            ? `<p class="small">Left out: ${cell(source)}${leftOut === undefined ? "" : `, because ${html(leftOut)}`}.</p>\n`
            : `<figure><img src="${html(data)}" alt="${html(alt || source)}"><figcaption>${html(alt)}</figcaption></figure>\n`,
        )
        .join("")}</div>\n`;

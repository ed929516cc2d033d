// The owner's report as a page, everything of the log escaped. PDF comes of printing it.

import { cell, type Html, html, joinedHtml, markup } from "../../text/html";
import { chartSvg } from "./chart-svg";
import type { OwnerReport, ProvingLine, ReadingChart, ReportImage } from "./model";
import { factList, list, page, paragraphs, section, table } from "./page";
import { quoteHeader, quoteRows } from "./quote";
import { STATES } from "./words";

export function ownerHtml(report: OwnerReport): Html {
  const { shop, draft } = report;
  return page(
    report.title,
    markup`<h1>${cell(report.title)}</h1>
${shop === undefined ? "" : markup`<p class="shop">${html(shop)}</p>\n`}${draft === undefined ? "" : markup`<p class="warn">${html(draft)}</p>\n`}${facts(report)}${joinedHtml(
  [
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
  ],
  "",
)}`,
  );
}

const warned = (title: string, items: readonly string[]): Html =>
  items.length === 0
    ? markup``
    : markup`<section class="warn">\n<h2>${html(title)}</h2>\n${list(items)}</section>\n`;

const facts = (report: OwnerReport): Html | "" => {
  const all = [
    ...report.facts,
    ...(report.complaint === undefined ? [] : [{ label: "In your words", text: report.complaint }]),
    ...(report.symptoms.length > 0 ? [{ label: "Came in with", text: report.symptoms.join("; ") }] : []),
  ];
  return factList(all);
};

/** "U14 (hex inverter, switch matrix)": the designator is what the eye looks for. */
function place(where: string): Html {
  const [, ref, what] = /^([A-Z]{1,4}\d{1,4}) (\(.*\))$/s.exec(where) ?? [];
  return ref === undefined || what === undefined
    ? cell(where)
    : markup`${html(ref)} <span class="what">${cell(what)}</span>`;
}

const day = (text: string): Html =>
  /^\d{4}-\d{2}-\d{2}$/.test(text) ? markup`<span class="once">${html(text)}</span>` : cell(text);

const several = (texts: readonly string[]): Html =>
  texts.length > 1
    ? markup`<ul>${joinedHtml(
        texts.map((text) => markup`<li>${cell(text)}</li>`),
        "",
      )}</ul>`
    : joinedHtml(texts.map(cell), "");

const found = ({ found: items }: OwnerReport): Html =>
  items.length === 0
    ? paragraphs(["The log has no reading outside its limits and no failed test."])
    : table(
        ["Where", "Found", "Then"],
        items.map(({ where, said, outcome }) => [place(where), several(said), cell(outcome ?? "")]),
      );

const done = ({ done: items }: OwnerReport): Html =>
  items.length === 0
    ? paragraphs(["The log lists no work."])
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

const fitted = ({ fitted: items }: OwnerReport): Html =>
  items.length === 0
    ? markup``
    : table(
        ["Part", "Quantity", "Where", "Note"],
        items.map(({ part, quantity, where, note, caution }) =>
          [part, quantity, where, [note, caution].filter(Boolean).join(". ")].map(cell),
        ),
      );

const quoted = ({ quote }: OwnerReport): Html =>
  quote === undefined
    ? markup``
    : joinedHtml([
        table(
          quoteHeader(quote),
          quoteRows(quote).map((row) => row.map(cell)),
          [quote.currency],
        ),
        list(quote.notes),
      ]);

function charts({ charts: all, chartsNote }: OwnerReport): Html {
  if (all.length === 0) return markup``;
  const legend =
    "The shaded band between dashed lines is where the reading should be. A ring is the reading before the repair, or the only one; a filled diamond is the one after it. An arrow head means beyond the scale, as an open circuit reads.";
  return markup`<p class="small lead">${html(legend)}</p>\n<p class="small lead">${html(chartsNote)}</p>\n<div class="charts">\n${joinedHtml(all.map(chart), "")}</div>\n`;
}

/** The drawing's own title says all that is drawn; what stands below it is what it leaves out. */
const chart = (one: ReadingChart, index: number): Html =>
  markup`<figure>\n<h3>${cell(one.title)}</h3>\n${chartSvg(one, markup`chart-${index + 1}`)}\n<figcaption>Source of the limits: ${cell(one.source)}</figcaption>\n</figure>\n`;

const proving = ({ proving: lines }: OwnerReport): Html =>
  lines.length === 0
    ? markup``
    : table(
        ["Item", "State", "By what"],
        lines.map(({ item, state, said }) => [cell(item), stateTag(state), cell(said)]),
      );

const stateTag = (state: ProvingLine["state"]): Html =>
  markup`<span class="state ${html(state)}">${html(STATES[state])}</span>`;

const pictures = ({ images }: OwnerReport): Html =>
  images.length === 0
    ? markup``
    : markup`<div class="pictures">\n${joinedHtml(
        images.map((image, at) =>
          image.when === "before" && images[at + 1]?.when === "after"
            ? markup`<div class="pair">\n${picture(image)}`
            : image.when === "after"
              ? markup`${picture(image)}</div>\n`
              : picture(image),
        ),
        "",
      )}</div>\n`;

const picture = ({ alt, source, data, leftOut }: ReportImage): Html =>
  data === undefined
    ? markup`<p class="small">Left out: ${cell(source)}${leftOut === undefined ? "" : markup`, because ${html(leftOut)}`}.</p>\n`
    : markup`<figure><img src="${html(data)}" alt="${html(alt || source)}"><figcaption>${html(alt)}</figcaption></figure>\n`;

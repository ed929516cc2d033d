// The owner's report as a page, everything of the log escaped. PDF comes of printing it.

import { cell, html } from "../../text/html";
import { chartSvg } from "./chart-svg";
import type { OwnerReport, ProvingLine, ReadingChart, ReportImage } from "./model";
import { factList, list, page, paragraphs, section, table } from "./page";
import { quoteHeader, quoteRows } from "./quote";
import { STATES } from "./words";

export function ownerHtml(report: OwnerReport): string {
  const { shop, draft } = report;
  return page(
    report.title,
    `<h1>${cell(report.title)}</h1>
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
].join("")}`,
  );
}

const warned = (title: string, items: readonly string[]): string =>
  items.length === 0 ? "" : `<section class="warn">\n<h2>${html(title)}</h2>\n${list(items)}</section>\n`;

const facts = (report: OwnerReport): string => {
  const all = [
    ...report.facts,
    ...(report.complaint === undefined ? [] : [{ label: "In your words", text: report.complaint }]),
    ...(report.symptoms.length > 0 ? [{ label: "Came in with", text: report.symptoms.join("; ") }] : []),
  ];
  return factList(all);
};

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
    ? paragraphs(["The log has no reading outside its limits and no failed test."])
    : table(
        ["Where", "Found", "Then"],
        items.map(({ where, said, outcome }) => [place(where), several(said), cell(outcome ?? "")]),
      );

const done = ({ done: items }: OwnerReport): string =>
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
    "The shaded band between dashed lines is where the reading should be. A ring is the reading before the repair, or the only one; a filled diamond is the one after it. An arrow head means beyond the scale, as an open circuit reads.";
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
        .map((image, at) =>
          image.when === "before" && images[at + 1]?.when === "after"
            ? `<div class="pair">\n${picture(image)}`
            : image.when === "after"
              ? `${picture(image)}</div>\n`
              : picture(image),
        )
        .join("")}</div>\n`;

const picture = ({ alt, source, data, leftOut }: ReportImage): string =>
  data === undefined
    ? `<p class="small">Left out: ${cell(source)}${leftOut === undefined ? "" : `, because ${html(leftOut)}`}.</p>\n`
    : `<figure><img src="${html(data)}" alt="${html(alt || source)}"><figcaption>${html(alt)}</figcaption></figure>\n`;

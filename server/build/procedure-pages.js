import { code, fence, list, NOTICE, numbered, page, table } from "./markdown.js";
import { sampleOf, wideHeaders } from "./samples.js";
import { header, longColumns, wideParts } from "./tables.js";

const POWER = {
  unpowered: "Board unpowered",
  powered: "Board powered",
  either: "Board powered or not",
};

/** docs/procedures/: a page a procedure and an index, as paths and texts. */
export function procedurePages(procedures) {
  const pages = new Map(procedures.map((it) => [`docs/procedures/${it.id}.md`, procedurePage(it)]));
  const rows = procedures.map((it) => [
    `[${it.title}](${it.id}.md)`,
    POWER[it.powered],
    firstSentence(it.purpose),
  ]);
  pages.set(
    "docs/procedures/README.md",
    page(
      NOTICE,
      "# The procedures",
      "The tests and records Mendlog knows. A table belongs to one when the nearest heading above it has its name. The cautions are the usual ones; local codes and licensed practice come first.",
      table(["Procedure", "Power", "What it is for"], rows),
    ),
  );
  return pages;
}

function procedurePage(it) {
  return page(
    NOTICE,
    `# ${it.title}`,
    `${POWER[it.powered]}.`,
    it.purpose,
    section("Cautions", list(it.cautions)),
    section("Set-up", list(it.setup)),
    section("Steps", numbered(it.steps)),
    section("How to read it", list(it.interpret)),
    section("What it cannot tell", list(it.cannotTell)),
    "## In the log",
    it.aliases.length > 0 && `Also found under the headings ${it.aliases.map(code).join(", ")}.`,
    fence(`## ${it.title}\n\n${longExample(it)}`, "markdown"),
    it.wide && "Or wide, with one column each:",
    it.wide && fence(`## ${it.title}\n\n${wideExample(it)}`, "markdown"),
    columnsText(it),
    "The values are invented.",
    `Source of the figures without one beside them: ${it.source}.`,
  );
}

const section = (title, body) => body && `## ${title}\n\n${body}`;

function longExample(it) {
  const columns = longColumns(it);
  return table(columns.map(header), [columns.map((column) => sampleOf(it, column))]);
}

function wideExample(it) {
  const { first, cells } = wideParts(it);
  const headers = wideHeaders(it);
  return table(
    [header(first), ...headers],
    [[sampleOf(it, first), ...headers.map(() => sampleOf(it, cells))]],
  );
}

function columnsText(it) {
  const rows = it.columns.map((column) => [
    header(column),
    column.headers.slice(1).join(", "),
    [column.quantity, column.unit && `in ${column.unit} unless said`].filter(Boolean).join(", "),
    column.required ? "yes" : "",
  ]);
  return table(["Column", "Also called", "Holds", "Needed"], rows);
}

const firstSentence = (text) => /^.*?\.(?=\s|$)/s.exec(text)?.[0] ?? text;

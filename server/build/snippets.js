import { sampleOf, wideHeaders } from "./samples.js";
import { header, longColumns, wideParts } from "./tables.js";

/** Roles whose cell may be filled in beforehand. A reading, a state or a result never is: it must be measured. */
const PREFILLED = new Set(["ref", "pin", "rail", "row", "column", "switch"]);

/** snippets/log.code-snippets: one snippet for each form of each procedure's table, and one that links three of them. */
export function snippetsFile(procedures) {
  const snippets = {};
  for (const procedure of procedures) {
    snippets[procedure.title] = longSnippet(procedure);
    if (procedure.wide) snippets[`${procedure.title}, wide`] = wideSnippet(procedure);
  }
  snippets["Part replaced"] = replacedSnippet(procedures);
  return `${JSON.stringify(snippets, null, 2)}\n`;
}

/**
 * A part that was replaced stands in three places: what was done, what was fitted, and the reading after it. Its
 * designator and its number are typed once and written in each.
 */
function replacedSnippet(procedures) {
  // Nothing in it may be taken for what was done: what is not typed stays empty.
  const ref = "$1";
  const part = "$2";
  const table = (id, headings, cells) => {
    const procedure = procedures.find((it) => it.id === id);
    const names = Object.keys(cells).map((role) =>
      header(procedure.columns.find((column) => (column.measure ?? column.role) === role)),
    );
    return [`## ${headings}`, "", ...rows(names, Object.values(cells)), ""];
  };
  return {
    scope: "markdown",
    prefix: "mend-replaced",
    description:
      "Part replaced: the work, the part fitted and the reading after it. Its designator is typed once.",
    body: [
      ...table("work", "Work", { ref, action: "replaced", part, date: "$3", note: "$4" }),
      ...table("parts-fitted", "Parts fitted", { part, quantity: "$5", ref }),
      ...table("diode-check", "Diode check after repair", { ref, pin: "$6", drop: "$7" }).slice(0, -1),
      "$0",
    ],
  };
}

function longSnippet(procedure) {
  const columns = longColumns(procedure);
  const stop = stops();
  const title = `## ${stop(procedure.title)}`;
  const cells = columns.map((column) => stop(PREFILLED.has(column.role) ? sampleOf(procedure, column) : ""));
  return snippet(procedure, "", title, columns.map(header), cells, "One row a reading.");
}

function wideSnippet(procedure) {
  const { first } = wideParts(procedure);
  const stop = stops();
  const title = `## ${stop(procedure.title)}`;
  const headers = wideHeaders(procedure).map((text) => stop(text));
  const cells = [stop(sampleOf(procedure, first)), ...headers.map(() => stop(""))];
  const names = [header(first), ...headers];
  return snippet(procedure, "-wide", title, names, cells, `One row for each ${header(first).toLowerCase()}.`);
}

function snippet(procedure, suffix, title, headers, cells, shape) {
  return {
    scope: "markdown",
    prefix: `mend-${procedure.id}${suffix}`,
    description: `${procedure.title}: a table to fill in. ${shape}`,
    body: [title, "", ...rows(headers, cells), "$0"],
  };
}

/** Header, dashes and one row. */
function rows(headers, cells) {
  const widths = headers.map((text, i) => Math.max(3, shown(text).length, shown(cells[i]).length));
  const line = (row) =>
    `| ${row.map((cell, i) => cell + " ".repeat(widths[i] - shown(cell).length)).join(" | ")} |`;
  return [line(headers), `|${widths.map((width) => "-".repeat(width + 2)).join("|")}|`, line(cells)];
}

/** Gives each text the next tab stop; the special characters of the snippet syntax are escaped. */
function stops() {
  let next = 1;
  return (text) => {
    const at = next++;
    return text === "" ? `$${at}` : `\${${at}:${text.replace(/[\\$}]/g, "\\$&")}}`;
  };
}

/** What is seen of a cell once it is put in. */
const shown = (text) =>
  text.replace(/\$\{\d+:((?:\\.|[^\\}])*)\}|\$\d+/g, (_, inner = "") => inner.replace(/\\(.)/g, "$1"));

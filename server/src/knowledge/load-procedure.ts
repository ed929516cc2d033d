import { load } from "./load";
import type { Loaded } from "./loaded";
import type { Reporter } from "./semantics";
import { shapeProcedure } from "./shape-library";
import type { Procedure } from "./types";

/** Reads a `*.procedure.yaml`. */
export const loadProcedure = (text: string): Loaded<Procedure> =>
  load("procedure", text, shapeProcedure, check);

const plain = (header: string): string => header.trim().toLowerCase();

function check(report: Reporter, { columns, wide }: Procedure): void {
  const headers = new Map<string, string>();
  const measures = new Set<string>();
  for (const [index, column] of columns.entries()) {
    for (const [at, header] of column.headers.entries()) {
      const first = headers.get(plain(header));
      if (first !== undefined) {
        report.at(
          ["columns", index, "headers", at],
          "duplicate-header",
          `Header \`${header}\` is that of two columns (the first has role \`${first}\`), so a table could not tell which is meant. Use it once.`,
        );
      } else headers.set(plain(header), column.role);
    }
    if (column.role === "reading" && column.measure === undefined) {
      report.at(
        ["columns", index, "role"],
        "no-measure",
        "A `reading` column needs a `measure`: the name of what is read, like `drop`.",
      );
    }
    if (column.measure === undefined) continue;
    if (measures.has(column.measure)) {
      report.at(
        ["columns", index, "measure"],
        "duplicate-measure",
        `Measure \`${column.measure}\` is given twice. Give each column its own.`,
      );
    }
    measures.add(column.measure);
  }
  if (!wide) return;
  const roles = new Set<string>(columns.map((column) => column.role));
  for (const side of ["rows", "columns"] as const) {
    if (roles.has(wide[side])) continue;
    report.at(
      ["wide", side],
      "unknown-role",
      `The wide form's \`${side}\` hold \`${wide[side]}\`, but no column has that role. Add the column or name another.`,
    );
  }
  const cells = roles.has(wide.cells) && wide.cells !== "reading";
  if (!cells && !measures.has(wide.cells)) {
    report.at(
      ["wide", "cells"],
      "unknown-measure",
      `The wide form's cells hold \`${wide.cells}\`, which is not the \`measure\` of a column nor the role of one.`,
    );
  }
}

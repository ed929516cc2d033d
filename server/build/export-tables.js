import { code, table } from "./markdown.js";

/** The tables of an export with their columns, as Markdown. */
export const exportTables = (tables) =>
  Object.entries(tables)
    .map(([name, { says, columns }]) => {
      const rows = columns.map((column) => [
        code(column.name),
        column.type + (column.required ? "" : ", or null"),
        (column.personal ? "**Only with `--with-owner`.** " : "") + column.says,
      ]);
      return `### ${code(name)}\n\n${says}\n\n${table(["Column", "Type", "What it is"], rows)}`;
    })
    .join("\n\n");

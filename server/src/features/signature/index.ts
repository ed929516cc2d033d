// What is expected where the cursor is, while it is being typed: the row with its columns, the one being filled
// marked, or the front-matter field with what it takes. Shown when asked for, never by itself.
import { schemaAt } from "../../knowledge/schema-walk";
import type { ColumnSpec } from "../../knowledge/types";
import { type CellPosition, type HeaderPosition, positionAt } from "../../log/position";
import type { YamlPlace } from "../../syntax/yaml";
import { code, joined, type Markdown, markdown, md, ownMarkdown } from "../../text/markdown";
import { type Span, span } from "../../text/span";
import { unitsOf } from "../shared/cell-values";
import { expectedHere } from "../shared/expected";
import type { LogView } from "../view";

export interface Signature {
  /** "Ref | Pin | Reading (V) | Note", or "stage: received | diagnosing". */
  readonly label: string;
  /** Markdown. */
  readonly documentation: Markdown;
  /** Places in the label, with what belongs there in Markdown. */
  readonly parameters: readonly { readonly span: Span; readonly documentation: Markdown }[];
  /** Undefined where none of them is being filled. */
  readonly active: number | undefined;
}

/** What can be typed at an offset; undefined where neither a table nor the front matter says so. */
export function signatureAt(view: LogView, offset: number): Signature | undefined {
  const position = positionAt(view.doc, offset);
  if (position.kind === "cell" || position.kind === "header-cell") return ofRow(view, position);
  return position.kind === "front" ? ofField(view, position.place) : undefined;
}

function ofRow(view: LogView, at: CellPosition | HeaderPosition): Signature {
  const { table } = at;
  const { procedure, columns } = table;
  const parameters: { span: Span; documentation: Markdown }[] = [];
  let label = "";
  columns.forEach(({ header, spec, unit: own }, index) => {
    if (index > 0) label += " | ";
    const start = label.length;
    const unit = own ?? spec?.unit;
    const word = header.text === "" ? "…" : header.text;
    label += unit !== undefined && !word.includes(unit) ? `${word} (${unit})` : word;
    const cellSpec = spec ?? (table.shape === "wide" && index > 0 ? wideCells(at) : undefined);
    parameters.push({
      span: span(start, label.length),
      documentation: index === at.column ? cellHelp(view, at, cellSpec) : markdown``,
    });
  });
  const active = at.column < parameters.length ? at.column : undefined;
  return { label, documentation: md(`${procedure.title}.`), parameters, active };
}

/** What the cells of a wide table hold, by the procedure's own words for it. */
function wideCells({ table: { procedure } }: CellPosition | HeaderPosition): ColumnSpec | undefined {
  const cells = procedure.wide?.cells;
  return procedure.columns.find((spec) => spec.measure === cells || spec.role === cells);
}

function cellHelp(view: LogView, at: CellPosition | HeaderPosition, spec: ColumnSpec | undefined): Markdown {
  const { table, column } = at;
  if (at.kind === "header-cell" && spec)
    return markdown`The heading of a column: what the cells below it hold.`;
  const wideRows = table.shape === "wide" && column === 0 ? table.procedure.wide?.rows : undefined;
  const role = spec?.role ?? wideRows;
  const here = at.kind === "cell" ? expectedHere(view, at, spec) : undefined;
  return joined(
    [
      role === undefined
        ? markdown`Words of your own.`
        : helpOfRole(role, table.columns[column]?.unit ?? spec?.unit, spec?.quantity),
      ...(here === undefined ? [] : [md(here)]),
    ],
    "\n\n",
  );
}

const EXAMPLES: Readonly<Record<string, Markdown>> = {
  voltage: markdown`\`0.58\`, \`580 mV\`, \`-12.1\`, \`0.3-0.4\`, \`~0.6\`, \`OL\``,
  resistance: markdown`\`4k7\`, \`148 ohm\`, \`>20M\`, \`OL\`, \`short\``,
  capacitance: markdown`\`100n\`, \`2.2 uF\``,
  frequency: markdown`\`1.0000 MHz\`, \`8.05 kHz\``,
  time: markdown`\`43 ms\``,
  current: markdown`\`1.8 A\`, \`20 uA\``,
};

function helpOfRole(role: string, unit: string | undefined, quantity: string | undefined): Markdown {
  switch (role) {
    case "ref":
      return markdown`A designator as printed on the board, such as \`U14\`; its number may be beside it: \`U14 (74LS04)\`. Left empty it is that of the row above.`;
    case "pin":
      return markdown`A pin by its number or its name: \`14\`, \`pin 14\`, \`VCC\`.`;
    case "rail":
      return markdown`A supply rail by its name, its net or its test point: \`+5V\`, \`TP1\`.`;
    case "signal":
      return markdown`A net by its name, as the board file or other rows of the log have it.`;
    case "from":
    case "to":
      return markdown`One end of the connection: a pin such as \`U5-4\` or \`J3.1\`, a rail, \`GND\`, or a net by its name.`;
    case "value":
      return markdown`What is printed on a part that has no number: \`4k7\`, \`100 uF 25 V\`.`;
    case "package":
      return markdown`The case of the part, such as \`DIP-14\`.`;
    case "circuit":
      return markdown`What the part is for, the same word for all parts of one circuit: \`clock\`, \`sound\`.`;
    case "reading": {
      const units = quantity === undefined ? [] : unitsOf(quantity);
      const example = quantity === undefined ? undefined : EXAMPLES[quantity];
      return joined(
        [
          unit === undefined
            ? markdown`What the meter shows.`
            : markdown`What the meter shows; in ${code(unit)} where no unit is typed.`,
          ...(example === undefined
            ? []
            : [markdown`Like ${example}; \`-\` or nothing where it was not measured.`]),
          ...(units.length > 1 ? [markdown`Units: ${joined(units.map(code), ", ")}.`] : []),
        ],
        " ",
      );
    }
    case "state":
      return markdown`A logic state: \`H\`, \`L\`, \`pulse\`, \`floating\`; \`-\` where it was not probed.`;
    case "result":
      return markdown`\`ok\`, \`dead\`, \`stuck\`, \`intermittent\`, or words; \`-\` where it was not tried.`;
    case "date":
      return markdown`A day, as \`2026-03-02\`.`;
    case "action":
      return markdown`What was done: \`replaced\`, \`removed\`, \`fitted\`, \`socketed\`, \`reflowed\`, \`cleaned\`, \`jumper\`, \`cut\`.`;
    case "part":
      return markdown`A part number or value as printed: \`74LS04\`, \`4k7\`, \`DIP-14 socket\`.`;
    case "quantity":
      return markdown`How many, as a number.`;
    case "check":
      return markdown`A sum or checksum in hexadecimal, such as \`9d1f4c72\`, or the path of an image file.`;
    case "row":
    case "column":
      return markdown`A line of the matrix: its number, or the name of its net.`;
    case "switch":
      return markdown`A switch or crossing: its number, its name where the board file has one, or \`3,2\` for row 3, column 2.`;
    case "setting":
      return markdown`\`on\` or \`off\`, \`1\` or \`0\`, \`closed\` or \`open\`.`;
    case "item":
      return markdown`What was looked at or proven, in the words of the board file's list where there is one.`;
    case "note":
      return markdown`Words of your own.`;
    default:
      return markdown`Words of your own.`;
  }
}

const FIELD_EXAMPLES: Readonly<Record<string, string>> = {
  job: "2026-014",
  serial: '"01873"',
  owner: "K. Example",
  received: "2026-03-02",
  returned: "2026-03-20",
  "comeback-of": "2025-081",
  reference: "true",
};

/** Choices shown in one line; more would not be read. */
const SHOWN = 8;

function ofField(view: LogView, { path, where }: YamlPlace): Signature | undefined {
  const key = path[0];
  if (typeof key !== "string" || (where === "key" && path.length < 2)) return undefined;
  const schema = schemaAt("front-matter", [key]);
  if (!schema) return undefined;
  const choices = choicesOf(view, key) ?? schema.enum;
  const example = FIELD_EXAMPLES[key];
  const values = choices && choices.length > 0 ? choices : [example ?? schema.title.toLowerCase()];
  const more = values.length > SHOWN ? " | …" : "";
  const body = `${values.slice(0, SHOWN).join(" | ")}${more}`;
  const list = schema.type === "list";
  const label = `${key}: ${list ? `[${body}]` : body}`;
  const start = key.length + 2;
  const free = key === "symptoms" ? markdown` Words of your own count too.` : "";
  return {
    label,
    documentation: markdown`${ownMarkdown(schema.description)}${free}`,
    parameters: [{ span: span(start, label.length), documentation: markdown`` }],
    active: 0,
  };
}

function choicesOf({ ctx, knowledge }: LogView, key: string): readonly string[] | undefined {
  const board = ctx.board?.value;
  switch (key) {
    case "board":
      return [...knowledge.boards.keys()];
    case "revision":
      return board && [...board.revisions.keys()];
    case "symptoms":
      return board && [...board.symptoms.keys()];
    case "rom-set":
      return board && [...board.romSets.keys()];
    case "meter":
      return ctx.shop && [...ctx.shop.value.meters.keys()];
    default:
      return undefined;
  }
}

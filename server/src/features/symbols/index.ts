import { defined } from "../../base/defined";
import { type Span, shift, slice, span } from "../../text/span";
import type { DocumentSymbol } from "../types";
import type { LogView } from "../view";

interface Draft {
  readonly depth: number;
  readonly name: string;
  readonly detail: string;
  readonly selection: Span;
  readonly start: number;
  end: number;
  readonly children: (Draft | DocumentSymbol)[];
}

/** The log's outline: front matter, headings nested by depth, and the tables of readings under them. */
export function symbolsOf(view: LogView): readonly DocumentSymbol[] {
  const { doc, front } = view;
  const end = doc.text.trimEnd().length;
  const root: Draft = { depth: 0, name: "", detail: "", selection: span(0, 0), start: 0, end, children: [] };
  const open = [root];
  for (const { start, block } of doc.blocks) {
    const items = [
      ...block.source.headings.map((heading) => ({ at: heading.span.start, heading, table: undefined })),
      ...block.tables.map((table) => ({ at: table.span.start, heading: undefined, table })),
    ].sort((a, b) => a.at - b.at);
    for (const { heading, table } of items) {
      if (heading) {
        while (open.length > 1 && (open.at(-1)?.depth ?? 0) >= heading.depth)
          close(open, doc.text, heading.span.start + start);
        const section = block.sections.find((s) => s.heading === heading);
        const draft: Draft = {
          depth: heading.depth,
          name: heading.text || "(no words)",
          detail:
            section?.procedure && section.procedure.title !== heading.text ? section.procedure.title : "",
          selection: shift(heading.contentSpan, start),
          start: heading.span.start + start,
          end,
          children: [],
        };
        open.at(-1)?.children.push(draft);
        open.push(draft);
      } else if (table) {
        const filled = table.readings.filter((reading) => reading.value.kind !== "empty").length;
        const rows = table.rows.length;
        open.at(-1)?.children.push({
          name: table.procedure.title,
          detail:
            table.readings.length > 0
              ? `${filled} of ${table.readings.length} readings`
              : `${rows} ${rows === 1 ? "row" : "rows"}`,
          kind: "readings",
          span: shift(table.span, start),
          selection: shift(table.source.header.span, start),
          children: [],
        });
      }
    }
  }
  const fields = doc.parsed.frontMatter?.span;
  const head = fields && span(fields.start, fields.start + slice(doc.text, fields).trimEnd().length);
  const about = [front.board, front.stage].filter(Boolean).join(", ");
  const job: DocumentSymbol[] = head
    ? [
        defined({
          name: front.job === undefined ? "Job" : `Job ${front.job}`,
          detail: about === "" ? undefined : about,
          kind: "field",
          span: head,
          selection: head,
          children: [],
        }),
      ]
    : [];
  return [...job, ...finish(root).children];
}

/** A section ends with its last words, not with the blank lines before the next heading. */
function close(open: Draft[], text: string, end: number): void {
  const last = open.pop();
  if (last) last.end = last.start + text.slice(last.start, end).trimEnd().length;
}

function finish(draft: Draft): DocumentSymbol {
  const children = draft.children.map((child) => ("depth" in child ? finish(child) : child));
  // What looks blank to us may be a table's: a byte order mark, a space that does not break.
  const end = Math.max(draft.end, draft.selection.end, ...children.map((child) => child.span.end));
  return defined({
    name: draft.name,
    detail: draft.detail === "" ? undefined : draft.detail,
    kind: "section",
    span: span(draft.start, end),
    selection: draft.selection,
    children,
  });
}

// Texts that nobody has made safe, where safe ones are wanted. Each `@ts-expect-error` is itself an error of the compiler where the
// line below it compiles, so `tsc` holds every one of them.
import type { Output } from "../../server/src/cli/io";
import type { Completion, Hover } from "../../server/src/features/types";
import { contentOf } from "../../server/src/protocol/content";
import { page } from "../../server/src/report/owner/page";
import { type Csv, csv } from "../../server/src/text/csv";
import { type Html, html, joinedHtml, markup } from "../../server/src/text/html";
import { json } from "../../server/src/text/json";
import { joined, type Markdown, markdown, md } from "../../server/src/text/markdown";
import { terminal, visible } from "../../server/src/text/terminal";

/** Never run: what is looked at is whether it compiles. */
export function refused(typed: string, out: Output, hover: Hover, item: Completion): void {
  // @ts-expect-error a text is no Markdown
  markdown`${typed}`;
  // @ts-expect-error nor is our own word that is not marked as one
  const words: Markdown = "**words**";
  // @ts-expect-error nor what was put together outside
  joined([`**${md(typed)}**`], " ");
  // @ts-expect-error nor what HTML was made of it
  markdown`${html(typed)}`;
  // @ts-expect-error a hover shows Markdown
  const shown: Hover = { ...hover, markdown: typed };
  // @ts-expect-error so does what is beside a completion
  const beside: Completion = { ...item, documentation: typed };
  // @ts-expect-error and all that leaves for an editor
  contentOf(typed, true);
  // @ts-expect-error a text is no HTML
  markup`<p>${typed}</p>`;
  // @ts-expect-error nor is Markdown
  markup`<p>${md(typed)}</p>`;
  // @ts-expect-error nor what was put together outside
  const inside: Html = `<p>${html(typed)}</p>`;
  // @ts-expect-error nor a list of such
  joinedHtml([`<p>${typed}</p>`]);
  // @ts-expect-error a page has a body of HTML
  page(typed, typed);
  // @ts-expect-error a text is nothing to put into words for a terminal
  terminal`${typed} is not there`;
  // @ts-expect-error nor to write to one
  out.write(typed);
  // @ts-expect-error also with a line end
  out.write(`${typed}\n`);
  // @ts-expect-error a cell is made by the writer of the table
  const table: Csv = [typed].join(",");
  // These may be written.
  for (const safe of [md(typed), html(typed), visible(typed), json(typed), csv([[typed]])]) out.write(safe);
  void [words, shown, beside, inside, table];
}

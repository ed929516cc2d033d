import { type ItemReview, provingReview } from "../../review/proving";
import { joined, type Markdown, markdown, md } from "../../text/markdown";
import type { LogView } from "../view";

const WORDS: Readonly<Record<ItemReview["state"], Markdown>> = {
  proven: markdown`proven`,
  failed: markdown`**failed**`,
  unproven: markdown`*unproven*`,
};

/**
 * The board's proving list as it stands: over the stage, and over the heading of a proving table. Undefined where the
 * board has no list.
 */
export function provingListMarkdown(view: LogView): Markdown | undefined {
  const { items } = provingReview(view.doc, view.ctx);
  if (items.length === 0) return undefined;
  const proven = items.filter(({ state }) => state === "proven").length;
  const title = view.ctx.board?.value.title ?? "the board";
  return joined(
    [
      markdown`**Proving list of ${md(title)}:** ${proven} of ${items.length} proven`,
      joined(
        items.map((review) => markdown`- ${line(review)}`),
        "\n",
      ),
    ],
    "\n\n",
  );
}

function line({ item, state, said, coverage, reason, wants }: ItemReview): Markdown {
  const counted =
    coverage?.total === undefined || state === "proven"
      ? []
      : [`${coverage.done} of ${coverage.total} ${coverage.what}`];
  const words =
    state === "proven"
      ? [said.map(({ text }) => text).join("; ")]
      : state === "failed"
        ? [said.map(({ text }) => text).join("; "), wants]
        : [...counted, ...(reason === undefined ? [] : [`The log says why: ${reason}`]), wants];
  return markdown`${WORDS[state]}: ${md(item.title)} (${md(words.filter(Boolean).join(". "))})`;
}

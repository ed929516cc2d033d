// The marks as HTML. Everything that comes from outside is escaped, but for the pictures: those are the server's own.
import type {
  Preview,
  PreviewMark,
  PreviewPicture,
} from "../../../server/src/protocol/custom-requests/preview";
import { type Html, html, joinedHtml, markup, ownHtml } from "../../../server/src/text/html";
import type { PreviewContent, PreviewWords } from "./source";

/** The id of what stands on a line, from 0. */
export const anchorOf = (line: number): string => `mendlog-line-${line + 1}`;

/** A name out of letters and dashes, for a style. */
const className = (name: string): Html => html(name.replace(/[^a-z-]/g, ""));

/** What is as it should be is told by its shape alone; the words are there for all, seen or not. */
export function markHtml({ verdict, glyph, words, sentence }: PreviewMark): Html {
  const shown = markup`<span aria-hidden="true">${html(glyph)}</span><span class="mendlog-words">${html(words.toLowerCase())}</span>`;
  return markup`<span class="mendlog-mark mendlog-${className(verdict)}" title="${html(`${words}: ${sentence}`)}">${shown}</span>`;
}

export const picturesHtml = (pictures: readonly PreviewPicture[], { pictures: label }: PreviewWords): Html =>
  markup`<div class="mendlog-pictures" role="group" aria-label="${html(label)}">${joinedHtml(
    pictures.map(({ svg }) => markup`<div class="mendlog-picture">${ownHtml(svg)}</div>`),
  )}</div>\n`;

/** What is said of the log as a whole: who is suspected, what to read next, what was found. */
export function topHtml(
  { preview, suspects }: PreviewContent,
  anchors: readonly number[],
  words: PreviewWords,
): Html | "" {
  const listed = (suspects?.suspects ?? []).slice(0, SUSPECTS).map(({ name, title, share }) => {
    const why = title === undefined ? "" : markup` title="${html(title)}"`;
    return markup`<span class="mendlog-name"${why}>${html(name)}: ${html(words.share(share))}</span>`;
  });
  const next = suspects?.next;
  const cautions = joinedHtml((next?.cautions ?? []).map(html), " ");
  const parts = [
    ...(listed.length > 0
      ? [
          markup`<p class="mendlog-suspects"><strong>${html(words.suspects)}</strong> ${joinedHtml(listed, ", ")}</p>`,
        ]
      : []),
    ...(next && listed.length > 0
      ? [
          markup`<p class="mendlog-next"><strong>${html(words.nextReading)}</strong> ${html(next.action)} (${html(words.minutes(next.minutes))}). ${cautions}</p>`,
        ]
      : []),
    ...(preview.findings.length > 0 ? [findingsHtml(preview.findings, anchors, words)] : []),
  ];
  return parts.length > 0 ? markup`<div class="mendlog-top">\n${joinedHtml(parts, "\n")}\n</div>\n` : "";
}

const SUSPECTS = 4;
/** Findings listed with the list open; more than these and one would scroll past them to the log. */
const OPEN = 6;

function findingsHtml(findings: Preview["findings"], anchors: readonly number[], words: PreviewWords): Html {
  const items = findings.map(({ line, severity, message }) => {
    const at = anchors.findLast((anchor) => anchor <= line);
    const where = html(words.line(line + 1));
    const link = at === undefined ? where : markup`<a href="#${html(anchorOf(at))}">${where}</a>`;
    return markup`<li class="mendlog-${className(severity)}">${link} <span class="mendlog-severity">${html(words.severity[severity])}</span> ${html(message)}</li>`;
  });
  return markup`<details class="mendlog-findings"${findings.length <= OPEN ? markup` open` : ""}><summary>${html(words.findings(findings.length))}</summary>\n<ul>${joinedHtml(items, "\n")}</ul>\n</details>`;
}

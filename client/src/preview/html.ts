// The marks as HTML. Everything that comes from outside is escaped, but for the pictures: those are the server's own.
import type { Preview, PreviewMark, PreviewPicture } from "../../../server/src/protocol/own/preview";
import type { Shown, Words } from "./source";

/** Text in HTML, in an element or an attribute. */
export const html = (text: string): string =>
  text.replace(/&/g, "&amp;").replace(/</g, "&lt;").replace(/>/g, "&gt;").replace(/"/g, "&quot;");

/** The id of what stands on a line, from 0. */
export const anchorOf = (line: number): string => `mendlog-line-${line + 1}`;

/** A name out of letters and dashes, for a style. */
const className = (name: string): string => name.replace(/[^a-z-]/g, "");

/** What is as it should be is told by its shape alone; the words are there for all, seen or not. */
export function markHtml({ verdict, glyph, words, sentence }: PreviewMark): string {
  return (
    `<span class="mendlog-mark mendlog-${className(verdict)}" title="${html(`${words}: ${sentence}`)}">` +
    `<span aria-hidden="true">${html(glyph)}</span><span class="mendlog-words">${html(words.toLowerCase())}</span></span>`
  );
}

export const picturesHtml = (pictures: readonly PreviewPicture[], { pictures: label }: Words): string =>
  `<div class="mendlog-pictures" role="group" aria-label="${html(label)}">${pictures
    .map(({ svg }) => `<div class="mendlog-picture">${svg}</div>`)
    .join("")}</div>\n`;

/** What is said of the log as a whole: who is suspected, what to read next, what was found. */
export function topHtml({ preview, suspects }: Shown, anchors: readonly number[], words: Words): string {
  const parts = [
    ...(suspects && suspects.suspects.length > 0
      ? [
          `<p class="mendlog-suspects"><strong>${html(words.suspects)}</strong> ${suspects.suspects
            .slice(0, SUSPECTS)
            .map(({ name, title, share }) => {
              const shown = `${html(name)}: ${html(words.share(share))}`;
              return `<span class="mendlog-name"${title === undefined ? "" : ` title="${html(title)}"`}>${shown}</span>`;
            })
            .join(", ")}</p>`,
        ]
      : []),
    ...(suspects?.next && suspects.suspects.length > 0
      ? [
          `<p class="mendlog-next"><strong>${html(words.nextReading)}</strong> ${html(suspects.next.action)} (${html(words.minutes(suspects.next.minutes))}). ${suspects.next.cautions.map(html).join(" ")}</p>`,
        ]
      : []),
    ...(preview.findings.length > 0 ? [findingsHtml(preview.findings, anchors, words)] : []),
  ];
  return parts.length > 0 ? `<div class="mendlog-top">\n${parts.join("\n")}\n</div>\n` : "";
}

const SUSPECTS = 4;
/** Findings listed with the list open; more than these and one would scroll past them to the log. */
const OPEN = 6;

function findingsHtml(findings: Preview["findings"], anchors: readonly number[], words: Words): string {
  const items = findings.map(({ line, severity, message }) => {
    const at = anchors.findLast((anchor) => anchor <= line);
    const where = html(words.line(line + 1));
    const link = at === undefined ? where : `<a href="#${anchorOf(at)}">${where}</a>`;
    return `<li class="mendlog-${className(severity)}">${link} <span class="mendlog-severity">${html(words.severity[severity])}</span> ${html(message)}</li>`;
  });
  return `<details class="mendlog-findings"${findings.length <= OPEN ? " open" : ""}><summary>${html(words.findings(findings.length))}</summary>\n<ul>${items.join("\n")}</ul>\n</details>`;
}

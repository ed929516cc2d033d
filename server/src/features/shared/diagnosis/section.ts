// The log's own list of suspects, between two comments: what stands between them is ours to write again, and nothing
// outside them is ever touched.

import { endOf } from "../../../log/document";
import { diagnosisOf, type LogDiagnosis } from "../../../review/diagnosis/of-log";
import type { TextEdit } from "../../../text/edits";
import { md } from "../../../text/markdown";
import type { LogView } from "../../view";
import { BEGIN, END, ownSection } from "./own-section";
import {
  type ListedSuspect,
  listedSuspect,
  rankedFor,
  shareText,
  storyOf,
  storyText,
  waitingText,
} from "./suspects";

const BEGIN_NOTE = `<!-- ${BEGIN}: written by the command; what is changed between these two comments is lost when it is run again -->`;
const END_NOTE = `<!-- ${END} -->`;
/** More suspects than these nobody measures on one evening. */
const LISTED = 6;
const STORIES = 3;
/** Pins named of those that were not read. */
const NAMED = 6;

/** What became of writing the section of suspects. */
export type SuspectsSection =
  /** Undefined where the section stands there already as it would be written. */
  | { readonly ok: true; readonly edit: TextEdit | undefined }
  /** Why there is nothing to write, as a sentence. */
  | { readonly ok: false; readonly reason: string };

/** The edit that brings the section of suspects up to date, or puts it at the end of the log. */
export function writeSuspects(view: LogView): SuspectsSection {
  const found = diagnosisOf(view);
  if (!found) {
    return view.ctx.board
      ? { ok: false, reason: "No diagnosis could be made of what this log says." }
      : { ok: false, reason: "No board file is known for this log, so there is nothing to suspect." };
  }
  const { doc } = view;
  const at = ownSection(doc);
  if (!at && found.log.findings.length === 0 && found.log.waiting.length === 0) {
    return { ok: false, reason: `${found.diagnosis.bound} Readings within limits prove no part.` };
  }
  const eol = doc.text.includes("\r\n") ? "\r\n" : "\n";
  const section = sectionText(view, found).join(eol);
  if (at) {
    const same = doc.text.slice(at.start, at.end) === section;
    return { ok: true, edit: same ? undefined : { span: at, newText: section } };
  }
  const end = endOf(doc);
  const above = doc.text.slice(0, end);
  const gap = /(\r?\n){2}$/.test(above) ? "" : above.endsWith("\n") ? eol : `${eol}${eol}`;
  const behind = end < doc.text.length ? eol : "";
  return { ok: true, edit: { span: { start: end, end }, newText: `${gap}${section}${eol}${behind}` } };
}

function sectionText(view: LogView, found: LogDiagnosis): string[] {
  const { diagnosis, advice, log } = found;
  const suspects = rankedFor(found, LISTED).map((ranked) => listedSuspect(view, found, ranked));
  const stories = diagnosis.candidates.slice(0, STORIES).map(storyOf);
  const count = log.findings.length === 1 ? "1 finding" : `${log.findings.length} findings`;
  const best = advice.best;
  return [
    BEGIN_NOTE,
    "",
    "## Suspects",
    "",
    ...(suspects.length === 0
      ? [plain(diagnosis.bound), ""]
      : [
          `From ${count} in this log. Likeliest first. Parts not listed are not cleared.`,
          "",
          ...suspects.flatMap((suspect, i) => suspectLines(suspect, i + 1)),
          "",
        ]),
    ...(stories.length > 0
      ? [
          "Likeliest all together:",
          "",
          ...stories.map((story) => `- ${plain(storyText(story))}: ${shareText(story.share)}`),
          "",
        ]
      : []),
    ...(best
      ? [
          ...cautionFor(best).flatMap((caution) => [caution, ""]),
          `**Next reading:** ${plain(best.reason)}`,
          "",
        ]
      : advice.none !== undefined && log.findings.length > 0
        ? [`**Next reading:** none. ${plain(advice.none)}`, ""]
        : []),
    ...[...waitingText(found.log.waiting), ...log.problems, ...diagnosis.problems].flatMap((line) => [
      `- ${plain(line)}`,
    ]),
    ...(suspects.length > 0 ? ["", plain(diagnosis.bound)] : []),
    "",
    END_NOTE,
  ].filter((line, i, all) => line !== "" || all[i - 1] !== "");
}

/** Made safe for a list in Markdown and still fit to be read as it stands: nobody writes SW\\_ROW\\_7. */
const plain = (text: string): string =>
  md(text)
    .replace(/(?<=\w)\\_(?=\w)/g, "_")
    .replace(/(?<=\d)\\\./g, ".")
    .replace(/\\([>~])/g, "$1");

const OFF = "Power off and every supply discharged and measured first.";
const LIVE =
  "Under power: one hand, no jewellery, the mains side covered; local codes and licensed practice apply.";

/** What comes before the reading; nothing where the reading's own words say it. */
export const cautionFor = ({
  kind,
  live,
}: {
  readonly kind: string;
  readonly live: boolean;
}): readonly string[] =>
  kind === "gate-states" || live ? [LIVE] : ["lift", "pull", "swap"].includes(kind) ? [OFF] : [];

function suspectLines({ name, title, share, ...evidence }: ListedSuspect, number: number): string[] {
  const more = evidence.notTaken.length - NAMED;
  const open =
    evidence.notTaken.length === 0
      ? []
      : [
          `not yet read: ${evidence.notTaken.slice(0, NAMED).join(", ")}${more > 0 ? ` and ${more} more` : ""}`,
        ];
  const indent = " ".repeat(String(number).length + 2);
  return [
    `${number}. **${plain(name)}**${title === undefined ? "" : ` (${plain(title)})`}: ${shareText(share)}`,
    ...evidence.for
      .map((line) => `for: ${line}`)
      .concat(
        evidence.before.map((line) => `from the start: ${line}`),
        evidence.against.map((line) => `against: ${line}`),
        open,
      )
      .map((line) => `${indent}- ${plain(line)}`),
  ];
}

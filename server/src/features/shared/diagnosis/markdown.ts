// A diagnosis as it is shown in a hover: few lines, the likeliest first.

import { diagnosisOf, type LogDiagnosis } from "../../../review/diagnosis/of-log";
import { joined, type Markdown, markdown, md } from "../../../text/markdown";
import type { LogView } from "../../view";
import { rankedFor, shareText, waitingText, weighed } from "./suspects";

const SHOWN = 3;
const REASONS = 2;

/** What the log's readings say of a symptom; undefined where it has no board. */
export function symptomSuspects(view: LogView, symptom: string): Markdown | undefined {
  const found = diagnosisOf(view);
  if (!found) return undefined;
  const { diagnosis, advice } = found;
  const conflicts = diagnosis.conflicts.filter(({ findings }) =>
    findings.some((finding) => finding.kind === "symptom" && finding.symptom === symptom),
  );
  if (conflicts.length === 0) return waitingFor(symptom, found);
  const lines = rankedFor(found, SHOWN, conflicts).map((ranked, i) => {
    const { name, title, share, ...told } = weighed(view, found, ranked);
    const why = told.for.filter((conflict) => !conflicts.includes(conflict)).map(({ reason }) => reason);
    return markdown`${i + 1}. **${md(name)}**${title === undefined ? "" : markdown` ${md(title)}`}: ${md(shareText(share))}${
      why.length > 0 ? markdown`  \n${joined(why.slice(0, REASONS).map(md), " ")}` : ""
    }`;
  });
  if (lines.length === 0) return undefined;
  return joined(
    [
      markdown`**Suspects**, likeliest first. Parts not listed are not cleared.`,
      joined(lines, "\n"),
      ...(advice.best
        ? [markdown`**Next reading:** ${md(advice.best.reason)}`]
        : advice.none === undefined
          ? []
          : [markdown`**Next reading:** none. ${md(advice.none)}`]),
      markdown`*${md(diagnosis.bound)}*`,
    ],
    "\n\n",
  );
}

/** The symptom is not counted any more: what was done, and what is to be seen again. */
function waitingFor(symptom: string, { log }: LogDiagnosis): Markdown | undefined {
  const lines = waitingText(log.waiting.filter(({ symptoms }) => symptoms?.includes(symptom)));
  return lines.length > 0
    ? joined(
        lines.map((line) => markdown`- ${md(line)}`),
        "\n",
      )
    : undefined;
}

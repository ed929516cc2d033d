import { jobIndex } from "../../log/job-index";
import type { LogSummary } from "../../log/summary";
import { md } from "../../text/markdown";
import type { LogView } from "../view";

/** Rows of work that are told; a long repair is opened instead. */
const FEW = 8;

/** The earlier job a log names: what the board came in for and what was done to it then. */
export function earlierJobMarkdown({ doc, earlier }: LogView, number: string): string | undefined {
  const job = (earlier ? jobIndex(earlier).numbered(number) : []).find(({ uri }) => uri !== doc.uri);
  if (!job) return undefined;
  const line = (label: string, text: string | undefined) => (text ? [`- ${label}: ${md(text)}`] : []);
  return [
    `**Job ${md(job.job ?? number)}**${job.title === undefined ? "" : `: ${md(job.title)}`}`,
    [
      ...line("board", [job.board, job.serial].filter(Boolean).join(" ")),
      ...line("owner", job.owner),
      ...line("received", job.received),
      ...line("returned", job.returned),
      ...(job.stage === "returned" ? [] : line("stage", job.stage)),
      ...line("symptoms", job.symptoms.join(", ")),
    ].join("\n"),
    ...workDone(job),
  ]
    .filter((part) => part !== "")
    .join("\n\n");
}

function workDone({ work, fitted, proving }: LogSummary): string[] {
  const done = work.map(({ ref, action, part }) =>
    [ref, action, part && `(${part})`].filter(Boolean).join(" "),
  );
  const rows = done.length > 0 ? done : fitted.map(({ ref, part }) => [ref, part].filter(Boolean).join(" "));
  const failed = proving.filter(({ ok }) => ok === false);
  const more = rows.length > FEW ? [`- and ${rows.length - FEW} more`] : [];
  return [
    rows.length === 0
      ? "Its log shows no work done."
      : ["What was done then:", "", ...rows.slice(0, FEW).map((row) => `- ${md(row)}`), ...more].join("\n"),
    ...(failed.length > 0
      ? [`It left with something failed: ${failed.map(({ item }) => md(item)).join(", ")}.`]
      : []),
  ];
}

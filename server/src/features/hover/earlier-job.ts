import { jobIndex } from "../../log/job-index";
import type { LogSummary } from "../../log/summary";
import { joined, type Markdown, markdown, md } from "../../text/markdown";
import type { LogView } from "../view";

/** Rows of work that are told; a long repair is opened instead. */
const FEW = 8;

/** The earlier job a log names: what the board came in for and what was done to it then. */
export function earlierJobMarkdown({ doc, earlier }: LogView, number: string): Markdown | undefined {
  const job = (earlier ? jobIndex(earlier).numbered(number) : []).find(({ uri }) => uri !== doc.uri);
  if (!job) return undefined;
  const line = (label: Markdown, text: string | undefined) =>
    text ? [markdown`- ${label}: ${md(text)}`] : [];
  return joined(
    [
      markdown`**Job ${md(job.job ?? number)}**${job.title === undefined ? "" : markdown`: ${md(job.title)}`}`,
      joined(
        [
          ...line(markdown`board`, [job.board, job.serial].filter(Boolean).join(" ")),
          ...line(markdown`owner`, job.owner),
          ...line(markdown`received`, job.received),
          ...line(markdown`returned`, job.returned),
          ...(job.stage === "returned" ? [] : line(markdown`stage`, job.stage)),
          ...line(markdown`symptoms`, job.symptoms.join(", ")),
        ],
        "\n",
      ),
      ...workDone(job),
    ].filter((part) => part !== ""),
    "\n\n",
  );
}

function workDone({ work, fitted, proving }: LogSummary): Markdown[] {
  const done = work.map(({ ref, action, part }) =>
    [ref, action, part && `(${part})`].filter(Boolean).join(" "),
  );
  const rows = done.length > 0 ? done : fitted.map(({ ref, part }) => [ref, part].filter(Boolean).join(" "));
  const failed = proving.filter(({ ok }) => ok === false);
  const more = rows.length > FEW ? [markdown`- and ${rows.length - FEW} more`] : [];
  return [
    rows.length === 0
      ? markdown`Its log shows no work done.`
      : joined(
          [
            markdown`What was done then:`,
            "",
            ...rows.slice(0, FEW).map((row) => markdown`- ${md(row)}`),
            ...more,
          ],
          "\n",
        ),
    ...(failed.length > 0
      ? [
          markdown`It left with something failed: ${joined(
            failed.map(({ item }) => md(item)),
            ", ",
          )}.`,
        ]
      : []),
  ];
}

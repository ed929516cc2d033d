// Document links: what can be opened by a click. Markdown's own links and images are the editor's affair; here is what
// only a log means: earlier jobs by their number, image files in tables, and the papers that a board file names.
import { memo } from "../../base/memo";
import { pathsOf } from "../../log/paths";
import type { JobLog } from "../../log/peek";
import { type TextRegion, textRegionsOf } from "../../log/text-regions";
import { nodeAt } from "../../syntax/yaml";
import { type Span, slice, span } from "../../text/span";
import type { KnowledgeFile } from "../shared/knowledge-file";
import { pathsInYaml } from "../shared/paths/in-yaml";
import type { LogView } from "../view";

/** Words of a file that lead somewhere when they are clicked. */
export interface Link {
  readonly span: Span;
  /** Without the editor's "click to follow". */
  readonly tooltip: string;
  readonly to:
    | { readonly kind: "file"; readonly uri: string }
    /** Relative to the file the link is in; whether there is such a file was not looked at. */
    | { readonly kind: "path"; readonly path: string }
    | { readonly kind: "web"; readonly url: string };
}

/**
 * Images in a log's tables, and the earlier jobs that it names by number.
 * @param logs of the workspace, by uri
 */
export function linksOfLog({ doc, front }: LogView, logs: ReadonlyMap<string, JobLog>): Link[] {
  const links: Link[] = pathsOf(doc)
    .filter(({ kind }) => kind === "cell")
    .map(({ span: at, path }) => ({
      span: at,
      tooltip: `Open the image ${path}`,
      to: { kind: "path", path },
    }));
  if (logs.size > 0) {
    const jobs = jobsOf(logs, doc.uri);
    for (const stretch of textRegionsOf(doc)) links.push(...jobsIn(doc.text, stretch, jobs, front.job));
  }
  return links.sort((a, b) => a.span.start - b.span.start);
}

/** Logs by their job number; of two with one number the first. */
const byJob = memo((logs: ReadonlyMap<string, JobLog>): ReadonlyMap<string, JobLog> => {
  const jobs = new Map<string, JobLog>();
  for (const log of logs.values()) if (log.job !== undefined && !jobs.has(log.job)) jobs.set(log.job, log);
  return jobs;
});

/** The same without the log that asks. */
function jobsOf(logs: ReadonlyMap<string, JobLog>, own: string): ReadonlyMap<string, JobLog> {
  const jobs = byJob(logs);
  const mine = logs.get(own)?.job;
  if (mine === undefined || jobs.get(mine)?.uri !== own) return jobs;
  const others = new Map(jobs);
  others.delete(mine);
  return others;
}

function jobsIn(
  text: string,
  { span: at, place }: TextRegion,
  jobs: ReadonlyMap<string, JobLog>,
  own: string | undefined,
): Link[] {
  if (place === "front-comeback-of") {
    const bare = slice(text, at).replace(/^["']|["']$/g, "");
    const job = jobs.get(bare);
    return job ? [linkTo(job, at)] : [];
  }
  if (place !== "prose" && place !== "cell" && place !== "heading") return [];
  return [...slice(text, at).matchAll(/[A-Za-z0-9](?:[\w./-]*[A-Za-z0-9])?/g)].flatMap(
    ({ 0: word, index }) => {
      const job = word === own ? undefined : jobs.get(word);
      // A number as short as "12" is a job only where it is called one.
      const called = /\bjob\s+$/i.test(text.slice(Math.max(0, at.start + index - 8), at.start + index));
      if (!job || (!called && (word.length < 4 || !/\d/.test(word)))) return [];
      return [linkTo(job, span(at.start + index, at.start + index + word.length))];
    },
  );
}

const linkTo = ({ job, title, stage, uri }: JobLog, at: Span): Link => ({
  span: at,
  tooltip: [`Open job ${job}`, title, stage].filter(Boolean).join(" · "),
  to: { kind: "file", uri },
});

/** Papers named in a board, device or shop file: addresses on the web, and files beside it. */
export function linksOfKnowledge({ tree, text }: KnowledgeFile): Link[] {
  const title = nodeAt(tree, ["title"])?.node;
  const of = title?.kind === "scalar" && title.source !== "" ? ` of ${title.source}` : "";
  const web = [...text.matchAll(/\bhttps?:\/\/[^\s"'<>,;)\]}]*[^\s"'<>,;)\]}.]/g)].flatMap(
    ({ 0: url, index }): Link[] => {
      // Half typed, it may be no address yet.
      const host = URL.canParse(url) ? new URL(url).hostname : "";
      if (host === "") return [];
      const tooltip = /\.pdf\b/i.test(url) ? `Open the data sheet${of}` : `Open ${host}`;
      return [{ span: span(index, index + url.length), tooltip, to: { kind: "web", url } }];
    },
  );
  const files = pathsInYaml(tree).map(
    ({ span: at, path }): Link => ({ span: at, tooltip: `Open ${path}`, to: { kind: "path", path } }),
  );
  return [...web, ...files].sort((a, b) => a.span.start - b.span.start);
}

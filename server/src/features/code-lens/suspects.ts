// A line above what the log says is wrong: at the symptoms all suspects, at a table those its readings point to. Where
// a lens stands costs a look at what is found; whom it names is worked out for the lenses that are shown.

import { timeText } from "../../compute/diagnosis/next-reading";
import { suspectName } from "../../compute/diagnosis/suspects";
import { hasBoardFile } from "../../judge/context";
import { blockAt } from "../../log/document";
import { frontSpan } from "../../log/front";
import type { LoggedFinding } from "../../review/diagnosis/from-log";
import { type Span, shift, span } from "../../text/span";
import {
  diagnosisOf,
  evidenceIn,
  type LogDiagnosis,
  rankedFor,
  shareText,
  storyOf,
} from "../shared/diagnosis";
import type { LogView } from "../view";
import type { Lens, LensTitle } from "./types";

const NAMED = 3;

/** None for a board that has left, and none where nothing is found wrong. */
export function suspectLenses(view: LogView): readonly Lens[] {
  const { stage } = view.front;
  const log = stage === "returned" || stage === "scrapped" ? undefined : evidenceIn(view);
  if (!log || log.findings.length === 0) return [];
  const headings = new Map<number, Lens>();
  for (const finding of log.findings) {
    const at = headingOf(view, finding);
    if (at) headings.set(at.start, { span: at, of: "section" });
  }
  const top = frontSpan(view.doc, ["symptoms"]) ?? span(0, 0);
  return [{ span: top, of: "log" }, ...[...headings.values()].sort((a, b) => a.span.start - b.span.start)];
}

export function suspectTitle(view: LogView, lens: Lens): LensTitle | undefined {
  const found = diagnosisOf(view);
  if (!found) return undefined;
  return lens.of === "log" ? logTitle(view, found) : sectionTitle(view, lens, found);
}

/** Whose word it is what the board has. */
const whoKnows = ({ ctx }: LogView): string => (hasBoardFile(ctx) ? "the board file" : "this log");

function logTitle(view: LogView, found: LogDiagnosis): LensTitle {
  const { advice } = found;
  const best = advice.best;
  const next = best ? ` · next: ${best.brief}, ${timeText(best.minutes)}` : "";
  const ranked = rankedFor(found, NAMED);
  const names = namesOf(ranked);
  const [likeliest] = found.diagnosis.candidates;
  const story = likeliest && storyOf(likeliest);
  // The likeliest of all may be that something was misread.
  const slip =
    story && story.blamed.length === 0 && likeliest.probability > (ranked[0]?.probability ?? 0)
      ? `${story.excused.join(" and ")} ${shareText(story.share)}`
      : undefined;
  const all = [...(slip ? [slip] : []), ...(names ? [names] : [])].join(", ");
  return {
    title: all ? `Suspects: ${all}${next}` : `Suspects: none that ${whoKnows(view)} knows`,
    writes: true,
  };
}

function sectionTitle(view: LogView, { span: at }: Lens, found: LogDiagnosis): LensTitle {
  const here = found.diagnosed.filter((_, i) => {
    const logged = found.log.findings[i];
    return logged && headingOf(view, logged)?.start === at.start;
  });
  const own = new Set(here);
  const conflicts = found.diagnosis.conflicts.filter(({ findings }) => findings.some((f) => own.has(f)));
  const count = here.length === 1 ? "1 finding here points" : `${here.length} findings here point`;
  const names = namesOf(rankedFor(found, NAMED, conflicts));
  return { title: `${count} to ${names || `nothing ${whoKnows(view)} knows`}` };
}

const namesOf = (ranked: ReturnType<typeof rankedFor>): string =>
  ranked.map(({ suspect, stated }) => `${suspectName(suspect)} ${shareText(stated)}`).join(", ");

function headingOf({ doc }: LogView, { table, span: at }: LoggedFinding): Span | undefined {
  const heading = table?.section.heading;
  const placed = heading && blockAt(doc, at.start);
  return placed && shift(heading.span, placed.start);
}

// A matrix that was tried on the bare board, all of it answering, where the complaint is of the matrix and nothing else was found
// wrong: what fails lies in the machine.

import type { FrontMatter } from "../../../knowledge/load-front-matter";
import type { Board } from "../../../knowledge/types";
import type { LogDocument } from "../../../log/document";
import { matrixReviews, type PhaseReview } from "../../matrix/log-review";
import type { LocatedObservation } from "../observation";
import { sentencesOf } from "../words/sentences";
import { allNets, headersOn, isBare, placed } from "./matrix-places";

/** Of all crossings, at least this share has to answer before the board is said to. Common practice, no source. */
const MOST = 0.5;
/** "Back in the machine puck 2 and 8 are deaf". */
const IN_MACHINE = /\b(?:machine|m\/c|cabinet|game|alley|stall)\b/i;
const FAILS =
  /\b(?:dead|deaf|nothing|never|no answer|fails?|failed|still|not|none|missing|comes? and goes|now and then|wiggl\w*)\b/i;

/** One finding a matrix, or none where anything else was found wrong. */
export function answersBare(
  doc: LogDocument,
  { symptoms = [] }: Partial<FrontMatter>,
  board: Board,
  all: readonly LocatedObservation[],
): LocatedObservation[] {
  if (all.some(({ finding }) => finding && finding.kind !== "symptom")) return [];
  const reviews = matrixReviews(doc, board);
  if (reviews.length === 0) return [];
  const told = doc.blocks.some(({ block }) =>
    sentencesOf(block).some(({ text }) => IN_MACHINE.test(text) && FAILS.test(text)),
  );
  return reviews.flatMap((phase): LocatedObservation[] => {
    const nets = allNets(phase.log.matrix, board);
    const circuits = circuitsOn(nets, board);
    const isComplaint = symptoms.some((id) =>
      board.symptoms.get(id)?.circuits.some((circuit) => circuits.has(circuit)),
    );
    if (!(told || isComplaint) || !isBare(phase) || !answers(phase)) return [];
    const title = phase.log.matrix.title.toLowerCase();
    return placed(phase, `answers ${phase.log.matrix.id}`, undefined, {
      kind: "sign",
      sign: "crossing-dead",
      refs: headersOn(nets, board),
      of: `the ${title}`,
      says: `The ${title} answers on the bare board, and the complaint is of it.`,
      outside: `the wiring of the ${title} in the machine`,
    });
  });
}

/** Circuits of the parts on the lines. */
const circuitsOn = (names: readonly string[], { nets, parts }: Board): ReadonlySet<string> =>
  new Set(
    names.flatMap((name) => (nets.get(name)?.pins ?? []).flatMap(({ ref }) => parts.get(ref)?.circuit ?? [])),
  );

function answers({ tables, log: { matrix } }: PhaseReview): boolean {
  const all = tables.flatMap(({ entries }) =>
    entries.flatMap((entry) => ("recorded" in entry ? [entry.recorded] : [])),
  );
  const works = all.filter(({ result }) => result.state === "works");
  const cells = new Set(works.map(({ row, column }) => `${row},${column}`));
  return works.length === all.length && cells.size >= MOST * matrix.rows.length * matrix.columns.length;
}

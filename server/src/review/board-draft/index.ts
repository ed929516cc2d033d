// A board file out of logs: what they say of their board, each entry with the line it was learned in. A pure function of
// the logs, in an order that does not hang on anything but them.

import { defined } from "../../base/defined";
import { emptyBoard } from "../../judge/stated/lay-over";
import { partLookup } from "../../judge/stated/pin-names";
import { supplyPins } from "../../judge/stated/supplies";
import { idOf } from "../../knowledge/board-file";
import type { BoardDraft, DraftCircuit } from "../../knowledge/board-file/draft";
import type { Library } from "../../knowledge/library";
import type { Board } from "../../knowledge/types";
import { draftMatrices } from "./matrices";
import { draftNets } from "./nets";
import { circuitId, draftParts } from "./parts";
import { draftRails } from "./rails";
import { type DraftLog, type DraftSaying, logsInOrder, ofKind, sayingsOf } from "./sayings";
import { draftSymptoms } from "./symptoms";

export { byDesignator, refOf } from "./parts";
export { type DraftLog, logLineSource } from "./sayings";
export { isKnownSymptom, symptomOf } from "./symptoms";
export { draftWords } from "./words";

export interface DraftQuestion {
  /** All of one board. */
  readonly logs: readonly DraftLog[];
  readonly library: Library;
  /** The board file that the draft is to complete: what it has under other names is not drafted again. */
  readonly base?: Board | undefined;
  /** Of a new file, in words or as an id. */
  readonly name?: string | undefined;
}

/** What can be written into the board file. What `base` has already is not in it. */
export function draftBoard({ logs, library, base = NOTHING, name }: DraftQuestion): BoardDraft {
  const ordered = logsInOrder(logs);
  const sayings = sayingsOf(ordered);
  const parts = draftParts(ordered, sayings, base, library);
  const fed = [...base.parts.values(), ...parts];
  const rails = draftRails(ofKind(sayings, "rail"), base, fed, library);
  const told = groundsOf(ordered, sayings, base);
  const known = [...base.grounds, ...told];
  const supplies = supplyPins(
    {
      parts: fed,
      rails: [...base.rails.values(), ...rails.filter(({ guess }) => !guess)].map((rail) => ({
        nominal: rail.nominal,
        net: rail.net ?? rail.name,
      })),
      grounds: known.length > 0 ? known : [GROUND],
    },
    library,
  );
  const nets = draftNets(ofKind(sayings, "link"), base, partLookup(fed), supplies, library);
  // A ground that nobody has named is there all the same, once something was found joined to a ground pin.
  const isJoined = known.length === 0 && nets.some((net) => net.name === GROUND);
  const grounds = isJoined ? [GROUND] : told;
  return defined({
    id: name === undefined ? undefined : idOf(name),
    title: name === undefined ? undefined : titleOf(name),
    grounds,
    rails,
    circuits: circuitsOf(sayings, base),
    parts,
    nets,
    matrices: draftMatrices(ofKind(sayings, "matrix"), base, library),
    symptoms: draftSymptoms(ordered, base),
    expected: [],
  });
}

const NOTHING = emptyBoard("", "");
const GROUND = "GND";

/** Ground is told of by its name alone, in a table, a heading or a sentence. */
function groundsOf(logs: readonly DraftLog[], sayings: readonly DraftSaying[], { grounds }: Board): string[] {
  if (grounds.length > 0) return [];
  const isJoined = ofKind(sayings, "link").some(({ statement: { ends } }) =>
    ends.some((end) => "net" in end && end.net === GROUND),
  );
  return isJoined || logs.some(({ doc }) => /\b(?:gnd|ground)\b/i.test(doc.text)) ? [GROUND] : [];
}

function circuitsOf(sayings: readonly DraftSaying[], base: Board): DraftCircuit[] {
  const found = new Map<string, DraftCircuit>();
  for (const { statement, from } of ofKind(sayings, "part")) {
    if (statement.circuit === undefined) continue;
    const id = circuitId(statement.circuit, base);
    if (!base.circuits.has(id) && !found.has(id))
      found.set(id, { id, title: titleOf(statement.circuit), from });
  }
  return [...found.values()];
}

/** Words as they are, an id as words. */
function titleOf(name: string): string {
  const words = /\s/.test(name.trim()) ? name.trim() : name.replace(/[-_]+/g, " ").trim() || name;
  return words.charAt(0).toUpperCase() + words.slice(1);
}

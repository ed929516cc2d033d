import { nearest } from "../text/nearest";
import type { Reporter } from "./semantics";
import type { Board } from "./types";

/** Inputs of a symptom that no matrix of the board has. */
export function checkSymptoms(report: Reporter, { symptoms, matrices }: Board): void {
  const names = [...matrices.values()].flatMap(({ cells }) => cells.flat().flatMap((name) => name ?? []));
  const known = new Set(names);
  for (const { id, inputs } of symptoms.values()) {
    for (const [i, input] of (inputs ?? []).entries()) {
      if (known.has(input)) continue;
      const near = nearest(input, names);
      report.at(
        ["symptoms", id, "inputs", i],
        "unknown-input",
        `No matrix has a crossing named \`${input}\`.${near ? ` Did you mean \`${near}\`?` : " Write the name as it is in `cells`."}`,
      );
    }
  }
}

// Nothing read wrong, and a switch bank stands at what is complained of: "Coins per race" at free play, and no coin counts.

import type { FrontMatter } from "../../knowledge/load-front-matter";
import type { Board } from "../../knowledge/types";
import type { LogDocument } from "../../log/document";
import { tablesOf } from "../../log/document";
import { shift } from "../../text/span";
import type { LocatedObservation } from "./observation";

/** Words that say nothing of what a setting is of. */
const LEAST_LETTERS = 4;
const EMPTY = new Set([
  "with",
  "without",
  "from",
  "when",
  "that",
  "board",
  "does",
  "doesn",
  "takes",
  "after",
]);

const wordsIn = (text: string): ReadonlySet<string> =>
  new Set(
    (text.toLowerCase().match(/[\p{L}]+/gu) ?? [])
      .map((word) => word.replace(/s$/, ""))
      .filter((word) => word.length >= LEAST_LETTERS && !EMPTY.has(word)),
  );

/** One finding for each bank that was read and bears on the complaint; none where anything else was found wrong. */
export function settingObservations(
  doc: LogDocument,
  front: Partial<FrontMatter>,
  board: Board,
  all: readonly LocatedObservation[],
): LocatedObservation[] {
  const symptoms = front.symptoms ?? [];
  if (symptoms.length === 0 || all.some(({ finding }) => finding && finding.kind !== "symptom")) return [];
  const said = wordsIn(symptoms.map((id) => `${id} ${board.symptoms.get(id)?.title ?? ""}`).join(" "));
  const found: LocatedObservation[] = [];
  for (const { start, table } of tablesOf(doc)) {
    if (table.kind.holds !== "settings") continue;
    const text = [...table.source.rows].flatMap((row) => row.cells.map((cell) => cell.text)).join(" ");
    for (const bank of board.switchBanks.values()) {
      if (!new RegExp(`\\b${bank.ref}\\b`, "i").test(text)) continue;
      const bears = bank.settings.find(({ title }) => [...wordsIn(title)].some((word) => said.has(word)));
      if (!bears) continue;
      const { ref } = bank;
      found.push({
        key: `setting ${ref}`.toUpperCase(),
        what: `the setting of ${ref}`,
        table,
        span: shift(table.span, start),
        refs: [],
        phase: 0,
        finding: {
          kind: "sign",
          sign: "setting",
          refs: [ref],
          of: `the setting of ${ref}`,
          outside: `the setting of ${ref}`,
          says: `Nothing was read wrong, and ${ref} sets "${bears.title}", which the complaint is of.`,
        },
      });
    }
  }
  return found;
}

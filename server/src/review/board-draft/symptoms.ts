import { idOf } from "../../knowledge/board-file";
import type { DraftSymptom } from "../../knowledge/board-file/draft";
import type { Board } from "../../knowledge/types";
import { frontSpan } from "../../log/front";
import { type DraftLog, logLineSource } from "./sayings";

/** What the boards were brought in for, each once and only what the board file does not list. */
export function draftSymptoms(logs: readonly DraftLog[], base: Board): DraftSymptom[] {
  const found = new Map<string, DraftSymptom>();
  for (const log of logs) {
    for (const [i, typed] of (log.front.symptoms ?? []).entries()) {
      const symptom = symptomOf(typed);
      if (!symptom || found.has(symptom.id) || isKnownSymptom(typed, base)) continue;
      const at = frontSpan(log.doc, ["symptoms", i])?.start ?? 0;
      found.set(symptom.id, { ...symptom, from: logLineSource(log, at) });
    }
  }
  return [...found.values()];
}

/** True for a symptom that the board file has, by its id or by its title in whatever case. */
export function isKnownSymptom(typed: string, { symptoms }: Board): boolean {
  const id = symptomOf(typed)?.id;
  const plain = typed.trim().toLowerCase();
  return (
    symptoms.has(typed) ||
    (id !== undefined && symptoms.has(id)) ||
    [...symptoms.values()].some(({ title }) => title.toLowerCase() === plain)
  );
}

/** "lane 3 never scores" is `lane-3-never-scores`; an id is read as words. Undefined for words without a letter. */
export function symptomOf(typed: string): { readonly id: string; readonly title: string } | undefined {
  const words = typed.trim().replace(/\.$/, "");
  if (!/\p{L}/u.test(words)) return undefined;
  const title = /\s/.test(words) ? words : words.replace(/[-_]+/g, " ").trim();
  const id = idOf(words);
  return {
    id: /\s/.test(words) ? id.replace(/\./g, "") : id,
    title: title.charAt(0).toUpperCase() + title.slice(1),
  };
}

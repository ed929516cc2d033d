// Nothing read wrong, and a switch bank stands at what is complained of: "Coins per race" at free play, and no coin counts.

import type { FrontMatter } from "../../knowledge/load-front-matter";
import type { Board, SwitchBank, SwitchBankSetting } from "../../knowledge/types";
import type { LogDocument } from "../../log/document";
import { tablesOf } from "../../log/document";
import { shift } from "../../text/span";
import type { LocatedObservation } from "./observation";
import { sentencesOf } from "./words/sentences";

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

/** What the log begins with: its title and the first sentences under it. */
const OPENING = 3;

function openingOf({ blocks }: LogDocument): readonly string[] {
  const [title] = blocks.flatMap(({ block }) => block.sections.flatMap(({ heading }) => heading?.text ?? []));
  const sentences = blocks.flatMap(({ block }) => sentencesOf(block).map(({ text }) => text));
  return [title ?? "", ...sentences.slice(0, OPENING)];
}

const TRIED = "set|flick(?:ed)?|flipped|switched|moved|changed|turned|put|tried|thrown|on|off|over";

/** Outside the tables, somebody says that a switch of it was moved. */
function wasTried(ref: string, { blocks }: LogDocument): boolean {
  const moved = new RegExp(
    `\\b${ref}\\b[^.;|\\n]{0,30}\\b(?:${TRIED})\\b|\\b(?:${TRIED})\\b[^.;|\\n]{0,30}\\b${ref}\\b`,
    "i",
  );
  return blocks.some(
    ({ block }) =>
      sentencesOf(block).some(({ text }) => moved.test(text)) ||
      block.tables.some(({ section }) => moved.test(section.heading?.text ?? "")),
  );
}

/** The setting of the bank that the words are about: by its title, or by what it may be set to as well. */
const bearing = (
  { settings }: SwitchBank,
  said: ReadonlySet<string>,
  byTitle: boolean,
): SwitchBankSetting | undefined =>
  settings.find(({ title, meaning }) =>
    [...wordsIn(byTitle ? title : [title, ...meaning.values()].join(" "))].some((word) => said.has(word)),
  );

/** One finding for each bank that was read and bears on the complaint; none where anything else was found wrong. */
export function settingObservations(
  doc: LogDocument,
  front: Partial<FrontMatter>,
  board: Board,
  all: readonly LocatedObservation[],
): LocatedObservation[] {
  const symptoms = front.symptoms ?? [];
  if (all.some(({ finding }) => finding && finding.kind !== "symptom")) return [];
  const complaint = symptoms.map((id) => `${id} ${board.symptoms.get(id)?.title ?? ""}`);
  const said = wordsIn([...complaint, front.complaint ?? "", ...openingOf(doc)].join(" "));
  // What a setting may be set to counts where no bank has a setting that is called so.
  const byTitle = [...board.switchBanks.values()].some((bank) => bearing(bank, said, true) !== undefined);
  const found: LocatedObservation[] = [];
  for (const { start, table } of tablesOf(doc)) {
    if (table.kind.holds !== "settings") continue;
    const text = [...table.source.rows].flatMap((row) => row.cells.map((cell) => cell.text)).join(" ");
    for (const bank of board.switchBanks.values()) {
      if (!new RegExp(`\\b${bank.ref}\\b`, "i").test(text)) continue;
      const bears = bearing(bank, said, byTitle);
      const { ref } = bank;
      if (!bears && !wasTried(ref, doc)) continue;
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
          says: bears
            ? `Nothing was read wrong, and ${ref} sets "${bears.title}", which the complaint is of.`
            : `Nothing was read wrong, and another setting of ${ref} was tried.`,
        },
      });
    }
  }
  return found;
}

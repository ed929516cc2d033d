// What is asked for a new log, question by question. Every one can be skipped and gone back to; Escape leaves nothing.

import { l10n } from "vscode";
import {
  type BoardChoice,
  NEW_LOG_BOARD,
  type NewLogChoices,
  type NewLogFacts,
} from "../../../server/src/protocol/custom-requests/new-log";
import type { Mendlog } from "../mendlog";
import { askOne, askText, type QuestionAnswer, type QuestionItem, type QuestionStep, skipItem } from "./ask";

type Facts = { -readonly [K in keyof NewLogFacts]: NewLogFacts[K] };

interface Asking {
  readonly facts: Facts;
  readonly choices: NewLogChoices;
  readonly mendlog: Mendlog;
}

type Question = (step: QuestionStep, asking: Asking) => Promise<QuestionAnswer<unknown>>;

/** @returns undefined when left by Escape */
export async function askFacts(
  choices: NewLogChoices,
  today: string,
  mendlog: Mendlog,
): Promise<NewLogFacts | undefined> {
  const facts: Facts = { received: today };
  // A shop that numbers its jobs goes on numbering them.
  if (choices.job !== undefined) facts.job = choices.job;
  const asking: Asking = { facts, choices, mendlog };
  for (let at = 0; at < QUESTIONS.length; ) {
    const step: QuestionStep = {
      title: l10n.t("Start a new log"),
      step: at + 1,
      of: QUESTIONS.length,
      back: at > 0,
    };
    const answer = await QUESTIONS[at]?.(step, asking);
    if (answer === "cancelled") return undefined;
    at += answer === "back" ? -1 : 1;
  }
  return asking.facts;
}

const boardOf = ({ facts, choices }: Asking): BoardChoice | undefined =>
  choices.boards.find(({ id }) => id === facts.board);

/** Keeps an answer; a blank one takes an earlier answer back. */
function keep(
  facts: Facts,
  key: Exclude<keyof Facts, "symptoms">,
  answer: QuestionAnswer<string>,
): QuestionAnswer<string> {
  if (typeof answer === "object") {
    const text = answer.value.trim();
    if (text === "") delete facts[key];
    else facts[key] = text;
  }
  return answer;
}

const textOf = (answer: QuestionAnswer<QuestionItem>): QuestionAnswer<string> =>
  typeof answer === "object" ? { value: answer.value.value ?? "" } : answer;

const items = (list: readonly { readonly id: string; readonly title: string }[]): QuestionItem[] =>
  list.map(({ id, title }) => ({ label: id, description: title, value: id }));

const board: Question = async (step, asking) => {
  const { facts, choices } = asking;
  const before = facts.board;
  const said = keep(facts, "board", await askBoard(step, facts, choices));
  const answer = said === "back" || said === "cancelled" ? said : await sureOf(step, asking, said);
  // Another board has other symptoms.
  if (facts.board !== before) delete facts.symptoms;
  return answer;
};

/** In words where no board is known yet; else one of those that are known, or words of one's own. */
async function askBoard(
  step: QuestionStep,
  facts: Facts,
  choices: NewLogChoices,
): Promise<QuestionAnswer<string>> {
  if (choices.boards.length === 0)
    return askText(step, {
      prompt: l10n.t("What board is it? Such as: Regatta controller. Empty to skip"),
      value: facts.board ?? "",
    });
  const listed = new Set(choices.boards.map(({ id }) => id));
  const typed = facts.board !== undefined && !listed.has(facts.board) ? [facts.board] : [];
  return textOf(
    await askOne(step, {
      placeholder: l10n.t("Which board is it? Pick one, or type what it is called"),
      items: [
        ...typed.map((words) => ({ label: words, value: words })),
        skipItem(l10n.t("leave the board out")),
        ...choices.boards.map(({ id, title, hasFile }) => ({
          label: title,
          description: hasFile ? id : l10n.t("{0}, known from logs", id),
          value: id,
        })),
      ],
      picked: facts.board === undefined ? [] : [facts.board],
      own: l10n.t("A board that is not known yet"),
      ownLast: true,
    }),
  );
}

/** Words that are nearly the name of a board that is known are mostly a slip for it. */
async function sureOf(
  step: QuestionStep,
  { facts, choices, mendlog }: Asking,
  said: QuestionAnswer<string>,
): Promise<QuestionAnswer<unknown>> {
  const words = facts.board;
  if (words === undefined || choices.boards.some(({ id }) => id === words)) return said;
  const named = await mendlog.request(NEW_LOG_BOARD, { words });
  if (!named?.near) {
    // What is known under another spelling is that board.
    if (named && choices.boards.some(({ id }) => id === named.id)) facts.board = named.id;
    return said;
  }
  const { near } = named;
  return keep(
    facts,
    "board",
    textOf(
      await askOne(step, {
        placeholder: l10n.t("Is {0} the known board {1}?", words, near.title),
        items: [
          { label: l10n.t("No, it is another board"), description: words, value: words },
          { label: l10n.t("Yes, it is {0}", near.title), description: near.id, value: near.id },
        ],
        picked: [],
      }),
    ),
  );
}

const owner: Question = async (step, { facts, choices }) => {
  const known = [...new Set([...(facts.owner === undefined ? [] : [facts.owner]), ...choices.owners])];
  if (known.length === 0)
    return keep(
      facts,
      "owner",
      await askText(step, { prompt: l10n.t("Whose board is it? Empty to skip"), value: "" }),
    );
  return keep(
    facts,
    "owner",
    textOf(
      await askOne(step, {
        placeholder: l10n.t("Whose board is it? Pick or type a name"),
        items: [
          skipItem(l10n.t("leave the owner out")),
          ...known.map((name) => ({ label: name, value: name })),
        ],
        picked: facts.owner === undefined ? [] : [facts.owner],
        own: l10n.t("a new owner"),
      }),
    ),
  );
};

/** In the owner's words, or as the board's file calls it. One is enough to begin with: more are typed into the log. */
const complaint: Question = async (step, asking) => {
  const { facts } = asking;
  const known = boardOf(asking)?.symptoms ?? [];
  const before = (facts.symptoms ?? []).join(", ");
  const answer =
    known.length === 0
      ? await askText(step, {
          prompt: l10n.t(
            "What does it do wrong, in the owner's words? Separate several with commas. Empty to skip",
          ),
          value: before,
        })
      : textOf(
          await askOne(step, {
            placeholder: l10n.t("What does it do wrong? Pick one, or type it. Separate several with commas"),
            items: [
              ...(before === "" || known.some(({ id }) => id === before)
                ? []
                : [{ label: before, value: before }]),
              skipItem(l10n.t("nothing said")),
              ...items(known),
            ],
            picked: [before],
            own: l10n.t("the owner's words"),
          }),
        );
  if (typeof answer !== "object") return answer;
  const told = answer.value.split(",").filter((symptom) => symptom.trim() !== "");
  if (told.length > 0) facts.symptoms = told;
  else delete facts.symptoms;
  return answer;
};

/** No more than it takes to tell this log from others; the rest is completed where it stands, in the front matter. */
const QUESTIONS: readonly Question[] = [board, owner, complaint];

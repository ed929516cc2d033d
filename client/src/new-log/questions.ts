// What is asked for a new log, question by question. Every one can be skipped and gone back to; Escape leaves nothing.

import { InputBoxValidationSeverity, l10n } from "vscode";
import { defined } from "../../../server/src/base/defined";
import {
  type BoardChoice,
  NEW_LOG_BOARD,
  NEW_LOG_EARLIER,
  type NewLogChoices,
  type NewLogFacts,
} from "../../../server/src/protocol/own/new-log";
import type { Mendlog } from "../mendlog";
import { type Answer, askMany, askOne, askText, type Item, type Step, skipItem } from "./ask";

type Facts = { -readonly [K in keyof NewLogFacts]: NewLogFacts[K] };

interface Asking {
  readonly facts: Facts;
  readonly choices: NewLogChoices;
  readonly mendlog: Mendlog;
  readonly today: string;
}

/** `undefined` where the question does not arise; then the next one does. */
type Question = (step: Step, asking: Asking) => Promise<Answer<unknown> | undefined>;

/** @returns undefined when left by Escape */
export async function askFacts(
  choices: NewLogChoices,
  today: string,
  mendlog: Mendlog,
): Promise<NewLogFacts | undefined> {
  const asking: Asking = { facts: { received: today }, choices, mendlog, today };
  const asked: number[] = [];
  for (let at = 0; at < QUESTIONS.length; ) {
    const step: Step = {
      title: l10n.t("Start a new log"),
      step: at + 1,
      of: QUESTIONS.length,
      back: asked.length > 0,
    };
    const answer = await QUESTIONS[at]?.(step, asking);
    if (answer === "cancelled") return undefined;
    if (answer === "back") at = asked.pop() ?? 0;
    else {
      if (answer !== undefined) asked.push(at);
      at += 1;
    }
  }
  return asking.facts;
}

const boardOf = ({ facts, choices }: Asking): BoardChoice | undefined =>
  choices.boards.find(({ id }) => id === facts.board);

/** Keeps an answer; a blank one takes an earlier answer back. */
function keep(facts: Facts, key: Exclude<keyof Facts, "symptoms">, answer: Answer<string>): Answer<string> {
  if (typeof answer === "object") {
    const text = answer.value.trim();
    if (text === "") delete facts[key];
    else facts[key] = text;
  }
  return answer;
}

const textOf = (answer: Answer<Item>): Answer<string> =>
  typeof answer === "object" ? { value: answer.value.value ?? "" } : answer;

const items = (list: readonly { readonly id: string; readonly title: string }[]): Item[] =>
  list.map(({ id, title }) => ({ label: id, description: title, value: id }));

const board: Question = async (step, asking) => {
  const { facts, choices } = asking;
  const before = facts.board;
  const said = keep(facts, "board", await askBoard(step, facts, choices));
  const answer = said === "back" || said === "cancelled" ? said : await sureOf(step, asking, said);
  // Another board has other revisions and symptoms.
  if (facts.board !== before) {
    delete facts.revision;
    delete facts.symptoms;
    delete facts.comebackOf;
  }
  return answer;
};

/** In words where no board is known yet; else one of those that are known, or words of one's own. */
async function askBoard(step: Step, facts: Facts, choices: NewLogChoices): Promise<Answer<string>> {
  if (choices.boards.length === 0)
    return askText(step, {
      prompt: l10n.t("What board is it, in words? Such as: Regatta controller. Empty to skip"),
      value: facts.board ?? "",
    });
  const listed = new Set(choices.boards.map(({ id }) => id));
  const typed = facts.board !== undefined && !listed.has(facts.board) ? [facts.board] : [];
  return textOf(
    await askOne(step, {
      placeholder: l10n.t("Which board is it? Pick one, or type what it is called"),
      items: [
        ...typed.map((words) => ({ label: words, value: words })),
        ...choices.boards.map(({ id, title, hasFile }) => ({
          label: title,
          description: hasFile ? id : l10n.t("{0}, known from logs", id),
          value: id,
        })),
        skipItem(l10n.t("leave the board out")),
      ],
      picked: facts.board === undefined ? [] : [facts.board],
      own: l10n.t("A board that is not known yet"),
      ownLast: true,
    }),
  );
}

/** Words that are nearly the name of a board that is known are mostly a slip for it. */
async function sureOf(
  step: Step,
  { facts, choices, mendlog }: Asking,
  said: Answer<string>,
): Promise<Answer<unknown>> {
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
        placeholder: l10n.t("Is {0} the board {1}, which is known already?", words, near.title),
        items: [
          { label: l10n.t("Yes, it is {0}", near.title), description: near.id, value: near.id },
          { label: l10n.t("No, it is another board"), description: words, value: words },
        ],
        picked: [],
      }),
    ),
  );
}

const job: Question = async (step, { facts, choices }) => {
  const taken = new Set(choices.taken.map((number) => number.toLowerCase()));
  return keep(
    facts,
    "job",
    await askText(step, {
      prompt: l10n.t("The job's number in your books; empty for none"),
      value: facts.job ?? choices.job,
      hint: (text) =>
        taken.has(text.toLowerCase())
          ? {
              message: l10n.t("{0} is the number of another log already", text),
              severity: InputBoxValidationSeverity.Warning,
            }
          : undefined,
    }),
  );
};

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

const serial: Question = async (step, { facts }) =>
  keep(
    facts,
    "serial",
    await askText(step, {
      prompt: l10n.t("Serial number as printed, leading zeros too; empty to skip"),
      value: facts.serial ?? "",
    }),
  );

/** Only asked where this very board was here before. */
const comeback: Question = async (step, asking) => {
  const { facts, mendlog, today } = asking;
  delete facts.comebackOf;
  if (facts.board === undefined || facts.serial === undefined) return undefined;
  const earlier = await mendlog.request(NEW_LOG_EARLIER, {
    board: facts.board,
    serial: facts.serial,
    today,
  });
  if (!earlier || earlier.length === 0) return undefined;
  const answer = textOf(
    await askOne(step, {
      placeholder: l10n.t("This board was here before. Is it back because of that job?"),
      items: [
        ...earlier.map(({ job: number, title, returned }) =>
          defined<Item>({
            label: l10n.t("Comeback of {0}", number),
            description: returned === undefined ? undefined : l10n.t("returned {0}", returned),
            detail: title,
            value: number,
          }),
        ),
        skipItem(l10n.t("it is a new matter")),
      ],
      picked: [],
    }),
  );
  return keep(facts, "comebackOf", answer);
};

const revision: Question = async (step, asking) => {
  const revisions = boardOf(asking)?.revisions ?? [];
  if (revisions.length === 0) return undefined;
  const { facts } = asking;
  return keep(
    facts,
    "revision",
    textOf(
      await askOne(step, {
        placeholder: l10n.t("Which revision is printed on it? Pick or type"),
        items: [...items(revisions), skipItem(l10n.t("not known yet"))],
        picked: facts.revision === undefined ? [] : [facts.revision],
        own: l10n.t("not in the board file"),
      }),
    ),
  );
};

const symptoms: Question = async (step, asking) => {
  const { facts } = asking;
  const answer = await askMany(step, {
    placeholder: l10n.t("What does it do wrong? Tick what fits, or type it in your own words; Enter goes on"),
    items: (boardOf(asking)?.symptoms ?? []).map(({ id, title }) => ({
      label: title,
      description: id,
      value: id,
    })),
    picked: facts.symptoms ?? [],
    own: l10n.t("in your own words"),
  });
  if (typeof answer === "object") facts.symptoms = answer.value;
  return answer;
};

const meter: Question = async (step, { facts, choices }) => {
  if (choices.meters.length === 0) return undefined;
  return keep(
    facts,
    "meter",
    textOf(
      await askOne(step, {
        placeholder: l10n.t("Which meter will you use?"),
        items: [
          ...choices.meters.map(({ id, title }) => ({ label: title, description: id, value: id })),
          skipItem(l10n.t("decide later")),
        ],
        picked: facts.meter === undefined ? [] : [facts.meter],
      }),
    ),
  );
};

const QUESTIONS: readonly Question[] = [board, job, owner, serial, comeback, revision, symptoms, meter];

// What running words between the tables say of the board: a part that was swapped and changed nothing, a leg that was lifted while a
// node stayed where it was, a fuse that is blown, a chip that burns the finger. Words that are common practice, no source.

import type { LiftFinding } from "../../../compute/diagnosis/conflict";
import type { Against, DiagnosisFinding } from "../../../compute/diagnosis/types";
import { boardIndex } from "../../../knowledge/board-index";
import type { Library } from "../../../knowledge/library";
import type { Board } from "../../../knowledge/types";
import { disconnectionsIn } from "../../../log/disconnections";
import type { LogDocument } from "../../../log/document";
import { momentIn, type Timeline } from "../../../log/timeline";
import { swapOutcome } from "../../../log/timeline/swaps";
import type { LocatedObservation } from "../observation";
import { kickObserved, lineOf } from "../parts/coils";
import { boardPinIn } from "./place-words";
import { measuredInWords } from "./prose-measured";
import { type Sentence, sentencesOf } from "./sentences";

const REF = /(?<![\w.-])([A-Z]{1,3}\d{1,3})(?:'s)?(?![\w]|[-.]\d)/g;
const SWAPPED =
  /\b(?:new|another|other|different|known[- ]good|spare|fresh|swap(?:ped)?|exchanged?|changed|replaced|renewed|tried|substituted?|shelf)\b/i;
/** A part that is in a place of its own is not what was put there. */
const LIFTED =
  /\b(?:lifted|unsoldered|desoldered|pulled|unplugged|removed|taken out|took out|out of its socket|without|with \S+ out|up in the air|leg up)\b/i;
const STAYED =
  /\b(?:still|same|no change|no different|no difference|stays?|stayed|remains?|remained|unchanged|as before|does not (?:move|change)|changes nothing|changed nothing)\b/i;
const CLEARED =
  /\b(?:(?:comes?|came|is|was) back|back (?:to|at)|gone|goes away|went away|clears?|cleared|rises?|rose|recovers?|recovered|right again|all well|disappears?|disappeared|frees?|free again|jumps? to|goes (?:high|low|up)|went (?:high|low|up)|(?:starts?|began|begins?) (?:to )?(?:move|moving|pulse|pulsing)|normal then|fine then|then (?:right|fine|normal))\b/i;
const BLOWN = /\b(?:blown|blew|open|burnt through|black inside|gone)\b/i;
const RENEWED = /\b(?:new|renewed|replaced|again|another|fitted|owner|earlier|in (?:now|since))\b/i;
const HOT =
  /\b(?:too hot|burns? (?:the|my|a) finger|very hot|boiling|red hot|scald\w*|(?:gets?|got|runs?|is|was|becomes?|goes|turns) (?:\w+ )?hot)\b/i;
const COLD =
  /\b(?:not (?:even )?(?:hot|warm)|cold|nothing (?:is |gets )?hot|no longer|hand[- ]?warm|luke)\b/i;

/** Every note that names parts of the board, after so many repairs as stand above it. */
export function proseObservations(
  doc: LogDocument,
  board: Board,
  library: Library,
  timeline: Timeline,
): LocatedObservation[] {
  const found: LocatedObservation[] = [];
  let last = 0;
  for (const { start, block } of doc.blocks) {
    const sentences = sentencesOf(block);
    const phaseAt = (at: number): number => {
      const above = block.tables.filter(({ span }) => span.end <= at).at(-1);
      return above ? momentIn(timeline, above).order : last;
    };
    sentences.forEach((sentence, i) => {
      const span = { start: start + sentence.at, end: start + sentence.at + sentence.text.length };
      for (const one of said(sentence, sentences[i - 1], sentences[i + 1], board, library))
        found.push({ ...one, span, phase: phaseAt(sentence.at) });
    });
    const below = block.tables.at(-1);
    if (below) last = momentIn(timeline, below).order;
  }
  return found;
}

type Said = Omit<LocatedObservation, "span" | "phase">;

function said(
  { text }: Sentence,
  before: Sentence | undefined,
  next: Sentence | undefined,
  board: Board,
  library: Library,
): Said[] {
  const named = refsIn(text, board);
  const refs = named.length === 0 && SWAPPED.test(text) ? byNumber(text, board) : named;
  if (refs.length === 0) return [];
  const isLift = LIFTED.test(text);
  return [
    ...(isLift ? lifts(text, next?.text ?? "", board, library) : []),
    ...(SWAPPED.test(text) ? swaps(text, refs, before?.text ?? "") : []),
    ...changedBefore(text, refs),
    ...fuses(text, refs),
    ...pressed(text, next?.text ?? "", refs),
    ...hot(text, refs),
    ...measuredInWords(text, board),
    ...refs.flatMap((ref) => kickObserved(text, lineOf(ref, board, { library }), board, { library }) ?? []),
  ];
}

function refsIn(text: string, board: Board): string[] {
  const index = boardIndex(board);
  const all = [...text.matchAll(REF)].flatMap(([, ref = ""]) => index.part(ref)?.ref ?? []);
  return [...new Set(all)];
}

const NUMBER = /(?<![\w.])\d{0,2}[A-Z]{0,4}\d{2,5}[A-Z]{0,3}(?![\w.])/gi;

/** The only part of the board with the number that somebody gives in place of a designator: "another 5101 in". */
function byNumber(text: string, { parts }: Board): string[] {
  return [...text.matchAll(NUMBER)].flatMap(([number]) => {
    const all = [...parts.values()].filter(({ device, value }) =>
      [device, value].some((one) => one?.toUpperCase() === number.toUpperCase()),
    );
    return all.length === 1 ? all.map(({ ref }) => ref) : [];
  });
}

/** "other one in: all F again". */
const AGAIN = /\b(?:in|fitted|tried)\b[^.;]{0,4}[:,;-][^.;]*\bagain\b/i;

const FIGURE = /(?<![\w.])\d+[.,]\d+(?!\w)/g;
/** As a share of it; common practice, no source. */
const SAME_FIGURE = 0.05;

/** "pin 1 at 1.07. Another 74LS14 in: 1.06": behind the other part stands what was read before. */
function isSameFigure(text: string, before: string): boolean {
  const now = /\bin(?: its place)?\s*[:,]\s*(?:[^\d;.]{0,12})(\d+[.,]\d+)/i.exec(text)?.[1];
  const figure = Number(now?.replace(",", "."));
  return [...before.matchAll(FIGURE)].some(
    ([was]) => Math.abs(Number(was.replace(",", ".")) - figure) <= SAME_FIGURE * Math.abs(figure),
  );
}

/** Another one in its place: it was not that, or it was. What was renewed once for all is told by the work. */
function swaps(text: string, refs: readonly string[], before: string): Said[] {
  // "J7 off" and "new fuse" are no trials.
  const parts = refs.filter((ref) => !/^(?:J|F|TP)\d/.test(ref));
  const outcome = swapOutcome(text);
  const isSame =
    outcome === "same" ||
    (outcome === undefined && (STAYED.test(text) || AGAIN.test(text) || isSameFigure(text, before)));
  if (!isSame || parts.length === 0 || parts.length > 12) return [];
  return parts.map((ref) => ({
    key: `swap ${ref}`.toUpperCase(),
    what: `another ${ref} in its place`,
    refs: [],
    against: [{ ref, by: "swap-same" } satisfies Against],
  }));
}

const OTHERS =
  "(?:owner|customer|operator|sender|client|(?:last|other|previous) (?:shop|man|repairer|bench|technician))";
const CHANGED = "(?:replaced|changed|renewed|swapped|exchanged)";
const CHANGED_BEFORE = new RegExp(
  `\\b${CHANGED}\\b[^.;]{0,20}\\bby (?:the |his |her )?${OTHERS}\\b|\\b${OTHERS} (?:has |had |says he (?:has )?)?(?:already )?${CHANGED}\\b`,
  "i",
);

/** Another one was put in before the board came: it fails all the same. */
const changedBefore = (text: string, refs: readonly string[]): Said[] =>
  CHANGED_BEFORE.test(text)
    ? refs
        .filter((ref) => !/^(?:J|F|TP|BT)\d/.test(ref))
        .map((ref) => ({
          key: `changed before ${ref}`.toUpperCase(),
          what: `another ${ref} in its place`,
          refs: [],
          against: [{ ref, by: "changed-before" } satisfies Against],
        }))
    : [];

const BACK_IN = /\bold (?:one|chip|part) (?:is |was |went )?(?:put )?back\b/i;

/** Something off its nets, and what those did. */
function lifts(text: string, next: string, board: Board, library: Library): Said[] {
  const words = STAYED.test(text) || CLEARED.test(text) ? text : `${text} ${next}`;
  const stayed = STAYED.test(words);
  if (stayed === CLEARED.test(words) || BACK_IN.test(text)) return [];
  const index = boardIndex(board);
  const off = disconnectionsIn(text).flatMap(({ ref, pin }) => {
    const part = ref === undefined ? undefined : index.part(ref);
    return part ? [{ ref: part.ref, pin }] : [];
  });
  const [only, second] = off;
  const state = /\b(?:goes|went|is|stands|then|now) (high|low|up)\b|\b(puls\w+|moves?|moving)\b/i.exec(words);
  const place = [...words.matchAll(AT)]
    .map(([at]) => boardPinIn(at, board, library))
    .find((one) => one && one.ref !== only?.ref);
  const level =
    state?.[2] !== undefined
      ? "pulsing"
      : /high|up/i.test(state?.[1] ?? "")
        ? "high"
        : state
          ? "low"
          : undefined;
  const held: Said[] =
    only && !second && place && level && !stayed
      ? [
          {
            key: `prose ${place.ref}.${place.pin} without ${only.ref}`.toUpperCase(),
            what: `${place.ref} pin ${place.pin} without ${only.ref}`,
            refs: [only.ref.toUpperCase()],
            without: { ...place, state: level, off: only.ref },
          },
        ]
      : [];
  return [
    ...held,
    ...off.flatMap(({ ref, pin }): Said[] => {
      const nets = [...board.nets.values()].filter(
        (net) =>
          !index.isGround(net) &&
          net.pins.some((one) => one.ref === ref && (pin === undefined || one.pin === pin)),
      );
      return nets.map((net) => ({
        key: `prose lift ${ref} ${net.name}`.toUpperCase(),
        what: `${net.name} with ${ref} off`,
        refs: [ref.toUpperCase()],
        lifts: [{ kind: "lift", ref, net: net.name, cleared: !stayed } satisfies LiftFinding],
      }));
    }),
  ];
}

/** A pin in running words. */
const AT = /\b[A-Z]{1,3}\d{1,3}(?:\s*[-.]\s*|\s+pin\s+)\d{1,2}\b/g;

/** A fuse that is seen to be blown, and was not renewed since. */
function fuses(text: string, refs: readonly string[]): Said[] {
  const own = refs.filter((ref) => /^F\d/.test(ref));
  const [ref] = own;
  if (!ref || own.length > 1 || !BLOWN.test(text) || RENEWED.test(text)) return [];
  const near = new RegExp(
    `\\b${ref}\\b[^,;:]{0,20}${BLOWN.source}|${BLOWN.source}[^,;:]{0,12}\\b${ref}\\b`,
    "i",
  );
  if (!near.test(text)) return [];
  return [seen(ref, `${ref} is blown.`, "inspection")];
}

const PRESSED =
  /\b(?:squeez(?:e|ed|ing)|press(?:ed|ing)?|push(?:ed|ing)?|lean(?:ed|ing)?|flex(?:ed|ing)?|wiggl(?:e|ed|ing)|wobbl(?:e|ed|ing)|rock(?:ed|ing)?|tapp?(?:ed|ing)?|finger on|thumb on)\b/i;
/** It does something that it did not do before. */
const WORKS =
  /\b(?:jumps?|works?|lights?|fires?|starts?|answers?|pass(?:es|ed)?|comes?|came|plays?|runs?|ran|is there|appears?|changes?|flickers?|all (?:there|well|right))\b/i;

/** What changes when a chip is pressed into its socket. */
function pressed(text: string, next: string, refs: readonly string[]): Said[] {
  const [ref, second] = refs.filter((one) => /^(?:U|IC|J|P|CN)\d/.test(one));
  if (!PRESSED.test(text) || !ref || second) return [];
  const isTold = [WORKS, CLEARED, STAYED, NOTHING].some((words) => words.test(text));
  // "Leaned on U3: finger on, it passes" may be told in two sentences.
  const words = isTold ? text : next;
  if (!(WORKS.test(words) || CLEARED.test(words)) || STAYED.test(words) || NOTHING.test(words)) return [];
  const of = `${ref} under the finger`;
  return [
    {
      key: `prose force ${ref}`.toUpperCase(),
      what: of,
      refs: [ref.toUpperCase()],
      finding: {
        kind: "sign",
        sign: "force-reacts",
        refs: [ref],
        of,
        says: `It reacts to ${ref} being pressed.`,
      },
    },
  ];
}

const NOTHING = /\b(?:nothing|no (?:better|effect|reaction)|never|not|n't|does nothing)\b/i;

/** What gets hot and should not: regulators, transistors and resistors do so in their work, or for another's fault. */
function hot(text: string, refs: readonly string[]): Said[] {
  if (!HOT.test(text) || COLD.test(text)) return [];
  const [ref, second] = refs.filter((one) => /^(?:U|IC|C)\d/.test(one));
  if (!ref || second) return [];
  return [
    {
      key: `hot ${ref}`.toUpperCase(),
      what: `the heat of ${ref}`,
      refs: [ref.toUpperCase()],
      finding: { kind: "sign", sign: "hot", refs: [ref], of: `the heat of ${ref}`, says: `${ref} gets hot.` },
    },
  ];
}

const seen = (ref: string, says: string, of: string): Said => ({
  key: `prose ${ref} ${of}`.toUpperCase(),
  what: `${ref}'s ${of}`,
  look: true,
  refs: [ref.toUpperCase()],
  finding: {
    kind: "part",
    ref,
    verdict: "out-of-limits",
    of: `${ref}'s ${of}`,
    says,
  } satisfies DiagnosisFinding,
});

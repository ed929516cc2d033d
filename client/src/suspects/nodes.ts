// The rows of the view, out of the server's answer: plain values, so that they can be tested without an editor.
import { defined } from "../../../server/src/base/defined";
import type {
  PlacedText,
  PlaceInFile,
  ReadingItem,
  ShareWords,
  SuspectItem,
  Suspects,
} from "../../../server/src/protocol/custom-requests/suspects";

export interface SuspectNode {
  /** The same for the same thing in the next answer, so that what is unfolded stays so. */
  readonly id: string;
  readonly label: string;
  readonly description?: string;
  readonly tooltip?: string;
  /** Name of one of the editor's icons. */
  readonly icon: string;
  /** What a screen reader says, where label and description alone would not tell. */
  readonly spoken?: string;
  readonly place?: PlaceInFile;
  readonly children: readonly SuspectNode[];
  readonly unfolded?: boolean;
}

/** What the view itself says, in the editor's language. */
export interface SuspectsWords {
  /** Behind the action that comes next. */
  readonly nextOne: (minutes: string) => string;
  readonly boardFile: (name: string) => string;
  readonly minutes: (minutes: number) => string;
  readonly or: (action: string) => string;
  readonly suspect: (name: string, share: ShareWords) => string;
  readonly spokenSuspect: (name: string, share: ShareWords, title: string) => string;
  readonly spokenCaution: (text: string) => string;
  /** A place that the row leads to, its line from 1. */
  readonly spokenPlace: (text: string, line: number) => string;
  readonly speaksFor: (count: number) => string;
  readonly speaksAgainst: (count: number) => string;
  readonly beforehand: (count: number) => string;
  readonly notRead: (count: number) => string;
  readonly unproven: (count: number, all: number) => string;
  readonly failed: string;
  readonly noReading: string;
  readonly limits: string;
}

/** The rows from the top: what to read next, the suspects, what is still to be proven, how far all this goes. */
export function nodesOf(answer: Suspects, words: SuspectsWords): readonly SuspectNode[] {
  const { suspects, next, others, unproven, toProve, notes, nothing } = answer;
  if (nothing !== undefined) return [];
  return [
    ...(suspects.length === 0 ? [] : [next ? nextNode(next, others, words) : noNext(words)]),
    ...suspects.map((suspect) => suspectNode(suspect, words)),
    ...(unproven.length === 0 ? [] : [unprovenNode(unproven, toProve, words)]),
    ...(notes.length === 0 ? [] : [group("notes", words.limits, "info", texts("notes", notes, "dash"))]),
  ];
}

function nextNode(next: ReadingItem, others: readonly ReadingItem[], words: SuspectsWords): SuspectNode {
  const { action, why, minutes, cautions, place } = next;
  return defined({
    id: "next",
    // The action first: in a narrow view the end is cut off.
    label: action,
    description: words.nextOne(words.minutes(minutes)),
    tooltip: [...cautions, action, why].join("\n\n"),
    icon: "target",
    spoken: `${action}, ${words.nextOne(words.minutes(minutes))}. ${cautions.join(" ")}`.trim(),
    place,
    unfolded: true,
    children: [
      ...texts("next caution", cautions, "warning").map((node) => ({
        ...node,
        spoken: words.spokenCaution(node.label),
      })),
      leaf("next why", why, "question"),
      ...others.map((other, i) => ({
        ...leaf(`next other ${i}`, words.or(other.action), "dash", other.place),
        description: words.minutes(other.minutes),
        spoken:
          `${words.or(other.action)}, ${words.minutes(other.minutes)}. ${other.cautions.join(" ")}`.trim(),
        tooltip: [...other.cautions, other.why].join("\n\n"),
      })),
    ],
  });
}

const noNext = ({ noReading }: SuspectsWords): SuspectNode => leaf("next", noReading, "target");

function suspectNode({ name, title, share, place, ...told }: SuspectItem, words: SuspectsWords): SuspectNode {
  const id = `suspect ${name}`;
  const groups: SuspectNode[] = [
    {
      ...group(`${id} for`, words.speaksFor(told.for.length), "add", placed(`${id} for`, told.for, words)),
      unfolded: true,
    },
    group(
      `${id} against`,
      words.speaksAgainst(told.against.length),
      "remove",
      texts(`${id} against`, told.against),
    ),
    group(
      `${id} before`,
      words.beforehand(told.before.length),
      "history",
      texts(`${id} before`, told.before),
    ),
    group(
      `${id} open`,
      words.notRead(told.notTaken.length),
      "circle-large-outline",
      placed(`${id} open`, told.notTaken, words),
    ),
  ].filter(({ children }) => children.length > 0);
  return defined({
    id,
    // The share first: in a narrow view the end of a long name is cut off.
    label: words.suspect(name, share),
    description: title,
    tooltip: title === undefined ? name : `${name}: ${title}`,
    icon: "circuit-board",
    spoken: words.spokenSuspect(name, share, title ?? ""),
    children: place ? [...groups, leaf(`${id} board`, words.boardFile(name), "go-to-file", place)] : groups,
  });
}

const unprovenNode = (unproven: Suspects["unproven"], toProve: number, words: SuspectsWords): SuspectNode =>
  group(
    "unproven",
    words.unproven(unproven.length, toProve),
    "checklist",
    unproven.map(({ title, wants, failed }, i) => ({
      ...leaf(`unproven ${i} ${title}`, title, failed ? "error" : "circle-large-outline"),
      description: failed ? `${words.failed}${wants ? `. ${wants}` : ""}` : wants,
      tooltip: [title, wants].filter(Boolean).join(": "),
    })),
  );

const leaf = (id: string, label: string, icon: string, place?: PlaceInFile): SuspectNode =>
  defined({
    id,
    label,
    icon,
    tooltip: label,
    place,
    children: [],
  });

const group = (id: string, label: string, icon: string, children: readonly SuspectNode[]): SuspectNode => ({
  id,
  label,
  icon,
  children,
});

const texts = (id: string, all: readonly string[], icon = "dash"): SuspectNode[] =>
  all.map((text, i) => leaf(`${id} ${i} ${text}`, text, icon));

const placed = (id: string, all: readonly PlacedText[], words: SuspectsWords): SuspectNode[] =>
  all.map(({ text, place }, i) => ({
    ...leaf(`${id} ${i} ${text}`, text, place ? "go-to-file" : "dash", place),
    ...(place ? { spoken: words.spokenPlace(text, place.line + 1) } : {}),
  }));

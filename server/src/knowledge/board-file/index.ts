// Writing board files from data: a whole file from a draft, a draft into a file that is there, or one change at a time.
// Every answer is edits of the text given, so that an editor undoes it in one step and whatever a person typed stays.
import type { TextEdit } from "../../text/edits";
import { span } from "../../text/span";
import { schemaLine } from "../schema-line";
import { type BoardChange, type BoardEdit, changesOf, type KeptEntry, type NotEdited } from "./change";
import type {
  BoardDraft,
  DraftCircuit,
  DraftExpected,
  DraftMatrix,
  DraftNet,
  DraftPart,
  DraftRail,
  DraftSymptom,
} from "./draft";
import { editBoard } from "./edit";
import { pairText } from "./render";

export type {
  Added,
  BoardChange,
  BoardEdit,
  BoardEdited,
  BoardPlace,
  BoardSection,
  KeptEntry,
  LeftOut,
  NotEdited,
} from "./change";
export { changesOf } from "./change";
export * from "./draft";

/** Makes the changes in the text of a board file; see `BoardEdit`. Never throws, whatever the text. */
export { editBoard } from "./edit";

/**
 * A board file of its own. It loads with no problem whatever the draft: an entry that no board file can hold stands
 * in it as a comment with the reason. An id that is none is made one.
 */
export function writeBoardFile(draft: BoardDraft): string {
  const head = headOf(draft);
  const made = editBoard(head, changesOf(draft), { tellLeftOut: true });
  return made.ok ? made.text : head;
}

function headOf(draft: BoardDraft): string {
  const id = idOf(draft.id ?? draft.title ?? "");
  const title = draft.title?.trim() ? draft.title : id;
  return `${schemaLine("board")}mendlog-board: 1\n${pairText("id", id)}\n${pairText("title", title)}\n`;
}

/** Letters that are no other letter with a mark, as people write them where they have none of them. */
const LETTERS: Readonly<Record<string, string>> = {
  ß: "ss",
  ẞ: "ss",
  æ: "ae",
  Æ: "ae",
  œ: "oe",
  Œ: "oe",
  ø: "o",
  Ø: "o",
  ł: "l",
  Ł: "l",
  đ: "d",
  Đ: "d",
  ð: "d",
  Ð: "d",
  þ: "th",
  Þ: "th",
  ı: "i",
};

/** The word as a board's id: what may not stand in one becomes a hyphen. */
export function idOf(word: string): string {
  if (/^(?!constructor$|prototype$)[A-Za-z0-9][A-Za-z0-9._-]*$/.test(word)) return word;
  const id = word
    .replace(/[\u0080-\uffff]/g, (letter) => LETTERS[letter] ?? letter)
    .normalize("NFKD")
    .replace(/\p{M}+/gu, "")
    .toLowerCase()
    .replace(/[^a-z0-9._]+/g, "-")
    .replace(/^[-._]+|-+$/g, "");
  return id === "" || id === "constructor" || id === "prototype" ? "board" : id;
}

/** Adds to a board file what of the draft is not there; a file with nothing but comments in it becomes the draft's. */
export function mergeIntoBoardFile(text: string, draft: BoardDraft): BoardEdit {
  const empty = /^\uFEFF?(?:[ \t]*(?:#.*)?(?:\r?\n|$))*$/.test(text);
  if (!empty || draft.id === undefined) return editBoard(text, changesOf(draft));
  const made = editBoard(headOf(draft), changesOf(draft), { tellLeftOut: true });
  if (!made.ok) return made;
  const eol = text.includes("\r\n") ? "\r\n" : "\n";
  const whole = (/[^\n\uFEFF]$/.test(text) ? eol : "") + made.text.replaceAll("\n", eol);
  return {
    ...made,
    edits: [{ span: span(text.length, text.length), newText: whole }],
    text: text + whole,
  };
}

/** Edits of the text given, none where it is there already; or why it cannot be done. */
export type Changed = { readonly ok: true; readonly edits: readonly TextEdit[] } | NotEdited;

/**
 * One change. What is there otherwise already is a reason, unless something of the change could be added: then what
 * was typed stays, and the rest is added.
 */
export function changeBoard(text: string, change: BoardChange): Changed {
  const made = editBoard(text, [change]);
  if (!made.ok) return made;
  const { edits, kept, leftOut } = made;
  const [left] = leftOut;
  if (left) return { ok: false, reason: left.reason };
  const [other] = kept;
  if (other && edits.length === 0) return { ok: false, reason: keptReason(other) };
  return { ok: true, edits };
}

/** Why an entry was left as it stands, as a sentence. */
export function keptReason({ section, key, differs: [first] }: KeptEntry): string {
  if (section === "nets" && first && first.draft === key) {
    return `Pin \`${first.field}\` is on net \`${first.file}\` in the board file, and a pin is on one net only. If it is on \`${key}\`, take it off the other first.`;
  }
  const said = first
    ? `: ${first.field ? `${first.field} ` : ""}\`${first.file}\`, not \`${first.draft}\``
    : "";
  return `\`${key}\` is different in the board file${said}. If the file is wrong, change it there.`;
}

export const addPart = (text: string, entry: DraftPart): Changed =>
  changeBoard(text, { kind: "part", entry });
export const addRail = (text: string, entry: DraftRail): Changed =>
  changeBoard(text, { kind: "rail", entry });
/** A new net, or the pins that the net of this name lacks. */
export const addNet = (text: string, entry: DraftNet): Changed => changeBoard(text, { kind: "net", entry });
export const addMatrix = (text: string, entry: DraftMatrix): Changed =>
  changeBoard(text, { kind: "matrix", entry });
export const addSymptom = (text: string, entry: DraftSymptom): Changed =>
  changeBoard(text, { kind: "symptom", entry });
/** A section of the board by its id and title; what the file says of that id already stays, as in `changeBoard`. */
export const addCircuit = (text: string, entry: DraftCircuit): Changed =>
  changeBoard(text, { kind: "circuit", entry });
export const addGround = (text: string, name: string): Changed => changeBoard(text, { kind: "ground", name });
/** Appends, or replaces the limits and the source of the entry for the same procedure and place. */
export const addExpected = (text: string, entry: DraftExpected): Changed =>
  changeBoard(text, { kind: "expected", entry, replace: true });
/** Of a part that is there. */
export const setDevice = (text: string, ref: string, device: string): Changed =>
  changeBoard(text, { kind: "device", ref, device });
/** Of a part that is there: one more part number that may be fitted. */
export const addFits = (text: string, ref: string, part: string): Changed =>
  changeBoard(text, { kind: "fits", ref, part });

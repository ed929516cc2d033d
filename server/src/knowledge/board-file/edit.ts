import { defined } from "../../base/defined";
import { parseYaml } from "../../syntax/yaml";
import { applyEdits, type TextEdit } from "../../text/edits";
import type { Added, BoardChange, BoardEdit, BoardSection, LeftOut } from "./change";
import { emitNotes, emitPatch, emitSection, remarksIn } from "./emit";
import { type BoardEntry, isList, SECTIONS } from "./entry";
import type { Item } from "./insert";
import { type BoardText, lineNumberOf, listedKey, openBoard, sectionFault } from "./open";
import { planChanges } from "./plan";
import { commentText, entryText, scalarText, wrapList } from "./render";
import { settle } from "./settle";

/**
 * Makes the changes in a board file's text. All of them are held against the text given and against each other; what
 * is there stays as it is typed. With `tellLeftOut`, what no board file can hold is written as a comment with the
 * reason, so that a new file loses nothing of its draft.
 */
export function editBoard(
  text: string,
  changes: readonly BoardChange[],
  { tellLeftOut = false }: { readonly tellLeftOut?: boolean } = {},
): BoardEdit {
  const file = openBoard(text);
  if ("ok" in file) return file;
  const plan = planChanges(file, changes);
  const { bare, left } = settle(file, plan);
  const leftOut: LeftOut[] = [
    ...plan.leftOut,
    ...[...left].map(([{ section, key }, reason]) => ({ section, key, reason })),
  ];
  const fresh = [...plan.fresh.filter((entry) => !left.has(entry)), ...bare].filter(notGuessedAlready(file));
  for (const { section } of [...fresh, ...plan.patches]) {
    const reason = sectionFault(file, section);
    if (reason !== undefined) return { ok: false, reason };
  }
  const put: TextEdit[] = [];
  const added: Added[] = [];
  const notes: { at: number; text: string }[] = [];
  for (const patch of plan.patches) {
    const { section, key, set, append } = patch;
    const made = emitPatch(file, patch);
    if (!made) {
      leftOut.push({
        section,
        key,
        reason: `\`${key}\` is written in a way that cannot be added to. Change it by hand.`,
      });
      continue;
    }
    put.push(...made.edits);
    if (made.note) notes.push(made.note);
    added.push({
      section,
      key,
      to: [...set.keys(), ...[...append].flatMap(([field, more]) => (field ? [field] : more))],
    });
  }
  for (const section of SECTIONS) {
    const own = fresh.filter((entry) => entry.section === section);
    const told = tellLeftOut ? [...left].filter(([entry]) => entry.section === section) : [];
    const items = [...own.map(itemOf), ...told.map(([entry, reason]) => leftItem(entry, reason))];
    if (items.length === 0) continue;
    put.push(...emitSection(file, section, items));
    added.push(...own.map(({ key, guess }) => defined<Added>({ section, key, guess })));
  }
  // At the end of a line its own comma comes first, then its comment, then the lines below it.
  const below = ({ newText }: TextEdit): boolean => /^\r?\n/.test(newText);
  const edits = [...put.filter((edit) => !below(edit)), ...emitNotes(file, notes), ...put.filter(below)];
  const after = applyEdits(text, edits);
  // Whatever odd way of writing this did not know: a file that loads must not come to be one that does not.
  const broken =
    edits.length > 0 && parseYaml(after).problems.find(({ code }) => code !== "yaml-duplicate-key");
  if (broken) {
    return {
      ok: false,
      reason: `The board file is written in a way that cannot be added to, so nothing was written. Add by hand what is wanted near line ${lineNumberOf(after, broken.span.start)}.`,
    };
  }
  return { ok: true, edits, text: after, added, kept: plan.kept, leftOut };
}

const itemOf = (entry: BoardEntry): Item => {
  const from = commentText(entry.from);
  const comment = entry.guess ? `guess${from === undefined ? "" : `: ${from}`}` : from;
  const rows = isList(entry.value)
    ? { rows: { key: scalarText(entry.key), lines: wrapList(entry.value) } }
    : {};
  return defined({ body: entryText(entry), off: entry.guess ? true : undefined, ...rows, comment });
};

const leftItem = (entry: BoardEntry, reason: string): Item => ({
  body: entryText(entry),
  off: true,
  comment: commentText(`left out: ${reason}${entry.from === undefined ? "" : ` (${entry.from})`}`),
});

/** False of guesses that stand in the file as comments: written before, and not yet taken or thrown away. */
function notGuessedAlready(file: BoardText): (entry: BoardEntry) => boolean {
  const guesses = new Map<BoardSection, ReadonlySet<string>>();
  return ({ section, key, guess }) => {
    if (!guess) return true;
    const known = guesses.get(section) ?? new Set(remarksIn(file, section).flatMap(guessedKeys));
    guesses.set(section, known);
    return !known.has(key);
  };
}

/** Keys of what a comment would be without its sign. */
function guessedKeys(remark: string): string[] {
  if (!/[}\]]/.test(remark)) return [];
  const { root } = parseYaml(remark);
  if (root?.kind === "map") {
    return root.entries.filter(({ value }) => value.kind !== "scalar").map(({ key }) => key);
  }
  return root?.kind === "list" && !root.flow ? root.items.flatMap((item) => listedKey(item) ?? []) : [];
}

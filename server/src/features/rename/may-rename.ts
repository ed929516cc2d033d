// Whether a thing can be given another name, and whether that name will do; a refusal says why and what to do.
import { hasBoardFile } from "../../judge/context";
import { parseYaml } from "../../syntax/yaml";
import { lineIndex } from "../../text/line-index";
import type { KnowledgeFile } from "../shared/knowledge-file";
import {
  type Entity,
  entityKey,
  isLoose,
  knowledgeMentions,
  logMentions,
  namesOfBoard,
  type RenameTarget,
  sameThing,
  standsOut,
  type ThingKind,
} from "../shared/mentions";
import type { LogView } from "../view";

/** In the words of a refusal. */
const KINDS: Readonly<Partial<Record<ThingKind, string>>> = {
  parts: "designator",
  nets: "net",
  circuits: "circuit",
  matrices: "matrix",
  symptoms: "symptom",
  revisions: "revision",
  "rom-sets": "ROM set",
  modifications: "modification",
  board: "board id",
  meter: "meter",
};

/** Why things of a kind cannot be renamed. */
const REFUSED: Readonly<Partial<Record<ThingKind, string>>> = {
  rails: "Logs write a rail in many ways (+5, 5V, 5 volts), so it cannot be renamed for you.",
  device: "A part number is what is printed on the part; change it in its place.",
  procedure: "Headings of logs name a procedure by its title, so its id cannot be renamed for you.",
  job: "A job number is its customer's too; change it in its place.",
};

/** Why something cannot be renamed, as a sentence; undefined where it can be. */
export function renameRefusal(
  subject: RenameTarget | undefined,
  files: readonly KnowledgeFile[],
): string | undefined {
  if (!subject) {
    return "There is nothing here that can be renamed: put the cursor on a designator, a net, a symptom or a board id.";
  }
  const { thing } = subject;
  const refused = REFUSED[thing.kind];
  if (refused !== undefined) return refused;
  for (const file of files) {
    const [problem] = file.tree.problems;
    if (!problem) continue;
    const line = lineIndex(file.text).lineAt(problem.span.start) + 1;
    return `${nameOf(file.uri)} cannot be read to its end (line ${line}): correct it first, or places in it would be missed.`;
  }
  return undefined;
}

/** The board files in which the thing may be named: what has to be readable before it is renamed. */
export const filesOf = (
  { thing, board, only }: RenameTarget,
  files: readonly KnowledgeFile[],
): KnowledgeFile[] =>
  files.filter((file) => {
    if (only !== undefined) return file.uri === only;
    if (thing.kind === "meter") return file.kind === "shop";
    if (file.kind !== "board") return false;
    if (thing.kind === "board") return knowledgeMentions(file).some((it) => sameThing(it.thing, thing));
    const known = board === undefined ? undefined : file.knowledge.boards.get(board);
    // A board that is not known may be in any file that cannot be read.
    return known ? known.uri === file.uri : file.tree.problems.length > 0;
  });

/**
 * Why the thing cannot have this name; undefined where it can.
 * @param view the log it is asked in: without a board file its own words tell which names are taken
 */
export function nameRefusal(
  { thing, board }: RenameTarget,
  newName: string,
  files: readonly KnowledgeFile[],
  view?: LogView,
): string | undefined {
  const kind = KINDS[thing.kind] ?? "name";
  const next: Entity = { kind: thing.kind, name: newName };
  const wrong = thing.kind === "parts" ? wrongDesignator(newName, files) : wrongName(thing.kind, newName);
  if (wrong !== undefined) return wrong;
  if (sameThing(thing, next)) return undefined;
  const taken = files
    .flatMap((file) => knowledgeMentions(file))
    .some((it) => it.declares && sameThing(it.thing, next));
  if (!taken && !(view && isNamed(view, next))) return undefined;
  return thing.kind === "parts"
    ? `${newName} is another part of ${board ?? "this board"} already: take a designator that is free.`
    : `There is a ${kind} ${newName} already: take a name that is free.`;
}

/** Known of the board by logs alone, or named in this one where a name is meant. */
function isNamed(view: LogView, next: Entity): boolean {
  const { ctx } = view;
  if (hasBoardFile(ctx)) return false;
  if (ctx.board && namesOfBoard(ctx.board.value).has(next)) return true;
  return logMentions(view).some((it) => !isLoose(it) && sameThing(it.thing, next));
}

/** Row and column of a board that is numbered like a map. */
const GRID_PLACE = /^\d{1,2}[A-Za-z]\d?$/;

function wrongDesignator(name: string, files: readonly KnowledgeFile[]): string | undefined {
  const form = "A designator is letters and a number as printed on the board, like U14.";
  if (!/^[A-Za-z][A-Za-z0-9_-]*$/.test(name) && !GRID_PLACE.test(name))
    return `"${name}" is no designator. ${form}`;
  if (
    !standsOut({ kind: "parts", name }) ||
    /^(?:true|false|null|yes|off|constructor|prototype)$/i.test(name)
  )
    return `"${name}" would look like an everyday word in a log. ${form}`;
  const device = files[0]?.knowledge.library.device(name);
  if (device) return `${name} is a part number (${device.device.title}). ${form}`;
  const [, ref] = /^(.+?)-[A-Za-z0-9]+$/.exec(name) ?? [];
  const other =
    ref &&
    files
      .flatMap((file) => knowledgeMentions(file))
      .find((it) => it.declares && it.thing.kind === "parts" && entityKey(it.thing) === ref.toUpperCase());
  return other ? `"${name}" would be read as a pin of ${other.thing.name}. ${form}` : undefined;
}

function wrongName(kind: ThingKind, name: string): string | undefined {
  if (name.trim() !== name || name === "") return "A name is not empty and has no blank at its ends.";
  if (kind === "nets" || kind === "revisions") {
    // What a table, a list or a quoted text would have to escape would not be found again as it was typed.
    return /["'\\|`\r\n{}[\],#]|: /.test(name)
      ? `"${name}" has a character in it that board files or tables read as something else; use letters, digits and + - _ / ~.`
      : undefined;
  }
  return /^(?!constructor$|prototype$)[A-Za-z0-9][A-Za-z0-9._-]*$/.test(name)
    ? undefined
    : `"${name}" is no id: letters, digits, dots and hyphens, a letter or digit first, like blank-display.`;
}

/** True where YAML reads these characters, without quotes, as this very text. */
export function isPlain(name: string): boolean {
  const node = parseYaml(`[${name}]`).root;
  const [only, ...more] = node?.kind === "list" ? node.items : [];
  return more.length === 0 && only?.kind === "scalar" && only.value === name;
}

const nameOf = (uri: string): string => decodeURIComponent(uri.slice(uri.lastIndexOf("/") + 1));

// The stories of faults as they lie in tests/stories/cases: a log, and beside it what was really wrong.
import { readdirSync, readFileSync } from "node:fs";
import { basename, join } from "node:path";
import { parse } from "yaml";

export const SPLITS = ["train", "held", "fresh", "unseen", "blind", "kept", "sealed", "unread"] as const;
export type Split = (typeof SPLITS)[number];
export const CLASSES = ["single", "two", "mistake", "near-miss", "setting"] as const;
export type StoryClass = (typeof CLASSES)[number];

export interface Cause {
  readonly fault: string;
  /** Where it is on the board, if it is on the board. */
  readonly part?: string;
  readonly pin?: string;
  /** Names of suspects that are right: see README.md. */
  readonly accept: readonly string[];
}

export interface Answer {
  readonly title: string;
  readonly class: StoryClass;
  readonly split: Split;
  readonly causes: readonly Cause[];
  readonly next: { readonly sensible: readonly string[]; readonly silly: readonly string[] };
  readonly note: string;
}

export interface Story {
  readonly name: string;
  readonly log: string;
  readonly board: string;
  readonly answer: Answer;
}

export interface BoardFile {
  readonly id: string;
  readonly parts: Readonly<Record<string, unknown>>;
  readonly nets: Readonly<Record<string, readonly string[]>>;
  readonly rails: Readonly<Record<string, { readonly net?: string }>>;
  readonly matrices?: Readonly<
    Record<string, { readonly kind: string; readonly cells?: (string | null)[][] }>
  >;
}

/** Board files by their path in the stories' workspace. */
export function boardTexts(root: string): Record<string, string> {
  const found: Record<string, string> = {};
  for (const folder of ["demo/boards", "tests/stories/boards"]) {
    for (const name of readdirSync(join(root, folder)).sort())
      found[`boards/${name}`] = readFileSync(join(root, folder, name), "utf8");
  }
  return found;
}

/** All that a story is judged by: the boards, and the shop with its meters. */
export const knowledge = (root: string): Record<string, string> => ({
  "mendlog.shop.yaml": readFileSync(join(root, "demo/mendlog.shop.yaml"), "utf8"),
  ...boardTexts(root),
});

/** Board files by their id. */
export function boards(root: string): Map<string, BoardFile> {
  return new Map(
    Object.values(boardTexts(root)).map((text) => {
      const board: BoardFile = parse(text);
      return [board.id, board];
    }),
  );
}

/** All stories, by name. Throws where a log has no answer or an answer no log. */
export function stories(root: string): Story[] {
  const folder = join(root, "tests/stories/cases");
  const names = readdirSync(folder);
  const logs = names.filter((name) => name.endsWith(".md")).sort();
  for (const name of names) {
    const log = name.replace(/\.answer\.yaml$/, ".md");
    if (!logs.includes(log)) throw new Error(`tests/stories/cases/${name} has no log beside it`);
  }
  return logs.map((file) => {
    const log = readFileSync(join(folder, file), "utf8");
    const name = basename(file, ".md");
    const answer: Answer = parse(readFileSync(join(folder, `${name}.answer.yaml`), "utf8"));
    return { name, log, board: /^board: (.+)$/m.exec(log)?.[1] ?? "", answer };
  });
}

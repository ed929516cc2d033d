// A page of docs/ as its tests read it: headings, and fenced blocks with what stands before them.
import { readFileSync } from "node:fs";

export interface Shown {
  /** What stands alone in backticks on the line above: a path, or what is asked. Empty where nothing does. */
  readonly name: string;
  readonly language: string;
  readonly text: string;
  /** Line of the page where the text begins, from 1. */
  readonly line: number;
}

export interface PageSection {
  readonly heading: string;
  readonly blocks: readonly Shown[];
}

export const readPage = (name: string): string =>
  readFileSync(new URL(`../../docs/${name}`, import.meta.url), "utf8");

const BLOCK = /(?:^`([^`\n]+)`\n\n)?^```(\w*)\n([\s\S]*?)^```$/gm;

/** The page's sections of the second level and below, each with its own blocks, in order. */
export function sectionsOf(page: string): PageSection[] {
  const blocks = [...page.matchAll(BLOCK)].map(
    ({ 0: all, 1: name = "", 2: language = "", 3: text = "", index }) => ({
      name,
      language,
      text,
      index,
      line: lineAt(page, index + all.length - text.length),
    }),
  );
  const within = (at: number) =>
    blocks.some((b) => at > b.index && lineAt(page, at) < b.line + lines(b.text));
  const starts = [...page.matchAll(/^##+ (.+)$/gm)].filter(({ index }) => !within(index));
  return starts.map(({ 1: heading = "", index }, at) => {
    const end = starts[at + 1]?.index ?? page.length;
    return { heading, blocks: blocks.filter((block) => block.index > index && block.index < end) };
  });
}

const lines = (text: string): number => text.split("\n").length - 1;
const lineAt = (text: string, offset: number): number => lines(text.slice(0, offset)) + 1;

import type { ProvingLine } from "./model";

/** A shape and a word: neither needs a colour to be told apart. */
export const STATES: Readonly<Record<ProvingLine["state"], string>> = {
  proven: "\u2713 proven",
  failed: "\u2717 failed",
  unproven: "\u25cb unproven",
  recorded: "\u2022 recorded",
};

/** More statements of one kind than this are counted: a dead line of a matrix speaks at every crossing. */
const TOLD = 4;

/** Statements one after another, as many as an owner reads. */
export const fewStatements = (texts: readonly string[]): string =>
  texts.length <= TOLD + 1
    ? texts.join("; ")
    : `${texts.slice(0, TOLD).join("; ")}; and ${texts.length - TOLD} more like these`;

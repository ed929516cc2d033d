import type { ProvingLine } from "./model";

/** A shape and a word: neither needs a colour to be told apart. */
export const STATES: Readonly<Record<ProvingLine["state"], string>> = {
  proven: "\u2713 proven",
  failed: "\u2717 failed",
  unproven: "\u25cb unproven",
  recorded: "\u2022 recorded",
};

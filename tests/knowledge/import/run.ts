import {
  type ImportRequest,
  type ImportResult,
  type ImportStep,
  importBoard,
} from "../../../server/src/knowledge/import";
import type { ImportedBoard, Importing } from "../../../server/src/knowledge/import/imported";
import { recognise } from "../../../server/src/knowledge/import/read";
import { builtinLibrary } from "../../../server/src/knowledge/library";

/** All steps at once, and how many there were. */
export function run<R>(steps: Importing<R>): { readonly value: R; readonly steps: readonly ImportStep[] } {
  const taken: ImportStep[] = [];
  for (;;) {
    const step = steps.next();
    if (step.done) return { value: step.value, steps: taken };
    taken.push(step.value);
  }
}

/** The board in a text whose format is told by the text. */
export function read(text: string): ImportedBoard {
  const found = recognise(text);
  if (!found.ok) throw new Error(found.reason);
  return run(found.read(text)).value;
}

/** Pins by net: `{ GND: ["U1.7"] }`. */
export const netsOf = (board: ImportedBoard): Record<string, string[]> =>
  Object.fromEntries(board.nets.map(({ name, pins }) => [name, pins.map(({ ref, pin }) => `${ref}.${pin}`)]));

/** "12 lost: ..." for each problem. */
export const problemsOf = ({ problems }: ImportedBoard): string[] =>
  problems.map(({ line, kind, message }) => `${line ?? "-"} ${kind}: ${message}`);

export const imported = (
  texts: Readonly<Record<string, string>>,
  more: Partial<ImportRequest> = {},
): ImportResult =>
  run(
    importBoard({
      files: Object.entries(texts).map(([name, text]) => ({ name, text })),
      library: builtinLibrary(),
      ...more,
    }),
  ).value;

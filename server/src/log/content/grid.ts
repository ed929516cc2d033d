// The grid of a matrix as its cells tell it: lines down, lines across, and at their crossings what each did.
import { isResult, MOSTLY } from "./look";
import type { TableContent } from "./table-content";

/** Marks that tell works from does not by standing beside each other. */
const MARK = /^(?:[xX+oO\u2022\u25cf\u25cb.#*]|1|0|ok|on|off|yes|no|y|n)$/;

/** Two columns of results or marks at least, beside a column of lines. */
export function isGrid({ look, ref, pin }: TableContent): boolean {
  const [first, ...others] = look.columns;
  if (!first || ref || pin || others.length < 2) return false;
  const filled = others.filter(({ texts }) => texts.length > 0);
  return (
    filled.length >= 2 &&
    first.texts.length >= 2 &&
    filled.every((column) => column.share((text) => isResult(text) || MARK.test(text)) >= MOSTLY)
  );
}

/** "3,8", "r3 c8": a crossing by its lines; "2,3 + 2,5": several at once. */
const CROSSING =
  /^(?:(?:r(?:ow)?\s*)?\d{1,2}\s*[,/x.]\s*(?:c(?:ol(?:umn)?)?\s*)?\d{1,2}(?:\s*[+&]\s*\d{1,2}\s*[,/x]\s*\d{1,2})*|r(?:ow)?\s*\d{1,2}\s*c(?:ol(?:umn)?)?\s*\d{1,2})$/i;

/** A column of crossings with results beside it. */
export const isListOfCrossings = ({ look, results }: TableContent): boolean => {
  const [first] = look.columns;
  return (
    first !== undefined &&
    first.texts.length >= 2 &&
    first.share((text) => CROSSING.test(text)) >= MOSTLY &&
    results.some((column) => column !== first)
  );
};

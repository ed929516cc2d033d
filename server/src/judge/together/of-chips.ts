// What the chips of one table have in common, and what each has by itself.

import { defined } from "../../base/defined";
import { CLEAR_MARGIN, explanationsOf } from "../../compute/together/explain";
import type { Cause, CauseExplanation } from "../../compute/together/types";
import type { LogTable } from "../../log/model";
import type { LogContext } from "../context";
import { comparedAs } from "../nets/block-nets";
import type { Judgement } from "../types";
import { dropsOf } from "./drops";
import { type Explaining, explainedChips } from "./explained";
import { asGood, keyOf, partOf } from "./part";
import type { ChipInTable } from "./rows";
import type { PartOfCause, TableCause } from "./types";

export function chipCauses(
  table: LogTable,
  verdicts: () => (number: number) => Judgement | undefined,
  ctx: LogContext,
): TableCause[] {
  const as = comparedAs(table);
  if (!as) return [];
  const chips = explainedChips(table, ctx, dropsOf(as.measure), explanationsOf);
  const told = chips.filter(({ causes }) => causes.length > 0);
  if (told.length === 0) return [];
  const common = commonCause(chips);
  const groups = new Map<string, { cause: Cause; margin: number; parts: PartOfCause[]; or?: Cause }>();
  for (const { chip, causes } of told) {
    const best = common
      ? causes.find(({ cause }) => sameKind(cause, common))
      : causes.find(standsAlone(chip));
    // Of a header no pin is told of by itself.
    const told = best && (chip.inLine ? best.explains : best.fitting.filter(isReported(chip, verdicts())));
    const part = told && partOf(chip, best, told, table);
    if (!best || !part || part.explained.length === 0) continue;
    const key = best.cause.kind === "dead" ? `dead ${chip.ref}` : keyOf(best.cause);
    const group = groups.get(key);
    if (group) {
      group.margin += best.margin;
      group.parts.push(part);
    } else {
      const or = common ? undefined : asGood(best, causes);
      groups.set(key, defined({ cause: best.cause, margin: best.margin, parts: [part], or }));
    }
  }
  return [...groups.values()].map((group) => ({ ...group, table, clear: group.margin >= CLEAR_MARGIN }));
}

/** Causes that are of the meter and its leads, and so of all chips that were read with them. */
const isOfTable = ({ kind }: Cause): boolean => kind === "open" || kind === "swapped" || kind === "offset";

const sameKind = (a: Cause, b: Cause): boolean =>
  a.kind === b.kind &&
  (a.kind !== "swapped" || (b.kind === "swapped" && a.shows === b.shows)) &&
  (a.kind !== "offset" || (b.kind === "offset" && a.flat === b.flat));

/** That nothing conducts is told of a single chip only where its ground or its supply was read. */
const standsAlone =
  ({ rows, windowOf }: ChipInTable) =>
  ({ cause }: CauseExplanation): boolean =>
    cause.kind !== "open" ||
    rows.some(({ pin, value }) => {
      const is = windowOf(pin)?.is;
      return value !== undefined && (is === "ground" || is === "supply");
    });

/** One that goes for all chips of a table, where it fits them as well as each its own does. */
function commonCause(chips: readonly Explaining[]): Cause | undefined {
  const read = chips.filter(({ chip }) => chip.rows.some(({ value }) => value !== undefined));
  const [first] = read;
  if (!first || read.length < 2 || read.some(({ causes }) => causes.length === 0)) return undefined;
  const own = read.reduce((sum, { causes }) => sum + (causes[0]?.margin ?? 0), 0);
  for (const { cause } of first.causes) {
    if (!isOfTable(cause)) continue;
    const all = read.map(({ causes }) => causes.find((one) => sameKind(one.cause, cause)));
    if (all.some((one) => one === undefined)) continue;
    // One mistake for all of them is likelier than one each.
    const together = all.reduce((sum, one) => sum + (one?.margin ?? 0), 0) + (read.length - 1) * ONE_FOR_ALL;
    if (together >= own) return cause;
  }
  return undefined;
}

/** As a natural logarithm: 50 times. Common practice, no source. */
const ONE_FOR_ALL = 4;

/** Whether what stands in a row is told of by itself. */
const isReported =
  ({ readingsAt }: ChipInTable, verdictOf: (number: number) => Judgement | undefined) =>
  (row: number): boolean => {
    const number = readingsAt[row];
    const { verdict, mayBe } = (number === undefined ? undefined : verdictOf(number)) ?? {};
    const isOut = verdict === "out-of-limits" || verdict === "suspect" || verdict === "impossible";
    return isOut || mayBe !== undefined;
  };

import { judgeBlock } from "../../judge";
import { contextAt } from "../../judge/context";
import { LogReader } from "../../log/document";
import type { LogView } from "../view";
import { bounded, MOST_READINGS } from "./bounds";
import { type AssistantReading, assistantReading } from "./readings";

/** A reading that is in no log yet. */
export interface TypedReading {
  readonly ref?: string;
  readonly pin?: string;
  readonly rail?: string;
  readonly net?: string;
  readonly value: string;
}

/** The verdicts on readings that were given, as many as an answer may hold, or why none could be judged. */
export type JudgedTable =
  | { readonly ok: true; readonly readings: readonly AssistantReading[]; readonly leftOut: number }
  | { readonly ok: false; readonly reason: string };

const COLUMNS = [
  ["ref", "Ref"],
  ["pin", "Pin"],
  ["rail", "Rail"],
  ["net", "Net"],
] as const;

/**
 * Judges readings as if they stood in a table at the end of the log. The log is not touched.
 * @param heading what such a table stands under, "Diode check"
 * @param board which one they are of, where the log is about several
 */
export function judgeTyped(
  whole: LogView,
  heading: string,
  board: string | undefined,
  typed: readonly TypedReading[],
): JudgedTable {
  if (typed.length === 0) return { ok: false, reason: "There is no reading to judge." };
  const of = whole.set?.find(
    ({ doc }) => sameName(doc.ofSet?.name, board) || sameName(doc.ofSet?.board, board),
  );
  if (whole.set && !of) {
    const names = whole.set.map((one) => one.doc.ofSet?.name).join(", ");
    return {
      ok: false,
      reason: `This log is about several boards. Say which as \`board\`: ${bounded(names)}.`,
    };
  }
  const { doc, ctx } = of ?? whole;
  const columns = COLUMNS.filter(([role]) => typed.some((reading) => reading[role] !== undefined));
  const row = (cells: readonly string[]) => `| ${cells.map(inCell).join(" | ")} |\n`;
  const text = `---\nmendlog: 1\n---\n\n## ${inCell(heading)}\n\n${[
    [...columns.map(([, header]) => header), "Reading"],
    [...columns.map(() => "---"), "---"],
    ...typed
      .slice(0, MOST_READINGS)
      .map((reading) => [...columns.map(([role]) => reading[role] ?? ""), reading.value]),
  ]
    .map(row)
    .join("")}`;
  const last = doc.blocks.at(-1);
  const behind = last ? contextAt(last.block, ctx) : ctx;
  const readings = new LogReader(doc.uri)
    .read(text, doc.library)
    .blocks.flatMap(({ block }) => [...judgeBlock(block, behind).values()].map(assistantReading));
  if (readings.length === 0)
    return {
      ok: false,
      reason: `No table of readings stands under "${bounded(heading)}". Name one such as "Diode check", "Supply rails" or "Resistance to ground".`,
    };
  return { ok: true, readings, leftOut: Math.max(0, typed.length - MOST_READINGS) };
}

/** On one line, and in one cell. */
const inCell = (text: string): string =>
  bounded(text)
    .replace(/[\s\p{Cc}]+/gu, " ")
    .replaceAll("\\", "\\\\")
    .replaceAll("|", "\\|")
    .trim();

const sameName = (name: string | undefined, typed: string | undefined): boolean =>
  name !== undefined && typed !== undefined && name.toLowerCase() === typed.trim().toLowerCase();

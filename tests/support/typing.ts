// What a key does in a table: the text before and after, the cursor at `$0` in both.
import { expect } from "vitest";
import {
  type Direction,
  nextCell,
  startRow,
  type TypingStep,
  writeCell,
} from "../../server/src/features/typing";
import type { LogView } from "../../server/src/features/view";
import { applyEdits } from "../../server/src/text/edits";
import { openAt } from "./workspace";

export const LOG_HEAD = "---\nmendlog: 1\nboard: example\n---\n\n";

/** The text after a step with the cursor put in; undefined where there is no step. */
export function after(view: LogView, step: TypingStep | undefined): string | undefined {
  if (!step) return undefined;
  const text = applyEdits(view.doc.text, step.edits);
  expect(step.cursor).toBeGreaterThanOrEqual(0);
  expect(step.cursor).toBeLessThanOrEqual(text.length);
  return `${text.slice(0, step.cursor)}$0${text.slice(step.cursor)}`;
}

type Take = (view: LogView, offset: number) => TypingStep | undefined;

async function outcome(body: string, take: Take, head: string): Promise<string | undefined> {
  const { view, offset } = await openAt(head + body);
  const text = after(view, take(view, offset));
  expect(text?.startsWith(head) ?? true).toBe(true);
  return text?.slice(head.length);
}

/** The body of a log after one key, or undefined where the key means what it always means. */
export const pressed = (body: string, direction: Direction, started = false, head = LOG_HEAD) =>
  outcome(body, (view, offset) => nextCell(view, offset, direction, started), head);

export const enter = (body: string, started = false, head = LOG_HEAD) => pressed(body, "row", started, head);
export const tab = (body: string, head = LOG_HEAD) => pressed(body, "next", false, head);
export const shiftTab = (body: string) => pressed(body, "previous");

/** A line break was typed: what becomes of the line below a row. */
export const broken = (body: string, started = false, head = LOG_HEAD) =>
  outcome(body, (view, offset) => startRow(view, offset, started), head);

export const written = (body: string, text: string, then: "row" | "next" = "row") =>
  outcome(body, (view, offset) => writeCell(view, offset, text, then), LOG_HEAD);

// One helper a feature. The fixture is the file itself with the cursor at `$0`; more files may stand before it
// behind `//- path` lines.
import { expect } from "vitest";
import {
  completeKnowledge,
  defineKnowledge,
  hoverKnowledge,
  type KnowledgeFile,
} from "../../../server/src/features/knowledge";
import type { Completion, Hover } from "../../../server/src/features/types";
import { applyEdits } from "../../../server/src/text/edits";
import { hoverText } from "../../support/features";
import { openWorld, readFixture } from "../../support/workspace";

export interface At {
  readonly file: KnowledgeFile;
  readonly offset: number;
}

/** Opens the fixture; without a `//-` line it is a board file. */
export async function openKnowledge(fixture: string): Promise<At> {
  const whole = fixture.startsWith("//- ") ? fixture : `//- test.board.yaml\n${fixture}`;
  const cursor =
    readFixture(whole).find(({ marked }) => marked.text.includes("$0")) ?? readFixture(whole).at(-1);
  if (!cursor) throw new Error("the fixture has no file");
  const { service } = await openWorld(whole.replace("$0", ""));
  const file = service.knowledgeFile(cursor.uri);
  if (!file) throw new Error(`${cursor.uri} is not a knowledge file`);
  return { file, offset: Math.max(0, cursor.marked.text.indexOf("$0")) };
}

export async function completions(fixture: string): Promise<readonly Completion[]> {
  const { file, offset } = await openKnowledge(fixture);
  const items = completeKnowledge(file, offset);
  for (const { span, label } of items) {
    expect(span.start, label).toBeLessThanOrEqual(offset);
    expect(span.end, label).toBeGreaterThanOrEqual(offset);
    expect(file.text.slice(span.start, span.end), label).not.toMatch(/[\r\n]/);
  }
  return items;
}

export const labels = async (fixture: string): Promise<string[]> =>
  (await completions(fixture)).map(({ label }) => label);

/** The line the cursor is on after the item called `label` was taken, as plain text or as a snippet. */
export async function taking(
  fixture: string,
  label: string,
  as: "text" | "snippet" = "text",
): Promise<string> {
  const { file, offset } = await openKnowledge(fixture);
  const item = completeKnowledge(file, offset).find((one) => one.label === label);
  if (!item) throw new Error(`${label} is not offered`);
  const newText = as === "snippet" ? (item.snippet ?? item.newText) : item.newText;
  const after = applyEdits(file.text, [{ span: item.span, newText }]);
  const from = after.lastIndexOf("\n", item.span.start - 1) + 1;
  const tail = file.text.slice(item.span.end).search(/\r?\n|$/);
  return after.slice(from, item.span.start + newText.length + tail);
}

export async function hover(fixture: string): Promise<(Hover & { readonly on: string }) | undefined> {
  const { file, offset } = await openKnowledge(fixture);
  const found = hoverKnowledge(file, offset);
  return found && { ...found, on: file.text.slice(found.span.start, found.span.end) };
}

/** The whole hover at `$0` as it is read, for an inline snapshot. */
export async function hoverTextAt(fixture: string): Promise<string> {
  const found = await hover(fixture);
  return found ? hoverText(found) : "no hover";
}

/** "uri-ending: line" of each place a definition leads to. */
export async function definitions(fixture: string): Promise<string[]> {
  const { file, offset } = await openKnowledge(fixture);
  return (defineKnowledge(file, offset)?.targets ?? []).map(({ uri, span }) => {
    const text =
      uri === file.uri
        ? file.text
        : [...file.knowledge.devices, ...file.knowledge.procedures].find((known) => known.uri === uri)?.text;
    const from = (text ?? "").lastIndexOf("\n", span.start - 1) + 1;
    const line = (text ?? "").slice(from).split(/\r?\n/)[0];
    return `${uri.slice(uri.lastIndexOf("/") + 1)}: ${line?.trim()}`;
  });
}

// One helper a feature: the cursor is `$0` in the fixture, what is expected comes behind it.
import { expect } from "vitest";
import { completeLog } from "../../server/src/features/completion";
import { definitionInLog } from "../../server/src/features/definition";
import { highlightsAt } from "../../server/src/features/document-highlight";
import { foldingRanges } from "../../server/src/features/folding";
import { hoverLog } from "../../server/src/features/hover";
import { everywhere, type HintSettings, hintsOf } from "../../server/src/features/inlay-hints";
import { selectionsAt } from "../../server/src/features/selection-range";
import { tokensOf } from "../../server/src/features/semantic-tokens";
import { symbolsOf } from "../../server/src/features/symbols";
import type { Completion, DocumentSymbol, Fold } from "../../server/src/features/types";
import { applyEdits } from "../../server/src/text/edits";
import { slice } from "../../server/src/text/span";
import { type CursorWorld, openAt } from "./workspace";

export interface Hovered {
  /** The words the hover belongs to. */
  readonly on: string;
  readonly markdown: string;
}

export async function hoverAt(fixture: string): Promise<Hovered | undefined> {
  const { view, offset } = await openAt(fixture);
  const hover = hoverLog(view, offset);
  return hover && { on: slice(view.doc.text, hover.span), markdown: hover.markdown };
}

/** Markdown with the breaks within its paragraphs to be seen: `↵`. */
export const readable = (markdown: string): string => markdown.replaceAll("  \n", " ↵\n");

/** A hover as it is read: the words it belongs to in brackets, then its whole text. */
export const hoverText = ({ on, markdown }: Hovered): string => `[${on}]\n${readable(markdown)}`;

export const sectionsOf = (text: string): string[] => text.split("\n\n---\n\n");
export const paragraphsOf = (text: string): string[] => text.split("\n\n");

/** The whole hover at `$0`, for an inline snapshot. */
export async function hoverTextAt(fixture: string): Promise<string> {
  const hover = await hoverAt(fixture);
  return hover ? hoverText(hover) : "no hover";
}

/** The hover belongs to exactly these words and says each of these things. */
export async function checkHover(fixture: string, on: string, ...says: readonly string[]): Promise<string> {
  const hover = await hoverAt(fixture);
  expect(hover?.on).toBe(on);
  for (const piece of says) expect(hover?.markdown).toContain(piece);
  return hover?.markdown ?? "";
}

export async function checkNoHover(fixture: string): Promise<void> {
  expect(await hoverAt(fixture)).toBeUndefined();
}

export interface Offered extends CursorWorld {
  readonly items: readonly Completion[];
  readonly labels: readonly string[];
  /** The document's text after the item has been taken. */
  readonly take: (label: string) => string;
  readonly item: (label: string) => Completion;
}

export async function offeredAt(fixture: string): Promise<Offered> {
  const world = await openAt(fixture);
  const items = completeLog(world.view, world.offset);
  const item = (label: string): Completion => {
    const found = items.find((each) => each.label === label);
    if (!found)
      throw new Error(`${label} is not offered, only ${items.map((each) => each.label).join(", ")}`);
    return found;
  };
  return {
    ...world,
    items,
    labels: items.map(({ label }) => label),
    item,
    take: (label) => applyEdits(world.view.doc.text, [item(label)]),
  };
}

/** Each of these is offered; one written "U14 | hex inverter" also with that in its description. */
export async function checkCompletion(fixture: string, ...labels: readonly string[]): Promise<Offered> {
  const offered = await offeredAt(fixture);
  for (const wanted of labels) {
    const [label = "", description = ""] = wanted.split(" | ");
    expect(offered.item(label).description ?? "").toContain(description);
  }
  return offered;
}

/** What is offered, no more and in this order. */
export async function checkOffered(fixture: string, labels: readonly string[]): Promise<Offered> {
  const offered = await offeredAt(fixture);
  expect(offered.labels).toEqual(labels);
  return offered;
}

/** The words asked about, and the line of the knowledge file that is gone to; the target's own words in brackets. */
export async function checkDefinition(fixture: string, on: string, line: string): Promise<void> {
  const { service, view, offset } = await openAt(fixture);
  const found = definitionInLog(view, offset);
  expect(found && slice(view.doc.text, found.origin)).toBe(on);
  const target = found?.targets[0];
  const text = target && service.text(target.uri);
  expect(text && marked(text, target.span)).toBe(line);
}

export async function checkNoDefinition(fixture: string): Promise<void> {
  const { view, offset } = await openAt(fixture);
  expect(definitionInLog(view, offset)).toBeUndefined();
}

function marked(text: string, { start, end }: { start: number; end: number }): string {
  const from = text.lastIndexOf("\n", start - 1) + 1;
  const to = text.slice(end).search(/\r?\n|$/) + end;
  return `${text.slice(from, start)}[${text.slice(start, end)}]${text.slice(end, to)}`.trim();
}

/** The outline as indented lines: "name: detail". */
export async function outlineOf(fixture: string): Promise<string[]> {
  const { view } = await openAt(fixture.includes("$0") ? fixture : `${fixture}$0`);
  const lines = (symbols: readonly DocumentSymbol[], indent: string): string[] =>
    symbols.flatMap((symbol) => [
      `${indent}${symbol.name}${symbol.detail === undefined ? "" : `: ${symbol.detail}`}`,
      ...lines(symbol.children, `${indent}  `),
    ]);
  return lines(symbolsOf(view), "");
}

export interface Folded {
  readonly kind: Fold["kind"];
  readonly first: string;
  readonly last: string;
}

/** Every fold with the first and the last line of its text. */
export async function foldedIn(fixture: string): Promise<Folded[]> {
  const { view } = await openAt(fixture.includes("$0") ? fixture : `${fixture}$0`);
  return foldingRanges(view).map(({ kind, span }) => {
    const lines = slice(view.doc.text, span).split(/\r?\n/);
    return { kind, first: lines[0] ?? "", last: lines.at(-1) ?? "" };
  });
}

/** The text with every token around it as `[words:benchReading.suspect]`. */
export async function tokensIn(fixture: string): Promise<string> {
  const { view } = await openAt(fixture.includes("$0") ? fixture : `${fixture}$0`);
  const edits = tokensOf(view).map(({ span, type, modifiers }) => ({
    span,
    newText: `[${slice(view.doc.text, span)}:${[type, ...modifiers].join(".")}]`,
  }));
  return applyEdits(view.doc.text, edits);
}

/** The text with every hint in it as `‹label›`, the blanks that keep a column in line as `_`. */
export async function hintsIn(fixture: string, wanted: Partial<HintSettings> = {}): Promise<string> {
  const { view } = await openAt(fixture.includes("$0") ? fixture : `${fixture}$0`);
  const hints = hintsOf(view, everywhere(view), { pins: true, verdicts: "all", ...wanted });
  const edits = hints.map(({ at, label }) => ({
    span: { start: at, end: at },
    newText: `‹${label.replaceAll("\u00a0", "_")}›`,
  }));
  return applyEdits(view.doc.text, edits);
}

/** The log with the other places of what is at `$0`: `[spoken of]`, `{read or worked on}`. */
export async function highlightedAt(fixture: string): Promise<string | undefined> {
  const { view, offset } = await openAt(fixture);
  const found = highlightsAt(view, offset);
  if (!found) return undefined;
  const edits = found.map(({ span, kind }) => {
    const words = slice(view.doc.text, span);
    return { span, newText: kind === "done" ? `{${words}}` : `[${words}]` };
  });
  return applyEdits(view.doc.text, edits);
}

/** What a selection at `$0` grows to, the smallest first. */
export async function selectedAt(fixture: string): Promise<string[]> {
  const { view, offset } = await openAt(fixture);
  return selectionsAt(view, offset).map((span) => slice(view.doc.text, span));
}

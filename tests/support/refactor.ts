import { expect } from "vitest";
import { refactorsAt } from "../../server/src/features/refactor";
import type { Refactor } from "../../server/src/features/types";
import { applyEdits } from "../../server/src/text/edits";
import { openAt } from "./workspace";

const FRONT = "---\nmendlog: 1\nboard: example\n---\n\n";

export interface OfferedRefactors {
  readonly titles: readonly string[];
  readonly all: readonly Refactor[];
  /** The body after the one whose title begins with these words has been done. */
  readonly take: (title: string) => string;
  /** Why the one whose title begins with these words cannot be done. */
  readonly whyNot: (title: string) => string;
}

/** What is offered in a log whose cursor is at `$0`; two of them are the ends of a selection. */
export async function refactorsOf(body: string, front = FRONT): Promise<OfferedRefactors> {
  const eol = /\r\n/.test(body) ? "\r\n" : "\n";
  const head = front.replaceAll("\n", eol);
  const [, between, after] = body.split("$0");
  const length = after === undefined ? 0 : (between ?? "").length;
  const { view, offset } = await openAt(
    head + (after === undefined ? body : body.replace(/\$0(?![\s\S]*\$0)/, "")),
  );
  const all = refactorsAt(view, { start: offset, end: offset + length });
  const find = (title: string): Refactor => {
    const found = all.find((it) => it.title.startsWith(title));
    if (!found) throw new Error(`"${title}" is not offered, only ${all.map((it) => it.title).join(" / ")}`);
    return found;
  };
  return {
    all,
    titles: all.map(({ title }) => title),
    take(title) {
      const { edits, disabled } = find(title);
      expect(disabled).toBeUndefined();
      const text = applyEdits(view.doc.text, edits);
      expect(text.startsWith(head)).toBe(true);
      return text.slice(head.length);
    },
    whyNot(title) {
      const { edits, disabled } = find(title);
      expect(edits).toEqual([]);
      return disabled ?? "";
    },
  };
}

/** The body after a refactoring, of which the cursor marks the place. */
export async function checkRefactor(body: string, title: string, want: string): Promise<void> {
  expect((await refactorsOf(body)).take(title)).toBe(want);
}

export async function checkNoRefactor(body: string, title: string): Promise<void> {
  expect((await refactorsOf(body)).titles.filter((it) => it.startsWith(title))).toEqual([]);
}

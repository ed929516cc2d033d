// What the parser is given in the place of its own way to move events gives the same trees.
import { EditMap } from "micromark-util-edit-map";
import { expect, test } from "vitest";
import { parseMarkdown } from "../../server/src/syntax/markdown";
import { copyingAll } from "../../server/src/syntax/quick-edits";
import { MARKDOWN } from "../growth/structures";

/** The work done in the library's own way. */
function inItsWay<T>(work: () => T): T {
  const ours = EditMap.prototype.consume;
  expect(ours).not.toBe(copyingAll);
  EditMap.prototype.consume = copyingAll;
  try {
    return work();
  } finally {
    EditMap.prototype.consume = ours;
  }
}

test("every structure of Markdown has the tree that the library's own way gives it", () => {
  const texts = Object.entries(MARKDOWN).map(([name, make]) => ({ name, text: make(240) }));
  const read = () => texts.map(({ name, text }) => [name, parseMarkdown(text, { frontMatter: false })]);
  expect(read()).toEqual(inItsWay(read));
});

test("several changes, before, between and behind what stays", () => {
  const edits = (): number[] => {
    const map = new EditMap();
    const events = [0, 1, 2, 3, 4, 5, 6, 7];
    const add = (at: number, remove: number, ...added: number[]) => map.add(at, remove, added as never);
    add(6, 1, 60, 61);
    add(2, 2);
    add(6, 0, 62);
    add(8, 0, 80);
    add(4, 0, 40);
    map.consume(events as never);
    expect(map.map).toEqual([]);
    map.consume(events as never);
    return events;
  };
  expect(edits()).toEqual([0, 1, 40, 4, 5, 60, 61, 62, 7, 80]);
  expect(edits()).toEqual(inItsWay(edits));
});

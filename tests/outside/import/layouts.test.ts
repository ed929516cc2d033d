// Every designator, net and pin of real boards, as another reading of the same files gives them; see demos.ts.
import { describe, expect, test } from "vitest";
import { importBoard } from "../../../server/src/knowledge/import";
import type { ImportedBoard } from "../../../server/src/knowledge/import/imported";
import { readPcb } from "../../../server/src/knowledge/import/pcb";
import { builtinLibrary } from "../../../server/src/knowledge/library";
import { loadBoard } from "../../../server/src/knowledge/load-board";
import { run } from "../../knowledge/import/run";
import { DEMOS_ABSENT, DEMOS_PRESENT, drawnIn, LAYOUTS, layoutText } from "./demos";

const REQUIRED = process.env.MENDLOG_REQUIRE_OUTSIDE === "1";
if (!DEMOS_PRESENT && !REQUIRED) console.warn(`skipped: ${DEMOS_ABSENT}`);
test.runIf(REQUIRED)("the demo boards are there, as this run requires", () => {
  expect(DEMOS_PRESENT, DEMOS_ABSENT).toBe(true);
});

const netByPin = ({ parts, nets }: ImportedBoard): Map<string, string> => {
  const found = new Map<string, string>(
    parts.flatMap(({ ref, pins }) => pins.map((pin) => [`${ref}.${pin}`, ""] as const)),
  );
  for (const { name, pins } of nets) for (const { ref, pin } of pins) found.set(`${ref}.${pin}`, name);
  return found;
};
const sorted = (entries: Iterable<readonly [string, string]>) =>
  [...entries].toSorted(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0));

describe.skipIf(!DEMOS_PRESENT)("layouts of the demos", () => {
  const seen = { parts: 0, nets: 0, pins: 0 };

  test.each(LAYOUTS)("%s: every designator, net and pin", (path) => {
    const text = layoutText(path);
    const drawn = drawnIn(text);
    const board = run(readPcb(text)).value;
    expect(sorted(board.parts.map(({ ref, value }) => [ref, value ?? ""] as const))).toEqual(
      sorted(drawn.parts),
    );
    expect(board.nets.map(({ name }) => name).toSorted()).toEqual([...drawn.nets].toSorted());
    expect(sorted(netByPin(board))).toEqual(sorted(drawn.pins));
    seen.parts += drawn.parts.size;
    seen.nets += drawn.nets.size;
    seen.pins += drawn.pins.size;
  });

  test("the layouts compared are many, with many parts, nets and pins", () => {
    expect(LAYOUTS.length).toBeGreaterThanOrEqual(12);
    expect(seen.parts).toBeGreaterThan(600);
    expect(seen.nets).toBeGreaterThan(1_400);
    expect(seen.pins).toBeGreaterThan(4_000);
  });

  test.each(LAYOUTS.filter((path) => /interf_u|video|pic_programmer|carte_test/.test(path)))(
    "%s as a board file: nothing in it is wrong, and each pin is on the net it is drawn on",
    (path) => {
      const text = layoutText(path);
      const drawn = drawnIn(text);
      const library = builtinLibrary();
      const made = run(importBoard({ files: [{ name: path, text }], library })).value;
      if (!made.ok) throw new Error(made.reasons.join());
      const { value: board, problems } = loadBoard(made.text, {
        deviceOf: (part) => library.device(part)?.device,
      });
      expect(problems).toEqual([]);
      const left = new Set(made.report.leftOut.map(({ what }) => what));
      expect([...drawn.parts.keys()].filter((ref) => !board?.parts.has(ref) && !left.has(ref))).toEqual([]);

      const written = new Map<string, string>();
      for (const { name, pins } of board?.nets.values() ?? [])
        for (const { ref, pin } of pins) written.set(`${ref}.${pin}`, name);
      const members = new Map<string, number>();
      for (const net of drawn.pins.values()) members.set(net, (members.get(net) ?? 0) + 1);
      // A net of one pin that the suite named itself is a pin connected to nothing.
      const expected = [...drawn.pins].filter(
        ([pin, net]) =>
          net !== "" &&
          !left.has(pin.split(".")[0]!) &&
          !(members.get(net) === 1 && /^unconnected-|^Net-\(/.test(net)),
      );
      expect(sorted(written)).toEqual(
        sorted(expected.map(([pin, net]) => [pin, net.replaceAll("{slash}", "/")] as const)),
      );
    },
  );
});

// The IPC-D-356 that another program writes of real boards, against the layouts it was written from; see pcb-rnd.ts and
// demos.ts. The record layout in server/src/knowledge/import/ipc-d-356.ts is from memory: this is what holds it.
import { describe, expect, test } from "vitest";
import { readIpcD356 } from "../../../server/src/knowledge/import/ipc-d-356";
import { recognise } from "../../../server/src/knowledge/import/read";
import { run } from "../../knowledge/import/run";
import { DEMOS_ABSENT, DEMOS_PRESENT, drawnIn, layoutText } from "./demos";
import { asIpcD356, PCB_RND_ABSENT, PCB_RND_PRESENT } from "./pcb-rnd";

const REQUIRED = process.env.MENDLOG_REQUIRE_OUTSIDE === "1";
const PRESENT = DEMOS_PRESENT && PCB_RND_PRESENT;
if (!PRESENT && !REQUIRED) console.warn(`skipped: ${DEMOS_PRESENT ? PCB_RND_ABSENT : DEMOS_ABSENT}`);
test.runIf(REQUIRED)("the boards and the program are there, as this run requires", () => {
  expect(DEMOS_PRESENT, DEMOS_ABSENT).toBe(true);
  expect(PCB_RND_PRESENT, PCB_RND_ABSENT).toBe(true);
});

/** A net as the file has room for it, undefined where what is left of it could be several nets. */
function asWritten(net: string): string | undefined {
  const cut = net.slice(0, 14).trim();
  return net === "" || (cut.length === 14 && /\([^)]*$/.test(cut)) ? undefined : cut;
}

describe.skipIf(!PRESENT)("written by another program", () => {
  test.each([
    ["interf_u/interf_u.kicad_pcb", 370],
    ["pic_programmer/pic_programmer.kicad_pcb", 200],
    ["complex_hierarchy/complex_hierarchy.kicad_pcb", 150],
  ])("%s: every pin with its net", (path, atLeast) => {
    const text = asIpcD356(layoutText(path));
    expect(recognise(text)).toMatchObject({ ok: true, format: "ipc-d-356" });
    const board = run(readIpcD356(text)).value;
    const found = new Map<string, string>(
      board.parts.flatMap(({ ref, pins }) => pins.map((pin) => [`${ref}.${pin}`, ""] as const)),
    );
    for (const { name, pins } of board.nets)
      for (const { ref, pin } of pins) found.set(`${ref}.${pin}`, name);

    // The file has room for six letters of a designator and four of a pin.
    const { pins } = drawnIn(layoutText(path));
    const expected = [...pins].map(([place, net]) => {
      const [ref = "", pin = ""] = place.split(".");
      return [`${ref.slice(0, 6)}.${pin.slice(0, 4)}`, asWritten(net) ?? ""] as const;
    });
    const byName = (entries: Iterable<readonly [string, string]>) =>
      [...entries].toSorted(([a], [b]) => (a < b ? -1 : a > b ? 1 : 0));
    expect(byName(found)).toEqual(byName(expected));
    expect(found.size).toBeGreaterThan(atLeast);
    expect(board.problems.filter(({ message }) => !/14 (?:letters|columns)/.test(message))).toEqual([]);
  });
});

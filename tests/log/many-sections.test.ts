// What is looked for in all sections of a log is looked for again only about a change. Whatever is typed, comes, goes or changes
// places, the findings are those of the same log opened just now.
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { EXAMPLE_BOARD } from "../../server/src/checks/example-board";
import { Service } from "../../server/src/service";

const URI = "mem:/log.md";

async function begun(): Promise<Service> {
  const files = new Map([["mem:/example.board.yaml", EXAMPLE_BOARD]]);
  const service = new Service({ read: async (uri) => files.get(uri), list: async () => [...files.keys()] });
  await service.load();
  return service;
}

/** Sections that tell of each other: before and after a repair, allowed findings, parts put in and back, lists of dates. */
const SECTIONS = [
  "## Diode check\n\n| Ref | Pin | Reading |\n|---|---|---|\n| U14 | 1 | 0.58 |\n| U14 | 2 | 1.42 |\n| U15 | 1 | 0.12 |\n",
  "## Diode check again\n\n| Ref | Pin | Reading |\n|---|---|---|\n| U14 | 2 | 0.57 |\n| U15 | 1 | 0.56 |\n",
  "## Diode check after repair\n\n| Ref | Pin | Reading | Note |\n|---|---|---|---|\n| U14 | 2 | 0.57 | again |\n| U14 | 1 | 0.1 | |\n",
  "## Diode check\n\n<!-- mendlog-allow diode-out-of-window: known -->\n\n| Ref | Pin | Reading |\n|---|---|---|\n| U14 | 3 | 1.9 |\n",
  "## Diode check U14\n\n| Pin | Reading |\n|---|---|\n| 1 | 0.58 |\n| 4 | 0.02 |\n| 4 | 0.57 |\n",
  "## Diode check U15\n\n| Pin | Reading |\n|---|---|\n| 2 | 0.571 |\n| 14 | 0.3 |\n",
  "## Supply rails\n\n| Rail | Reading |\n|---|---|\n| +5V | 4.2 V |\n| +12V | 11.9 V |\n",
  "## Supply rails after repair\n\n| Rail | Reading |\n|---|---|\n| +5V | 5.02 V |\n",
  "## Work done\n\n| Ref | Action | Part | Date |\n|---|---|---|---|\n| U14 | replace | 74LS04 | 2026-03-04 |\n",
  "## Work done\n\n| Ref | Action | Part |\n|---|---|---|\n| U15 | replace | 74LS00 |\n| U15 | put back | |\n",
  "## Work planned\n\n| Ref | Action |\n|---|---|\n| U14 | replace later |\n",
  "## Parts fitted\n\n| Ref | Part | Date code |\n|---|---|---|\n| U14 | 74LS08 | 9915 |\n",
  "## Logic levels\n\n| Ref | Pin | Level |\n|---|---|---|\n| U14 | 14 | 4.1 V |\n| U15 | 14 | 4.1 V |\n| U16 | 14 | 4.1 V |\n",
  "## Resistance to ground after cleaning\n\n| Ref | Pin | Reading |\n|---|---|---|\n| U14 | 2 | 0.3 |\n",
  "## 2026-03-02 Inspection\n\n| Item | Result | Note |\n|---|---|---|\n| Date code | ok | 8012 on U14 |\n",
  "## Switch matrix\n\n| Row / column | 1 | 2 |\n|---|---|---|\n| 1 | ok | dead |\n| 2 | ok | ok |\n",
  "## Hours\n\n- 2026-03-04: 1.5 h readings\n- 2026-03-05: 30 h readings\n",
  "# U14 (74LS04)\n\nPulled for a look.\n",
  "### Diode check\n\n| Pin | Reading |\n|---|---|\n| 2 | 0.9 |\n",
  "## Notes\n\nX901 is not fitted, U99 neither.\n\n| Ref | Pin | Reading |\n|---|---|---|\n| U99 | 1 | 0.5 |\n",
];

/** Numbers from 0 up to and without the one asked for, the same for the same seed. */
function numbers(seed: number): (below: number) => number {
  let state = seed >>> 0;
  return (below) => {
    state = (Math.imul(state, 1_103_515_245) + 12_345) >>> 0;
    return Math.floor((state / 2 ** 32) * below);
  };
}

const FRONTS = [
  "board: example\n",
  "board: example\nreceived: 2026-03-03\nstage: returned\n",
  "",
  "board: unknown\n",
];

describe("a log of many sections", () => {
  it("has the findings of one opened just now, whatever is edited", async () => {
    const long = await begun();
    const fresh = await begun();
    await fc.assert(
      fc.asyncProperty(fc.nat(), fc.nat(40), async (seed, count) => {
        const next = numbers(seed);
        let front = FRONTS[0]!;
        const sections = Array.from({ length: 8 + count }, () => SECTIONS[next(SECTIONS.length)]!);
        let some = 0;
        for (let edit = 0; edit < 6; edit++) {
          const at = next(sections.length);
          const own = sections[at] ?? "";
          switch (next(6)) {
            case 0:
              sections.splice(at, 1);
              break;
            case 1:
              sections.splice(at, 0, SECTIONS[next(SECTIONS.length)]!);
              break;
            case 2:
              sections.push(...sections.splice(at, 3));
              break;
            case 3:
              front = FRONTS[next(FRONTS.length)]!;
              break;
            default: {
              const place = next(own.length + 1);
              const typed = ["7", ".", "9", "U", "\n", " "][next(6)]!;
              sections[at] = own.slice(0, place) + typed + own.slice(place + next(2));
            }
          }
          const text = `---\nmendlog: 1\n${front}---\n\n${sections.join("\n")}`;
          long.open(URI, text);
          const found = long.findings(URI);
          some += found.length;
          fresh.close(URI);
          fresh.open(URI, text);
          expect(found).toEqual(fresh.findings(URI));
        }
        expect(some).toBeGreaterThan(0);
      }),
      { numRuns: 12 * Number(process.env.MENDLOG_FUZZ ?? 1) },
    );
  });
});

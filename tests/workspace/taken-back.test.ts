// What is edited and taken back: the findings are those of a log that was opened so, and what was judged before is not judged again.
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { judgeBlock } from "../../server/src/judge";
import { Service } from "../../server/src/service";
import { Disk } from "../support/disk";

const board = (id: string, device: string) =>
  `mendlog-board: 1\nid: ${id}\ntitle: Board ${id}\nsource: invented\nparts:\n  U1: { device: "${device}" }\n  U2: { device: "7404" }\nnets:\n  N: [U1.2, U2.1]\n`;
const FILES = {
  "mem:/a.board.yaml": board("a", "7404"),
  "mem:/b.board.yaml": board("b", "7408"),
  "mem:/mendlog.shop.yaml": "mendlog-shop: 1\nname: Bench\nmeters:\n  bench: { title: Meter, ranges: [] }\n",
};
const URI = "mem:/log.md";

interface Edited {
  readonly board: string;
  readonly meter: string;
  readonly fence: string;
  readonly fitted: string;
  readonly reading: string;
}
const ROWS =
  "| U1 | 1 | 0.58 |\n| U1 | 2 | 0.001 |\n| U1 | 14 | 0.31 |\n| U2 | 1 | 1.42 |\n| U3 | 1 | 0.5 |\n";
const diode = (title: string, reading: string): string =>
  `## Diode check, ${title}\n\n| Ref | Pin | Reading |\n|-|-|-|\n${ROWS}| U2 | 2 | ${reading} |\n\n`;
const textOf = ({ board, meter, fence, fitted, reading }: Edited): string =>
  `---\nmendlog: 1\n${board}${meter}---\n\n${fence}# Log\n\n${diode("first", "0.55")}## Work done\n\n| Ref | Action | Part |\n|-|-|-|\n| U1 | replaced | ${fitted} |\n| U2 | cleaned | |\n\n${diode("second", reading)}`;
const FIRST: Edited = { board: "board: a\n", meter: "", fence: "", fitted: "7400", reading: "0.56" };

const edited: fc.Arbitrary<Partial<Edited>> = fc.oneof(
  fc.record({ board: fc.constantFrom("board: a\n", "board: b\n", "board: c\n", "board: cc\n", "") }),
  fc.record({ meter: fc.constantFrom("", "meter: bench\n") }),
  fc.record({ fence: fc.constantFrom("", " ```\n", "  ~~~ a\n", " ```\n ```\n") }),
  fc.record({ fitted: fc.constantFrom("7400", "7404", "7408", "") }),
  fc.record({ reading: fc.constantFrom("0.56", "0.001", "OL", "1.5") }),
);

const opened = async (): Promise<Service> => {
  const service = new Service(new Disk(FILES));
  await service.load();
  return service;
};
const findingsOf = (service: Service, text: string) => {
  service.open(URI, text);
  return service.findings(URI);
};

describe("a field or a fence that is taken back", () => {
  it("leaves the findings of a log that was opened so", async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(edited, { minLength: 2, maxLength: 12 }), async (edits) => {
        const service = await opened();
        let now = FIRST;
        findingsOf(service, textOf(now));
        for (const edit of edits) {
          now = { ...now, ...edit };
          const text = textOf(now);
          expect(findingsOf(service, text)).toEqual(findingsOf(await opened(), text));
        }
      }),
      { numRuns: Number(process.env.MENDLOG_FUZZ ?? 1) * 20 },
    );
  });

  const judgedIn = (service: Service, text: string) => {
    findingsOf(service, text);
    const { doc, ctx } = service.view(URI)!;
    return judgeBlock(doc.blocks.at(-1)!.block, ctx);
  };

  it.each<[string, (typed: string) => Partial<Edited>]>([
    ["another board", () => ({ board: "board: b\n" })],
    ["no board", () => ({ board: "" })],
    ["a board that is typed letter by letter", (typed) => ({ board: `board: a${typed}\n` })],
    ["a meter", () => ({ meter: "meter: bench\n" })],
    ["a fence", () => ({ fence: " ```\n" })],
    ["a fence with words behind it", (typed) => ({ fence: ` ~~~ ${typed}\n` })],
    ["another part fitted", (typed) => ({ fitted: `74${typed.length}` })],
  ])("costs no verdict again where it was %s", async (_, edit) => {
    const service = await opened();
    const before = judgedIn(service, textOf(FIRST));
    judgedIn(service, textOf({ ...FIRST, fitted: "7400 " }));
    for (const typed of ["x", "xy", "xyz", "xyzx"]) judgedIn(service, textOf({ ...FIRST, ...edit(typed) }));
    expect(judgedIn(service, textOf(FIRST))).toBe(before);
  });
});

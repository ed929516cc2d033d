// The lists that say how a board's circuits are built are completed and shown like the rest of the file.
import { describe, expect, test } from "vitest";
import { board } from "./board";
import { definitions, hover, labels } from "./support";

const rail = (typed: string) => board().replace("net: VCC", `net: VCC, ${typed}`);

describe("circuits in a board file", () => {
  test("offer parts, rails and choices where they belong", async () => {
    expect(await labels(rail("regulator: $0"))).toContain("R12");
    expect(await labels(rail("input: $0"))).toEqual(["+5V"]);
    expect(await labels(rail("rectifier: $0"))).toEqual(["full-wave", "half-wave"]);
    expect(await labels(rail("mains: 50$0"))).toContain("50 Hz");
    expect(await labels(board("coils:\n  - { driver: Q3, supply: $0 }\n"))).toEqual(["+5V"]);
    expect(await labels(board("backups:\n  - { rail: VMEM, capacitor: $0 }\n"))).toContain("R12");
  });

  test.each(["clocks", "resets"])("know a pin of %s by the part beside it", async (list) => {
    expect((await labels(board(`${list}:\n  - { ref: U15, pin: $0 }\n`))).length).toBe(14);
    const found = await hover(board(`${list}:\n  - { ref: U14, pin: 2$0 }\n`));
    expect(found?.markdown).toContain("**U14 pin 2** 1Y, output");
    expect((await definitions(board(`${list}:\n  - { ref: U15, pin: 3$0 }\n`)))[0]).toContain("ROW_1:");
  });

  test("go to the part they name, and say what a key is for", async () => {
    expect((await definitions(board("clocks:\n  - { ref: U14, pin: 2, from: R1$02 }\n")))[0]).toContain(
      "R12: { value: 4k7",
    );
    expect((await hover(rail("reser$0voir: R12")))?.markdown).toContain("behind the rectifier");
  });
});

// A table shows so many findings of one kind, and says how many more there are.
import { describe, expect, it } from "vitest";
import { openWorld } from "../support/workspace";

const URI = "mem:/ws/log.md";

/** A row a chip, each with one dead pin, so that nothing but the number of them is alike. */
const log = (chips: number, heading = "Diode check"): string =>
  `## ${heading}\n\n| Ref | Device | Pin | Reading |\n|---|---|---|---|\n${Array.from(
    { length: chips },
    (_, i) => `| U${i + 50} | 7404 | 3 | 1.4${i % 10} |\n`,
  ).join("")}\n`;

async function told(body: string) {
  const { service } = await openWorld(`---\nmendlog: 1\nboard: no-such-board\n---\n\n${body}`);
  return service.findings(URI).filter(({ code }) => code === "diode-out-of-window");
}

describe("findings of one kind in one table", () => {
  it("are all shown up to eleven", async () => {
    expect(await told(log(11))).toHaveLength(11);
  });

  it("are ten beyond that, the last with how many more and where", async () => {
    const found = await told(log(19));
    expect(found).toHaveLength(10);
    expect(found[9]?.message).toContain("And 9 more like it in this table.");
    expect(found[9]?.related?.filter(({ message }) => message.includes(" reads 1.4"))).toHaveLength(9);
    expect(found[8]?.message).not.toContain("more like it");
  });

  it("are counted table by table", async () => {
    expect(await told(`${log(9)}${log(9, "Diode check again")}`)).toHaveLength(18);
  });
});

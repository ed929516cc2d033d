// Lines of a bus that all read low are one finding that names the bus; anything less is told pin by pin.
import { expect, test } from "vitest";
import { openAt } from "../../support/workspace";

const told = async (table: string) => {
  const { service, uri } = await openAt(`//- log.md\n---\nmendlog: 1\n---\n\n${table}\n$0`);
  return service
    .findings(uri)
    .filter(({ severity }) => severity !== "hint")
    .map(({ code, message, related }) => ({ code, message, related: related?.length }));
};
const column = (rows: Readonly<Record<number, string>>) =>
  `| Pin | Reading |\n|-----|---------|\n${Object.entries(rows)
    .map(([pin, reading]) => `| ${pin} | ${reading} |`)
    .join("\n")}\n`;

/** A 2114's pins as they mostly read, its data lines as given. */
const ram = (data: readonly string[]) =>
  column({ 1: "0.571", 2: "0.569", 5: "0.572", 9: "0.001", 15: "0.566", 18: "0.412" }).concat(
    data.map((reading, i) => `| ${11 + i} | ${reading} |\n`).join(""),
  );

test("all four data lines of a memory low: the bus, once", async () => {
  const found = await told(`## Diode check U5 (2114)\n\n${ram(["0.208", "0.211", "0.209", "0.214"])}`);
  expect(found).toEqual([
    {
      code: "bus-held-low",
      message: expect.stringMatching(
        /^U5: all 4 lines of bus I\/O1 to I\/O4 read low, 0\.208 V to 0\.214 V; below 0\.4 V is low\. /,
      ),
      related: 4,
    },
  ]);
});

test("three of the four low: each by itself", async () => {
  const found = await told(`## Diode check U5 (2114)\n\n${ram(["0.208", "0.571", "0.209", "0.214"])}`);
  expect(found.map(({ code }) => code)).not.toContain("bus-held-low");
  expect(found.filter(({ code }) => code === "diode-out-of-window")).toHaveLength(3);
});

test("two chips on one bus: one finding that names both", async () => {
  const low = ["0.208", "0.211", "0.209", "0.214"];
  const found = await told(
    `## Diode check U5 (2114)\n\n${ram(low)}\n### Diode check U6 (2114)\n\n${ram(low)}`,
  );
  const buses = found.filter(({ code }) => code === "bus-held-low");
  expect(buses.flatMap(({ message }) => /^[^:]*/.exec(message) ?? []).join(" / ")).toMatch(
    /^U5(?: and| \/) U6$/,
  );
});

test("four outputs of a counter are no bus", async () => {
  const found = await told(
    `## Diode check U7 (74LS161)\n\n${column({ 1: "0.55", 2: "0.56", 8: "0.001", 11: "0.11", 12: "0.12", 13: "0.11", 14: "0.12", 16: "0.41" })}`,
  );
  expect(found.map(({ code }) => code)).not.toContain("bus-held-low");
});

test("a line that was not read is not counted as one that is low", async () => {
  const found = await told(`## Diode check U5 (2114)\n\n${ram(["0.208", "0.211", "0.209"])}`);
  const [bus] = found.filter(({ code }) => code === "bus-held-low");
  expect(bus?.message).toMatch(/^U5: 3 of 4 lines of bus /);
});

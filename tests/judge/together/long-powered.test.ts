// A long table of states is thought over chip by chip as it is typed in, with the same end as when it is read from the start.
import { expect, test } from "vitest";
import { openAt } from "../../support/workspace";

const CELLS = ["P", "P", "P", "L", "L", "H", "H", "L", "P", "H", "P", "P", "P", "P", "P", "H"];
const rows = (ref: string, cells: readonly string[]) =>
  cells.map((cell, i) => `| ${ref} | ${i + 1} | ${cell} |\n`).join("");
const log = (tenth: readonly string[]) =>
  `---\nmendlog: 1\n---\n\n## Parts\n\n| Ref | Device |\n|---|---|\n${Array.from({ length: 12 }, (_, i) => `| U${i + 1} | 74LS138 |\n`).join("")}\n## Logic states\n\n| Ref | Pin | State |\n|---|---|---|\n${Array.from({ length: 12 }, (_, i) => rows(`U${i + 1}`, i === 9 ? tenth : CELLS)).join("")}`;

test("a chip that comes to be counted from the other end while its rows are typed", async () => {
  const { service, uri } = await openAt(`//- log.md\n${log(CELLS)}$0`);
  const codes = () => service.findings(uri).map(({ code }) => code);
  expect(codes()).not.toContain("pins-miscounted");
  const turned = [...CELLS].reverse();
  let text = log(CELLS);
  for (let typed = 1; typed <= turned.length; typed += 1) {
    const next = log([...turned.slice(0, typed), ...CELLS.slice(typed)]);
    // Every cell is one letter, so that each step is one letter for another.
    const at = [...next].findIndex((letter, i) => letter !== text[i]);
    if (at >= 0) service.edit(uri, [{ span: { start: at, end: at + 1 }, newText: next[at] ?? "" }]);
    text = next;
    codes();
  }
  const after = service.findings(uri);
  expect(after.map(({ code }) => code)).toContain("pins-miscounted");
  const fresh = await openAt(`//- log.md\n${log(turned)}$0`);
  expect(after).toEqual(fresh.service.findings(fresh.uri));
});

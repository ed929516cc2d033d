import { expect, it } from "vitest";
import { offeredAt } from "../../support/features";

const log = (rows: string) => `---\nmendlog: 1\nboard: example\n---\n\n## Settings\n\n${rows}`;

it("a switch's states say what the bank would mean", async () => {
  const { labels, item } = await offeredAt(log("| Bank | 1 | 2 | 3 |\n|-|-|-|-|\n| SW1 | on | $0 | |\n"));
  expect(labels).toEqual(["on", "off", "-"]);
  expect(item("on").description).toBe("Coins: free play");
  expect(item("off").description).toBe("Coins: no meaning in the board file");
});

it("the state that gives the meaning written beside it comes first", async () => {
  const { labels, item } = await offeredAt(
    log("| Bank | Switch | State | Meaning |\n|-|-|-|-|\n| SW1 | 1 | $0 | Coins: two coins |\n"),
  );
  expect(labels[0]).toBe("off");
  expect(item("off").preselect).toBe(true);
});

it("a meaning comes with the positions that give it", async () => {
  const { labels, item, take } = await offeredAt(
    log("| Bank | Switch | State | Meaning |\n|-|-|-|-|\n| SW1 | 2 | on | $0 |\n"),
  );
  expect(labels).toEqual(["Coins: one coin", "Coins: two coins", "Coins: free play"]);
  expect(item("Coins: two coins").description).toBe("SW1 1 off, 2 on");
  expect(take("Coins: two coins")).toContain("| SW1 | 2 | on | Coins: two coins");
});

import { describe, expect, it } from "vitest";
import { isLog } from "../../server/src/log/sniff";

describe("a log", () => {
  it.each([
    "---\nmendlog: 1\n---\n",
    "\uFEFF---\nmendlog: 1\n---\n",
    "---\r\njob: 4\r\nmendlog: 1\r\n---\r\n",
    "---  \nmendlog : 1\n---",
    "---\nmendlog:",
    "---\nmendlog: 1\nstage: [oops\n",
    "---\nmendlog: 7\n---\n",
  ])("is %j", (text) => {
    expect(isLog(text)).toBe(true);
  });

  it.each([
    "",
    "---",
    "mendlog: 1\n",
    "# Log\n\n---\nmendlog: 1\n---\n",
    "\n---\nmendlog: 1\n---\n",
    "---\ntitle: a\n---\n\nmendlog: 1\n",
    "---\nnotes:\n  mendlog: 1\n---\n",
    "---\n# mendlog: 1\n---\n",
    "----\nmendlog: 1\n---\n",
    `---\n${"x".repeat(30_000)}\nmendlog: 1\n---\n`,
  ])("is not %j", (text) => {
    expect(isLog(text)).toBe(false);
  });
});

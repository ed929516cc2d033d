import { expect, test } from "vitest";
import { applyEdits } from "../../server/src/text/edits";
import { boardFile, boardHead } from "../support/boards";
import { openWorld } from "../support/workspace";

test("a board named by the word people say has the fix to name it in full", async () => {
  const text = "---\nmendlog: 1\nboard: halden\n---\n";
  const { service } = await openWorld(`${boardFile(boardHead("halden-6809", "Halden"))}//- log.md\n${text}`);
  const uri = "mem:/ws/log.md";
  const [finding] = service.findings(uri).filter(({ code }) => code === "unknown-board");
  expect(finding?.message).toContain("Did you mean halden-6809?");
  const [fix] = finding ? service.fixes(uri, finding) : [];
  expect(fix?.title).toBe("Change to halden-6809");
  expect(applyEdits(text, fix?.edits ?? [])).toBe(text.replace("halden", "halden-6809"));
});

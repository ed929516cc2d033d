// What is left of a log when a comment that hides nothing is taken out of it.
import { expect, test } from "vitest";
import { exampleLog } from "../../server/src/checks/example-board";
import { applyEdits } from "../../server/src/text/edits";
import { openWorld } from "../support/workspace";

const URI = "mem:/ws/log.md";

async function mended(text: string) {
  const { service } = await openWorld(exampleLog(""));
  service.open(URI, text);
  const found = service.findings(URI).filter(({ code }) => code === "unused-suppression");
  const fixes = found.map((finding) => service.fixes(URI, finding));
  return fixes.map(([fix]) => fix && { title: fix.title, text: applyEdits(text, fix.edits) });
}

const ALLOW = "<!-- mendlog-allow diode-out-of-window: seen before -->";

test.each([
  ["between empty lines", `## Notes\n\n${ALLOW}\n\nIt hums.\n`, "## Notes\n\nIt hums.\n"],
  ["below a heading", `## Notes\n${ALLOW}\n\nIt hums.\n`, "## Notes\n\nIt hums.\n"],
  ["above a line", `## Notes\n\n${ALLOW}\nIt hums.\n`, "## Notes\n\nIt hums.\n"],
  ["between two lines", `It hums.\n${ALLOW}\n---\n`, "It hums.\n\n---\n"],
  ["indented", `## Notes\n\n  ${ALLOW}  \n\nIt hums.\n`, "## Notes\n\nIt hums.\n"],
  [
    "on several lines",
    `## Notes\n\n<!-- mendlog-allow matrix-dead:\nlater -->\n\nIt hums.\n`,
    "## Notes\n\nIt hums.\n",
  ],
  ["at the end", `## Notes\n\n${ALLOW}`, "## Notes\n\n"],
  ["with something behind it", `## Notes\n\n${ALLOW} <b>!</b>\n`, "## Notes\n\n <b>!</b>\n"],
])("a comment %s goes", async (_, body, rest) => {
  const text = exampleLog(body);
  expect(await mended(text)).toEqual([{ title: "Remove the comment", text: exampleLog(rest) }]);
  const dos = (it: string) => it.replaceAll("\n", "\r\n");
  expect(await mended(dos(text))).toEqual([{ title: "Remove the comment", text: dos(exampleLog(rest)) }]);
});

const READING = "| Ref | Pin | Reading |\n|---|---|---|\n| U14 | 1 | 1.42 |\n";

test.each([
  ["diode-out-of-window, matrix-dead: seen", "diode-out-of-window: seen", "matrix-dead"],
  ["matrix-dead diode-out-of-window", "diode-out-of-window", "matrix-dead"],
  ["diode-out-of-window,matrix-dead", "diode-out-of-window", "matrix-dead"],
])("of the codes in %j the one that hides nothing goes", async (codes, rest, code) => {
  const log = (list: string) => exampleLog(`## Diode check\n\n<!-- mendlog-allow ${list} -->\n\n${READING}`);
  expect(await mended(log(codes))).toEqual([{ title: `Take ${code} out of the comment`, text: log(rest) }]);
});

test("either of two codes that hide nothing takes the comment along", async () => {
  const log = exampleLog("## Notes\n\n<!-- mendlog-allow matrix-dead, matrix-stuck -->\n\nIt hums.\n");
  const one = { title: "Remove the comment", text: exampleLog("## Notes\n\nIt hums.\n") };
  expect(await mended(log)).toEqual([one, one]);
});

test("a comment that is never closed is left to its writer", async () => {
  const found = await mended(exampleLog("## Notes\n\n<!-- mendlog-allow matrix-dead\n\nIt hums.\n"));
  expect(found.length).toBeGreaterThan(0);
  expect(found.every((fix) => fix === undefined)).toBe(true);
});

// A text that is typed in while its names are searched for: its edits would go to other places, so none are given. LSP 3.17,
// LSPErrorCodes.ContentModified.
import { afterEach, expect, test, vi } from "vitest";
import { exampleLog } from "../../server/src/checks/example-board";
import { countingClock, type InProcess, idle, startInProcess } from "./in-process";

let run: InProcess | undefined;
afterEach(async () => {
  await run?.end();
  run = undefined;
  vi.restoreAllMocks();
});

const uriOf = (path: string): string => `file:///bench/${path}`;
const LOG = exampleLog("## Diode check\n\n| Ref | Pin | Reading |\n|---|---|---|\n| U14 | 1 | 0.58 |\n");
const POSITION = { line: 9, character: 3 };

test("a rename is refused, and given where nothing was typed", async () => {
  countingClock(() => run?.work);
  const texts = new Map(Array.from({ length: 40 }, (_, n) => [uriOf(`logs/${n}.md`), LOG] as const));
  run = await startInProcess(
    { texts, folder: "file:///bench" },
    { textDocument: { rename: { prepareSupport: true } } },
    {},
  );
  const { client, work } = run;
  const uri = uriOf("logs/39.md");
  // What is typed takes some turns on its way, so that the log that it is typed into must not be searched first.
  for (let n = 10; n < 40; n++)
    await client.sendNotification("textDocument/didOpen", {
      textDocument: { uri: uriOf(`logs/${n}.md`), languageId: "markdown", version: 1, text: LOG },
    });
  await idle(run);
  const rename = () =>
    client.sendRequest("textDocument/rename", { textDocument: { uri }, position: POSITION, newName: "U77" });
  expect(await rename()).not.toBeNull();

  // Typed at each step of the search in turn: what was searched before the typing is edited by what it was.
  const codes = new Set<number | undefined>();
  for (let step = 1; step <= 60 && !codes.has(-32801); step++) {
    let left = step;
    work.onMore = () => {
      left -= 1;
      if (left !== 0) return;
      void client.sendNotification("textDocument/didChange", {
        textDocument: { uri, version: 1 + step },
        contentChanges: [{ text: `${LOG}${"\n".repeat(step)}` }],
      });
    };
    await rename().then(
      () => codes.add(undefined),
      (error: { code?: number }) => codes.add(error.code),
    );
    work.onMore = () => {};
    await idle(run);
  }
  expect([...codes].filter((code) => code !== undefined)).toEqual([-32801]);
});

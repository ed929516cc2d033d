// A board imported over a real connection: what the client gets to write, what there is to say of it, and an end to it
// when nobody wants it any more.
import { afterEach, expect, test } from "vitest";
import { CancellationTokenSource } from "vscode-jsonrpc/node";
import { builtinLibrary } from "../../server/src/knowledge/library";
import { loadBoard } from "../../server/src/knowledge/load-board";
import { spanOf } from "../../server/src/protocol/convert";
import type { BoardImported } from "../../server/src/protocol/custom-requests/import-board";
import { applyEdits } from "../../server/src/text/edits";
import { lineIndex } from "../../server/src/text/line-index";
import { type Bench, startBench } from "./bench";

let bench: Bench | undefined;
afterEach(() => {
  bench?.end();
  bench = undefined;
});

const NETLIST = `(export (components (comp (ref U1) (value 74LS04)) (comp (ref U2) (value XYZ1234)))
  (nets (net (name "+5V") (node (ref U1) (pin 14)) (node (ref U2) (pin 1))) (net (name GND) (node (ref U1) (pin 7)))))`;

async function importing(text: string, existing?: string): Promise<BoardImported> {
  bench ??= await startBench("", {});
  return bench.client.request("mendlog/importBoard", {
    files: [{ name: "halden.net", text }],
    ...(existing === undefined ? {} : { existing }),
  });
}

test("a new board file, and what there is to say of it", async () => {
  const made = await importing(NETLIST);
  if (!made.ok) throw new Error(made.reasons.join());
  expect(made).toMatchObject({ id: "halden", parts: 2, nets: 2, unmatched: 1, complete: true });
  expect(made.report).toContain("U2 XYZ1234: not in the library");
  const deviceOf = (part: string) => builtinLibrary().device(part)?.device;
  expect(loadBoard(made.text, { deviceOf }).problems).toEqual([]);
});

test.each([
  ["a file that is there", "mendlog-board: 1\r\nid: a\r\ntitle: A # mine\r\nnets:\r\n  SUPPLY: [U1.14]\r\n"],
  ["a file without anything in it", "\n"],
])("edits of %s", async (_, existing) => {
  const made = await importing(NETLIST, existing);
  if (!made.ok) throw new Error(made.reasons.join());
  const lines = lineIndex(existing);
  const edits = made.edits.map(({ range, newText }) => ({ span: spanOf(lines, range), newText }));
  expect(edits.length).toBeGreaterThan(0);
  expect(applyEdits(existing, edits)).toBe(made.text);
  expect(loadBoard(made.text).problems).toEqual([]);
});

test("what cannot be imported is refused in words", async () => {
  expect(await importing("Dear customer")).toEqual({
    ok: false,
    reasons: [expect.stringMatching(/^halden\.net is of a kind that is not known here/)],
  });
  expect(await importing(NETLIST, "- no board\n")).toEqual({
    ok: false,
    reasons: [expect.stringMatching(/^This is not a board file/)],
  });
});

test("one that is no longer wanted ends, and the server goes on", async () => {
  bench = await startBench("", {});
  const large = `(export (components ${'(comp (ref "U1") (value "7404") (of (no (use "x"))))\n'.repeat(150_000)}))`;
  const source = new CancellationTokenSource();
  const asked = bench.client.connection.sendRequest(
    "mendlog/importBoard",
    { files: [{ name: "large.net", text: large }] },
    source.token,
  );
  setTimeout(() => source.cancel(), 20);
  await expect(asked).rejects.toMatchObject({ code: -32800 });
  expect(await importing(NETLIST)).toMatchObject({ ok: true });
});

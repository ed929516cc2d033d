// Tables converted, filled up, copied and put in, over a real connection.
import { afterEach, describe, expect, test } from "vitest";
import type { ClientCapabilities, CodeAction, TextEdit } from "vscode-languageserver-protocol";
import { exampleLog } from "../../server/src/checks/example-board";
import { spanOf } from "../../server/src/protocol/convert";
import type { WireInsertion, WireTableOffers } from "../../server/src/protocol/custom-requests/insert-table";
import { applyEdits } from "../../server/src/text/edits";
import { lineIndex } from "../../server/src/text/line-index";
import { type Bench, cursor, startBench } from "./bench";
import { FULL_CAPABILITIES } from "./client.js";

let bench: Bench | undefined;
afterEach(() => {
  bench?.end();
  bench = undefined;
});

/** Greyed actions are only for a client that can show them. */
const SHOWS_DISABLED: ClientCapabilities = {
  ...FULL_CAPABILITIES,
  textDocument: {
    ...FULL_CAPABILITIES.textDocument,
    codeAction: { ...FULL_CAPABILITIES.textDocument?.codeAction, disabledSupport: true },
  },
};

async function opened(marked: string, capabilities: ClientCapabilities = FULL_CAPABILITIES) {
  bench = await startBench("", { capabilities });
  const { client } = bench;
  const uri = bench.uri("log.md");
  const { text, position } = cursor(marked);
  await client.open(uri, text);
  const textDocument = { uri };
  // Waits for the board file.
  await client.request("textDocument/diagnostic", { textDocument });
  const actions = (only?: string[]): Promise<CodeAction[]> =>
    client.request("textDocument/codeAction", {
      textDocument,
      range: { start: position, end: position },
      context: { diagnostics: [], ...(only && { only }) },
    });
  const offers = (): Promise<WireTableOffers | null> => client.request("mendlog/tableOffers", { uri });
  const insert = (id: string): Promise<WireInsertion | { reason: string } | null> =>
    client.request("mendlog/insertTable", { uri, id, position });
  return { client, uri, text, actions, offers, insert };
}

function edited(text: string, wire: readonly TextEdit[]): string {
  const lines = lineIndex(text);
  return applyEdits(
    text,
    wire.map(({ range, newText }) => ({ span: spanOf(lines, range), newText })),
  );
}

/** The text after the action, which has to be bound to the version it was made for. */
function done(text: string, action: CodeAction | undefined): string {
  const [change] = action?.edit?.documentChanges ?? [];
  if (!change || !("edits" in change)) throw new Error(`No edits in ${JSON.stringify(action)}`);
  expect(change.textDocument.version).toBe(1);
  return edited(text, change.edits as TextEdit[]);
}

const titles = (actions: readonly CodeAction[]) => actions.map(({ title }) => title);
const named = (actions: readonly CodeAction[], part: string) =>
  actions.find(({ title }) => title.includes(part));

const LONG = `## Diode check before repair

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 2   | 0.58    |
| U14 | 1   | 0.5$07    |
`;
const TWICE = LONG.replace("| U14 | 1 ", "| U14 | 2 ");

describe("the changes of a table", () => {
  test("are offered with their kinds, and each does what it says", async () => {
    const { text, actions } = await opened(exampleLog(LONG));
    const all = await actions();
    const rewrites = await actions(["refactor.rewrite"]);
    expect(rewrites.map(({ kind }) => kind)).toEqual(rewrites.map(() => "refactor.rewrite"));
    expect(titles(rewrites)).toEqual([
      "Add the 12 missing pins of U14",
      "Convert to a wide table, one column for each part",
      "Sort the rows by part and pin",
    ]);
    expect(titles(await actions(["refactor.insert"]))).toEqual([
      'Copy as an empty table under "Diode check after repair"',
    ]);
    expect(titles(all).toSorted()).toEqual(titles(await actions(["refactor"])).toSorted());
    expect(await actions(["quickfix"])).toEqual([]);

    expect(done(text, named(all, "Convert"))).toContain(
      "| Pin | U14  |\n|-----|------|\n| 1   | 0.57 |\n| 2   | 0.58 |\n",
    );
    expect(done(text, named(all, "Sort"))).toContain("| U14 | 1   | 0.57    |\n| U14 | 2   | 0.58    |\n");
    const filled = done(text, named(all, "missing pins"));
    expect(filled.match(/^\| U14 /gm)).toHaveLength(14);
    const copied = done(text, named(all, "Copy"));
    expect(copied.startsWith(text)).toBe(true);
    expect(copied.slice(text.length)).toBe(
      "\n## Diode check after repair\n\n| Ref | Pin | Reading |\n|-----|-----|---------|\n| U14 | 2   |         |\n| U14 | 1   |         |\n",
    );
  });

  test("that cannot be made come with the reason, to a client that shows it", async () => {
    const { actions } = await opened(exampleLog(TWICE), SHOWS_DISABLED);
    const convert = named(await actions(), "Convert");
    expect(convert).toMatchObject({
      kind: "refactor.rewrite",
      disabled: { reason: "U14 pin 2 is there twice, and a wide table has one cell for it." },
    });
    expect(convert?.edit).toBeUndefined();
  });

  test("that cannot be made are not sent to any other client", async () => {
    const { actions } = await opened(exampleLog(TWICE));
    const all = await actions();
    expect(named(all, "Copy")).toBeDefined();
    expect(named(all, "Convert")).toBeUndefined();
  });
});

describe("a new table", () => {
  test("is one of those that the board has, laid out where the cursor is", async () => {
    const { client, uri, text, offers, insert } = await opened(exampleLog("## Supply rails, loaded\n\n$0\n"));
    const list = await offers();
    expect(list?.offers).toContainEqual({
      id: "rails:supply-rails",
      kind: "rails",
      label: "Supply rails",
      description: "+5V, +9V raw, +24V",
    });
    expect(list?.offers).toContainEqual(
      expect.objectContaining({ id: "matrix:switches", kind: "matrix", description: "3 rows, 3 columns" }),
    );
    expect(list?.offers).toContainEqual(expect.objectContaining({ id: "chip:U14", kind: "chip" }));

    const made = await insert("rails:supply-rails");
    if (!made || "reason" in made) throw new Error(`No table: ${made?.reason}`);
    expect(made.version).toBe(1);
    const put = edited(text, [{ range: made.range, newText: made.snippet }]);
    expect(put).toContain("## Supply rails, loaded\n\n| Rail ");
    expect(put.match(/^\| \+\S+(?: raw)? +\| \$\{\d+: {5}\}/gm)).toHaveLength(3);

    // What the client showed may be gone by the time it is picked, and the log may be another.
    expect(await insert("chip:U99")).toEqual({ reason: expect.stringContaining('"chip:U99"') });
    await client.change(uri, 2, { text: "# No log\n" });
    expect(await offers()).toBeNull();
    expect(await insert("chip:U14")).toBeNull();
  });

  test("is there without a board for every chip of the library, its designator typed once", async () => {
    const { text, offers, insert } = await opened("---\nmendlog: 1\nboard: other\n---\n\n$0\n");
    const list = await offers();
    expect(list?.offers.find(({ label }) => label === "7404")).toMatchObject({
      id: "device:7404",
      kind: "device",
    });
    const made = await insert("device:7404");
    if (!made || "reason" in made) throw new Error(`No table: ${made?.reason}`);
    const put = edited(text, [{ range: made.range, newText: made.snippet }]);
    expect(put).toMatch(
      /\| Ref \| Device \| Pin .*\n.*\n\| \$\{1:U\?\} {2}\| 7404 {3}\| 1 .*\n\| \$1 {2}\| {8}\| 2 /,
    );
  });

  test("of a file that is not open is none", async () => {
    const { client } = await opened(exampleLog("$0\n"));
    const uri = bench?.uri("elsewhere.md");
    expect(await client.request("mendlog/tableOffers", { uri })).toBeNull();
    const position = { line: 0, character: 0 };
    expect(await client.request("mendlog/insertTable", { uri, id: "chip:U14", position })).toBeNull();
  });
});

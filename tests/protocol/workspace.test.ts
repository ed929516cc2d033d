import { afterEach, describe, expect, test } from "vitest";
import { CancellationTokenSource } from "vscode-jsonrpc/node";
import type { WorkspaceDocumentDiagnosticReport } from "vscode-languageserver-protocol";
import { EXAMPLE_BOARD } from "../../server/src/checks/example-board";
import { type Bench, CLEAN, codesOf, FAULTY, startBench } from "./bench";
import { FULL_CAPABILITIES } from "./client.js";

const capabilities = FULL_CAPABILITIES;
const FILES = `
//- logs/faulty.md
${FAULTY}
//- logs/clean.md
${CLEAN}
//- notes.md
# No log
//- node_modules/pack/a.md
${FAULTY}
//- .hidden/b.md
${FAULTY}
`;

let bench: Bench | undefined;
afterEach(() => {
  bench?.end();
  bench = undefined;
});

const start = async (files = FILES) => {
  bench = await startBench(files, { capabilities });
  return bench;
};

type Items = readonly WorkspaceDocumentDiagnosticReport[];
const codes = (items: Items, uri: string) => {
  const report = items.findLast((it) => it.uri === uri);
  return report?.kind === "full" ? codesOf(report.items) : report?.kind;
};
const previous = (items: Items) => items.map(({ uri, resultId }) => ({ uri, value: resultId ?? "" }));

describe("workspace diagnostics", () => {
  test("cover the logs and board files that are not open, and no other Markdown", async () => {
    const { client, uri } = await start();
    const { items } = await client.request("workspace/diagnostic", { previousResultIds: [] });
    expect(items.map((it: { uri: string }) => it.uri).sort()).toEqual(
      [uri("example.board.yaml"), uri("logs/clean.md"), uri("logs/faulty.md")].sort(),
    );
    expect(codes(items, uri("logs/faulty.md"))).toEqual(["diode-out-of-window", "unknown-designator"]);
    expect(codes(items, uri("logs/clean.md"))).toEqual([]);
  });

  test("are held until something changes, and then tell only that", async () => {
    const { client, uri, write, watched } = await start();
    const { items } = await client.request("workspace/diagnostic", { previousResultIds: [] });
    let answered = false;
    const held = client
      .request("workspace/diagnostic", { previousResultIds: previous(items) })
      .then((report) => {
        answered = true;
        return report;
      });
    await new Promise((resolve) => setTimeout(resolve, 700));
    expect(answered).toBe(false);
    write("logs/clean.md", FAULTY);
    await watched("logs/clean.md", 2);
    const after = (await held).items;
    expect(after.map((it: { uri: string }) => it.uri)).toEqual([uri("logs/clean.md")]);
    expect(codes(after, uri("logs/clean.md"))).toEqual(["diode-out-of-window", "unknown-designator"]);
  });

  test("stream to a client that takes parts, through one request", async () => {
    const { client, uri, write, remove, watched } = await start();
    const source = new CancellationTokenSource();
    const answer = client
      .request("workspace/diagnostic", { previousResultIds: [], partialResultToken: "parts" }, source.token)
      .then(
        () => "answered",
        (error: { code: number }) => error.code,
      );
    const parts = () =>
      client.progress
        .filter(({ token }) => token === "parts")
        .flatMap(({ value }) => (value as { items: Items }).items);
    const waitFor = (what: string, path: string, wanted: unknown) =>
      client.until(what, () =>
        JSON.stringify(codes(parts(), uri(path))) === JSON.stringify(wanted) ? true : undefined,
      );
    await waitFor("The first report", "logs/faulty.md", ["diode-out-of-window", "unknown-designator"]);

    // A new file, a changed one, one that is deleted, and a board file that changes what all logs are judged by.
    write("logs/new.md", FAULTY);
    await watched("logs/new.md", 1);
    await waitFor("The new file", "logs/new.md", ["diode-out-of-window", "unknown-designator"]);
    write("logs/new.md", CLEAN);
    await watched("logs/new.md", 2);
    await waitFor("The mended file", "logs/new.md", []);
    remove("logs/faulty.md");
    await watched("logs/faulty.md", 3);
    await waitFor("The deleted file", "logs/faulty.md", []);
    write("example.board.yaml", EXAMPLE_BOARD.replace("id: example", "id: other"));
    await watched("example.board.yaml", 2);
    await waitFor("The clean log", "logs/clean.md", ["unknown-board"]);

    source.cancel();
    // RequestCancelled of the protocol.
    expect(await answer).toBe(-32800);
  });

  test("leave an open log to its own requests, and come back to it when it is closed", async () => {
    const { client, uri } = await start();
    const log = uri("logs/faulty.md");
    await client.open(log, CLEAN);
    const first = (await client.request("workspace/diagnostic", { previousResultIds: [] })).items;
    expect(first.map((it: { uri: string }) => it.uri)).not.toContain(log);
    const held = client.request("workspace/diagnostic", { previousResultIds: previous(first) });
    await client.close(log);
    expect(codes((await held).items, log)).toEqual(["diode-out-of-window", "unknown-designator"]);
  });

  test("follow the folders the client opens and closes", async () => {
    const { client, uri, root } = await start();
    bench?.write("other/x.board.yaml", "mendlog-board: 1\nid: [\n");
    const { items } = await client.request("workspace/diagnostic", { previousResultIds: [] });
    const held = client.request("workspace/diagnostic", { previousResultIds: previous(items) });
    await client.notify("workspace/didChangeWorkspaceFolders", {
      event: { removed: [{ uri: root, name: "bench" }], added: [{ uri: uri("other"), name: "other" }] },
    });
    const after = (await held).items;
    expect(codes(after, uri("other/x.board.yaml"))).toContain("knowledge-file-invalid");
    expect(codes(after, uri("logs/faulty.md"))).toEqual([]);
  });

  test("do not outlive a shutdown", async () => {
    const { client } = await start();
    const { items } = await client.request("workspace/diagnostic", { previousResultIds: [] });
    const held = client.request("workspace/diagnostic", { previousResultIds: previous(items) });
    await new Promise((resolve) => setTimeout(resolve, 100));
    const status = client.stop();
    expect((await held).items).toEqual([]);
    expect(await status).toBe(0);
  });
});

test("the client is asked to watch what matters, and shown that files are being read", async () => {
  const { client } = await start();
  await client.request("workspace/diagnostic", { previousResultIds: [] });
  const watchers = client.registrations.find(({ method }) => method === "workspace/didChangeWatchedFiles");
  expect(JSON.stringify(watchers?.registerOptions)).toContain("**/*.{board,device,procedure}.yaml");
  expect(client.registrations.map(({ method }) => method)).toContain("workspace/didChangeConfiguration");
  expect(client.progress.map(({ value }) => (value as { kind: string }).kind)).toEqual(["begin", "end"]);
});

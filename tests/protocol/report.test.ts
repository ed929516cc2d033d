import { afterEach, expect, test } from "vitest";
import { type Bench, CLEAN, startBench } from "./bench";
import { FULL_CAPABILITIES } from "./client.js";

let bench: Bench | undefined;
afterEach(() => {
  bench?.end();
  bench = undefined;
});

const PNG = Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0);

async function opened(text: string) {
  bench = await startBench("", { capabilities: FULL_CAPABILITIES });
  const { client, uri } = bench;
  bench.write("photos/a b.png", PNG);
  const said: string[] = [];
  client.connection.onNotification("window/showMessage", ({ message }: { message: string }) => {
    said.push(message);
  });
  await client.open(uri("log.md"), text);
  const report = (...args: unknown[]) =>
    client.request("workspace/executeCommand", { command: "mendlog.writeReport", arguments: args });
  return { client, uri: uri("log.md"), said, report };
}

test("the command gives the report back as text, in the format asked for", async () => {
  const { client, uri, report, said } = await opened(`${CLEAN}\n![a](photos/a%20b.png)\n`);
  expect(client.initialized.capabilities.executeCommandProvider?.commands).toContain("mendlog.writeReport");
  const page = await report(uri);
  expect(page).toMatch(/^<!DOCTYPE html>/);
  expect(page).toContain("Example board");
  expect(page).toContain(`data:image/png;base64,${Buffer.from(PNG).toString("base64")}`);
  expect(await report(uri, "md")).toMatch(/^# Repair report: Example board/);
  expect(JSON.parse(await report(uri, "json"))).toMatchObject({ format: 1 });
  expect(said).toEqual([]);
});

test("it is of the log as it is being typed", async () => {
  const { client, uri, report } = await opened(CLEAN);
  await client.change(uri, 2, { text: CLEAN.replace("board: example", "board: example\nowner: <script>") });
  expect(await report(uri)).toContain("<dd>&lt;script&gt;</dd>");
});

test("pictures outside the workspace stay outside", async () => {
  const { uri, report } = await opened(
    `${CLEAN}\n![a](../../../../../../etc/hostname) ![b](/etc/hostname)\n`,
  );
  const page = await report(uri);
  expect(page).not.toContain("data:image");
  expect(page.match(/Left out/g)).toHaveLength(2);
});

test("what is no log is said, and no text given", async () => {
  const { client, uri, report, said } = await opened("# Just words\n");
  expect(await report(uri)).toBeNull();
  expect(await report()).toBeNull();
  await expect.poll(() => said.length).toBe(2);
  expect(said[0]).toMatch(/no repair log/);
  expect(said[1]).toMatch(/Open the repair log/);
  expect(client.alive).toBe(true);
});

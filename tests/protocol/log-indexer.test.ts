// Earlier jobs on a real disk: the editor is told when they come to count, and says what the command line says.
import { execFileSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import { afterEach, expect, test } from "vitest";
import { EXAMPLE_BOARD } from "../../server/src/checks/example-board";
import { type Bench, startBench } from "./bench";
import { FULL_CAPABILITIES } from "./client.js";

let bench: Bench | undefined;
afterEach(() => {
  bench?.end();
  bench = undefined;
});

const ID = /^id: *(\S+)/m.exec(EXAMPLE_BOARD)?.[1];
const log = (job: string, drop: string, stage: string) => `---
mendlog: 1
job: ${job}
board: ${ID}
stage: ${stage}
---

## Diode check after repair

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | ${drop}   |
`;
const NOW = log("now", "0.650", "diagnosing");
const jobs = (n: number) =>
  Array.from({ length: n }, (_, i) => `//- jobs/${i}.md\n${log(`J${i}`, `0.57${i}`, "returned")}`).join("");

async function untilJudgedBy(text: string, push: boolean) {
  const { client, uri } = bench!;
  const now = uri("now.md");
  // Whose readings it is judged by stands over the reading, and with the finding for a client that is shown where.
  const ask = async () =>
    push
      ? client.published.findLast((it) => it.uri === now)?.diagnostics
      : (await client.request("textDocument/diagnostic", { textDocument: { uri: now } })).items;
  const began = Date.now();
  for (;;) {
    const found = ((await ask()) ?? []).find((it: { message: string }) => it.message.includes(text));
    if (found) return found;
    if (Date.now() - began > 15_000) throw new Error(`Nothing says "${text}".`);
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
}

test.each([
  ["sent its diagnostics", true],
  ["asking for them", false],
])(
  "a client %s hears of the earlier jobs, and of one more when it is saved",
  async (_, push) => {
    const files = `//- now.md\n${NOW}${jobs(5)}`;
    bench = await startBench(files, push ? {} : { capabilities: FULL_CAPABILITIES });
    const { client, uri, write } = bench;
    await client.open(uri("now.md"), NOW);
    const found = await untilJudgedBy("5 boards returned", push);
    expect(found).toMatchObject({ code: "diode-out-of-window" });
    if (!push) {
      // It may come behind the answer that has them already.
      for (let tries = 0; client.refreshes === 0 && tries < 100; tries++)
        await new Promise((go) => setTimeout(go, 50));
      expect(client.refreshes).toBeGreaterThan(0);
      expect(found.relatedInformation.map((it: { location: { uri: string } }) => it.location.uri)).toEqual([
        uri("jobs/0.md"),
        uri("jobs/1.md"),
      ]);
    }
    // Typed it counts for nothing, saved it does.
    const sixth = log("J5", "0.575", "proving");
    write("jobs/5.md", sixth);
    await bench.watched("jobs/5.md", 1);
    await client.open(uri("jobs/5.md"), sixth);
    const returned = sixth.replace("proving", "returned");
    await client.change(uri("jobs/5.md"), 2, { text: returned });
    await new Promise((resolve) => setTimeout(resolve, 1500));
    await untilJudgedBy("5 boards returned", push);
    write("jobs/5.md", returned);
    await client.notify("textDocument/didSave", { textDocument: { uri: uri("jobs/5.md") } });
    await untilJudgedBy("6 boards returned", push);
  },
  60_000,
);

test("closed logs are looked at with all jobs known, and the command line says the same", async () => {
  bench = await startBench(`//- now.md\n${NOW}${jobs(6)}//- notes.md\n# Notes\n`, {
    capabilities: FULL_CAPABILITIES,
  });
  const { client, uri } = bench;
  const { items } = await client.request("workspace/diagnostic", { previousResultIds: [] });
  const seen = new Map<string, string[]>(
    items.map((it: { uri: string; items: { code: string; message: string }[] }) => [
      it.uri,
      it.items.map(({ code, message }) => `${code}: ${message}`),
    ]),
  );
  expect(seen.get(uri("now.md"))?.join()).toContain("6 boards returned");

  const cli = fileURLToPath(new URL("../../dist/cli.cjs", import.meta.url));
  const cwd = fileURLToPath(bench.root);
  const check = (...paths: string[]) => {
    const args = [cli, "check", "--format", "json", "--fail-on", "never", ...paths];
    const out = JSON.parse(execFileSync(process.execPath, args, { cwd, encoding: "utf8" }));
    return new Map<string, string[]>(
      out.files.map((file: { path: string; findings: { code: string; message: string }[] }) => [
        uri(file.path),
        file.findings.map(({ code, message }) => `${code}: ${message}`),
      ]),
    );
  };
  const all = check(".");
  for (const [file, findings] of seen) expect(all.get(file) ?? [], file).toEqual(findings);
  // One log alone is held against the jobs around it too.
  expect(check("now.md").get(uri("now.md"))).toEqual(seen.get(uri("now.md")));
}, 60_000);

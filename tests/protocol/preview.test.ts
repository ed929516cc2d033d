import { afterEach, expect, test } from "vitest";
import type { Preview } from "../../server/src/protocol/custom-requests/preview";
import type { Suspects } from "../../server/src/protocol/custom-requests/suspects";
import { type Bench, cursor, FAULTY, startBench } from "./bench";
import { FULL_CAPABILITIES } from "./client.js";

let bench: Bench | undefined;
afterEach(() => {
  bench?.end();
  bench = undefined;
});

async function opened(text: string, initializationOptions?: unknown) {
  bench = await startBench("", { capabilities: FULL_CAPABILITIES, initializationOptions });
  const uri = bench.uri("log.md");
  await bench.client.open(uri, text);
  return { client: bench.client, uri };
}

test("the preview of a log has its verdicts by line and cell, its findings, and the version it is about", async () => {
  const { client, uri } = await opened(FAULTY.replaceAll("\n", "\r\n"));
  const preview: Preview = await client.request("mendlog/preview", { uri });
  const lines = FAULTY.split("\n");
  expect(preview.version).toBe(1);
  const marks = preview.tables.flatMap((table) => table.marks);
  expect(marks.map(({ text, verdict }) => [text, verdict])).toEqual([
    ["0.58", "within-limits"],
    ["1.42", "out-of-limits"],
    ["0.57", "unjudged"],
  ]);
  for (const { line, column, text } of marks) expect(lines[line]?.split("|")[column + 1]?.trim()).toBe(text);
  expect(lines[preview.tables[0]?.line ?? 0]).toMatch(/^\| Ref/);
  expect(lines[preview.tables[0]?.heading ?? 0]).toMatch(/^## Diode check/);
  expect(preview.findings.map(({ line }) => lines[line]?.slice(0, 5))).toEqual(["| U14", "| U41"]);
});

test("an edit makes another version; two pictures of one page share no id", async () => {
  const more = `| U14 | 4   | 0.57    |\n| U14 | 5   | 0.57    |\n`;
  const table = FAULTY.slice(FAULTY.indexOf("## Diode check"));
  const { client, uri } = await opened(
    `${FAULTY}${more}\n${table.replace("## Diode check", "## Diode check after repair")}${more}`,
  );
  const before: Preview = await client.request("mendlog/preview", { uri });
  const ids = before.tables.flatMap(({ pictures }) =>
    pictures.flatMap(({ svg }) => [...svg.matchAll(/ id="(.*?)"/g)].map(([, id]) => id)),
  );
  expect(ids.length).toBeGreaterThan(2);
  expect(new Set(ids).size).toBe(ids.length);
  await client.notify("textDocument/didChange", {
    textDocument: { uri, version: 2 },
    contentChanges: [{ text: FAULTY }],
  });
  const after: Preview = await client.request("mendlog/preview", { uri });
  expect(after.version).toBe(2);
  expect(after.tables).toHaveLength(1);
});

test("the suspects of a log come with places the client can go to", async () => {
  const { client, uri } = await opened(FAULTY);
  const suspects: Suspects = await client.request("mendlog/suspects", { uri });
  expect(suspects.version).toBe(1);
  const [first] = suspects.suspects;
  expect(first?.name).toBe("U14");
  expect(first?.place?.uri).toMatch(/example\.board\.yaml$/);
  const place = first?.for.find(({ place }) => place)?.place;
  expect(place?.uri).toBe(uri);
  expect(FAULTY.split("\n")[place?.line ?? 0]?.slice(place?.character)).toMatch(/^1\.42/);
  expect(suspects.next?.action).toBeTruthy();
});

test("a log whose board is not known says so", async () => {
  const { client, uri } = await opened(FAULTY.replace(/board: \S+/, "board: nowhere"));
  const suspects: Suspects = await client.request("mendlog/suspects", { uri });
  expect(suspects).toMatchObject({ suspects: [], nothing: expect.stringContaining("No board file") });
  const preview: Preview = await client.request("mendlog/preview", { uri });
  expect(preview.tables).toHaveLength(1);
});

test.each(["mendlog/preview", "mendlog/suspects"])(
  "%s of what is no log, not open or no uri at all is null",
  async (method) => {
    const { client, uri } = await opened("# Notes\n\n| Ref | Pin |\n|---|---|\n| U1 | 2 |\n");
    expect(await client.request(method, { uri })).toBeNull();
    expect(await client.request(method, { uri: `${uri}.nowhere` })).toBeNull();
    expect(await client.request(method, { uri: 7 })).toBeNull();
    expect(await client.request(method, {})).toBeNull();
  },
);

test("pictures in hovers have the colours the client starts with, then those it changes to", async () => {
  const marked = cursor(FAULTY.replace("| U14 | 2 ", "| U1$04 | 2 "));
  const { client, uri } = await opened(marked.text, { pictures: true, theme: "dark" });
  // Answered when the board files are read.
  await client.request("mendlog/preview", { uri });
  const panel = async () => {
    const hover = await client.request("textDocument/hover", {
      textDocument: { uri },
      position: marked.position,
    });
    const [, data = ""] = /base64,([\w+/=]+)/.exec(hover.contents.value) ?? [];
    return /<rect [^>]*fill="(.*?)"/.exec(Buffer.from(data, "base64").toString())?.[1];
  };
  const dark = await panel();
  expect(dark).toMatch(/^#[0-4]/);
  expect(await client.request("mendlog/theme", { theme: "high-contrast" })).toBeNull();
  expect(await panel()).toBe("#000000");
  for (const nonsense of [{ theme: "toString" }, { theme: 3 }, {}]) {
    await client.request("mendlog/theme", nonsense);
    expect(await panel()).toMatch(/^#f/);
  }
  for (const nonsense of [[], null])
    await expect(client.request("mendlog/theme", nonsense)).rejects.toThrow(/needs an object/);
});

test("photographs of before and after are told as a pair by their lines", async () => {
  const log = FAULTY.replace(
    "## Diode check",
    "![U14 before](a.png)\n\n![U14 after](b.png)\n\n## Diode check",
  );
  const { client, uri } = await opened(log);
  const preview: Preview = await client.request("mendlog/preview", { uri });
  const at = (piece: string): number => log.split("\n").findIndex((line) => line.startsWith(piece));
  expect(preview.pairs).toEqual([{ before: at("![U14 before"), after: at("![U14 after") }]);
});

import { afterEach, expect, test } from "vitest";
import { type Bench, CLEAN, cursor, startBench } from "./bench";
import { FULL_CAPABILITIES } from "./client.js";

let bench: Bench | undefined;
afterEach(() => {
  bench?.end();
  bench = undefined;
});

async function hovered(initializationOptions: unknown, capabilities = FULL_CAPABILITIES): Promise<string> {
  bench = await startBench("", { capabilities, initializationOptions });
  const { client, uri } = bench;
  const { text, position } = cursor(CLEAN.replace("| U14 | 2 ", "| U1$04 | 2 "));
  const textDocument = { uri: uri("log.md") };
  await client.open(textDocument.uri, text);
  await client.request("textDocument/diagnostic", { textDocument });
  const hover = await client.request("textDocument/hover", { textDocument, position });
  return hover.contents.value;
}

test("a client that says it shows pictures gets the chip above the table of its pins", async () => {
  const said = await hovered({ pictures: true });
  const [, alt = "", data = ""] =
    /!\[(.*?)\]\(data:image\/svg\+xml;base64,([\w+/=]+)\)\n\n\| Pin \|/.exec(said) ?? [];
  expect(alt).toContain("U14");
  expect(Buffer.from(data, "base64").toString()).toMatch(/^<svg xmlns=.*<\/svg>$/s);
});

test.each([undefined, null, {}, { pictures: false }, { pictures: "yes" }, "pictures"])(
  "%j gets words only",
  async (options) => {
    const said = await hovered(options);
    expect(said).toContain("| Pin | Name |");
    expect(said).not.toMatch(/data:|!\[/);
  },
);

// What the shop file says of the checks, in the editor: below one's own settings, and at once.
import { afterEach, expect, test } from "vitest";
import { type Bench, codesOf, FAULTY, startBench } from "./bench";
import { FULL_CAPABILITIES } from "./client.js";

let bench: Bench | undefined;
afterEach(() => {
  bench?.end();
  bench = undefined;
});

const SHOP = "mendlog-shop: 1\nname: Test bench\n";
const capabilities = {
  workspace: { configuration: true },
  textDocument: { codeAction: FULL_CAPABILITIES.textDocument!.codeAction! },
};

test("the findings follow the shop file as it is typed, and one's own settings come before it", async () => {
  const settings: Record<string, unknown> = {};
  bench = await startBench(`//- mendlog.shop.yaml\n${SHOP}`, { capabilities, settings });
  const { client, uri } = bench;
  const log = uri("log.md");
  const shop = uri("mendlog.shop.yaml");
  const severities = () =>
    Object.fromEntries(
      (client.published.findLast((it) => it.uri === log)?.diagnostics ?? []).map(({ code, severity }) => [
        code,
        severity,
      ]),
    );
  const becomes = (wanted: Record<string, number>) =>
    client.until(JSON.stringify(wanted), () => {
      const now = severities();
      const same =
        Object.keys(now).length === Object.keys(wanted).length &&
        Object.entries(wanted).every(([code, severity]) => now[code] === severity);
      return same ? true : undefined;
    });

  await client.open(log, FAULTY);
  expect(codesOf(await client.diagnostics(log))).toEqual(["diode-out-of-window", "unknown-designator"]);
  await client.open(shop, SHOP, "yaml");
  const said =
    "checks:\n  unknown-designator: { severity: off }\n  diode-out-of-window: { severity: hint }\n";
  await client.change(shop, 2, { text: `${SHOP}${said}` });
  await becomes({ "diode-out-of-window": 4 });

  settings.mendlog = { severity: { "unknown-designator": "error", "diode-out-of-window": "default" } };
  await client.notify("workspace/didChangeConfiguration", { settings: null });
  await becomes({ "diode-out-of-window": 2, "unknown-designator": 1 });

  settings.mendlog = {};
  await client.notify("workspace/didChangeConfiguration", { settings: null });
  await becomes({ "diode-out-of-window": 4 });
  await client.change(shop, 3, { text: SHOP });
  await becomes({ "diode-out-of-window": 2, "unknown-designator": 2 });

  await client.change(shop, 4, { text: `${SHOP}checks: { unknown-desgnator: { severity: off } }\n` });
  const wrong = await client.diagnostics(shop, 4);
  expect(wrong).toMatchObject([
    { code: "knowledge-file-invalid", message: expect.stringContaining("unknown-designator") },
  ]);
  const actions = await client.request("textDocument/codeAction", {
    textDocument: { uri: shop },
    range: wrong[0]!.range,
    context: { diagnostics: wrong },
  });
  expect(JSON.stringify(actions)).toContain("Change to unknown-designator");
});

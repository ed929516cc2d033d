// What people can type into a log must reach the owner as text: nothing runs, nothing is fetched, nothing is lost.
import { describe, expect, test } from "vitest";
import { exampleLog } from "../../../server/src/checks/example-board";
import {
  inlineImages,
  ownerHtml,
  ownerJson,
  ownerMarkdown,
  ownerReport,
} from "../../../server/src/report/owner";
import { imageType, localImagePath, MOST_IMAGE_BYTES } from "../../../server/src/report/owner/images";
import { openWorld } from "../../support/workspace";

const EVIL = `<script>alert(1)</script>]]>--><style>*{display:none}</style>"'&amp;`;

async function reportOf(body: string, front = "", shop = "") {
  const files = shop === "" ? "" : `//- mendlog.shop.yaml\n${shop}`;
  const { service } = await openWorld(`${exampleLog(body, front)}${files}`);
  return ownerReport(service.view("mem:/ws/log.md")!);
}

const tagsIn = (page: string): string[] =>
  [...new Set([...page.matchAll(/<\/?([a-z][a-z0-9]*)/gi)].map(([, name]) => name!.toLowerCase()))].sort();

describe("an owner named <script>", () => {
  const body = `## Notes for the owner

Ask for ${EVIL.replaceAll("|", "")} at the desk.

## Inspection

| Item | Result | Note |
|------|--------|------|
| ${EVIL} | burnt | ${EVIL} |

## Work done

| Ref | Action | Part | Note |
|-----|--------|------|------|
| U14 ${EVIL} | ${EVIL} | ${EVIL} | ${EVIL} |

## Parts fitted

| Part | Ref | Note |
|------|-----|------|
| ${EVIL} | U14 | ${EVIL} |

## Proving

| Item | Result | Note |
|------|--------|------|
| ${EVIL} | ok | ${EVIL} |

![${EVIL.replaceAll("]", "")}](javascript:alert(1))
`;
  const front = `owner: ${JSON.stringify(EVIL)}\nserial: ${JSON.stringify(EVIL)}\nsymptoms: [${JSON.stringify(EVIL)}]\nstage: returned\nreturned: 2026-03-20\n`;
  const shop = `mendlog-shop: 1\nname: ${JSON.stringify(EVIL)}\nreport: { warranty: ${JSON.stringify(EVIL)}, before-you-plug-it-in: ${JSON.stringify(EVIL)} }\n`;

  test("makes no element of the page, and can be read in it", async () => {
    const page = ownerHtml(await reportOf(body, front, shop));
    expect(tagsIn(page)).not.toContain("script");
    expect(page.match(/<style/g)).toHaveLength(1);
    expect(page.match(/&lt;script&gt;alert\(1\)&lt;/g)!.length).toBeGreaterThan(8);
    expect(page).not.toMatch(/ on[a-z]+\s*=/i);
    expect(page).not.toMatch(/(?:src|href|url)\s*[=(]\s*["']?(?!data:)[a-z]+:/i);
    expect(page).toContain("Left out: javascript:alert(1)");
  });

  test("is no HTML in the Markdown, and comes back whole from the JSON", async () => {
    const report = await reportOf(body, front, shop);
    expect(ownerMarkdown(report)).not.toMatch(/(?<!\\)<[a-z/]/i);
    expect(JSON.parse(ownerJson(report))).toEqual(report);
    expect(report.facts.find(({ label }) => label === "Owner")?.text).toBe(EVIL);
  });
});

test("control characters and half characters are shown as what they are: nothing", async () => {
  const page = ownerHtml(await reportOf("", `owner: "a\\u0000b\\u0007c\\uD800d"\n`));
  expect(page).toMatch(/a\ufffdb\ufffdc\ufffd+d/);
});

test("a word longer than the page is wide may be broken", async () => {
  const page = ownerHtml(await reportOf("", `owner: ${"x".repeat(60)}\n`));
  expect(page).toContain(`${"x".repeat(24)}<wbr>${"x".repeat(24)}<wbr>${"x".repeat(12)}`);
});

test("an empty log gives a report that says so", async () => {
  const report = await reportOf("");
  expect(report.draft).toContain("no stage");
  const page = ownerHtml(report);
  expect(page).toContain("The log lists no work.");
  expect(page).toContain("mains");
});

test("text says nothing good of a part on an unpowered reading", async () => {
  const body = `## Diode check before repair

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | 1.42    |

## Work done

| Ref | Action  | Part   |
|-----|---------|--------|
| U14 | replace | 74LS04 |

## Diode check after repair

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | 0.58    |
`;
  const report = await reportOf(body);
  expect(report.charts).toMatchObject([
    { before: { text: "1.42 V", inside: false }, after: { text: "0.58 V", inside: true } },
  ]);
  expect(report.found).toMatchObject([{ outcome: "replaced" }]);
  expect(`${ownerHtml(report)}${ownerMarkdown(report)}`).not.toMatch(/\b(?:good|passed|sound part)\b/i);
});

describe("pictures", () => {
  const PNG = Uint8Array.of(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 0);
  const pictured = (...sources: string[]) =>
    reportOf(sources.map((source) => `![a](${source})`).join("\n\n"));
  const giving = (bytes: Uint8Array) => async (_: string, most: number) =>
    bytes.length > most
      ? ({ ok: false, reason: "too-large", size: bytes.length } as const)
      : ({ ok: true, bytes } as const);

  test("come into the page as data", async () => {
    const report = await inlineImages(await pictured("photos/u14.png"), giving(PNG));
    expect(report.images[0]?.data).toBe(`data:image/png;base64,${Buffer.from(PNG).toString("base64")}`);
    expect(ownerHtml(report)).toContain('<img src="data:image/png;base64,');
  });

  test("of any size keep their bytes", async () => {
    const big = Uint8Array.from({ length: 100_001 }, (_, i) => PNG[i] ?? i % 251);
    const report = await inlineImages(await pictured("a.png"), giving(big));
    expect(Buffer.from(report.images[0]!.data!.split(",")[1]!, "base64").equals(Buffer.from(big))).toBe(true);
  });

  test.each([
    ["from elsewhere", "https://example.org/a.png", PNG, "beside the log"],
    ["with an address of another kind", "file:///etc/passwd", PNG, "beside the log"],
    ["from a root", "/etc/a.png", PNG, "beside the log"],
    ["a drawing that may hold a script", "a.svg", new TextEncoder().encode("<svg onload='x'/>"), "not a PNG"],
    ["too large", "a.png", new Uint8Array(MOST_IMAGE_BYTES + 1).fill(1), "larger than 2 MiB"],
  ])("%s are left out with the reason", async (_, source, bytes, reason) => {
    const report = await inlineImages(await pictured(source), giving(bytes));
    expect(report.images[0]?.data).toBeUndefined();
    expect(report.images[0]?.leftOut).toContain(reason);
    expect(ownerHtml(report)).not.toContain("<img");
  });

  test("share one bound", async () => {
    const each = new Uint8Array(MOST_IMAGE_BYTES);
    each.set(PNG);
    const report = await inlineImages(
      await pictured(..."abcde".split("").map((n) => `${n}.png`)),
      giving(each),
    );
    expect(report.images.map(({ data }) => data !== undefined)).toEqual([true, true, true, true, false]);
  });

  test("are known by their bytes and asked for by plain paths only", () => {
    expect(imageType(Uint8Array.of(0xff, 0xd8, 0xff, 0xe0))).toBe("image/jpeg");
    expect(imageType(new TextEncoder().encode("GIF89a..."))).toBe("image/gif");
    expect(imageType(new TextEncoder().encode("RIFF....WEBPVP8 "))).toBe("image/webp");
    expect(imageType(new TextEncoder().encode("GIF8"))).toBeUndefined();
    expect(localImagePath("a%20b.png?x#y")).toBe("a b.png");
  });

  test.each(["%2Fetc/a.png", "%66ile:/a", "a%00b", "..%5Ca", "%E0%A4%A", "", "//host/a.png"])(
    "are not asked for by %j",
    (path) => expect(localImagePath(path)).toBeUndefined(),
  );
});

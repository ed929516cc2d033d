import { expect, test } from "vitest";
import { linksOfKnowledge, linksOfLog } from "../../../server/src/features/links";
import { openWorld, readFixture } from "../../support/workspace";

/** Every link of every file as "log.md 7 2026-004 -> where". */
async function linksIn(fixture: string): Promise<string[]> {
  const { service } = await openWorld(fixture);
  const logs = await service.jobLogs();
  return readFixture(fixture).flatMap(({ uri }) => {
    const file = service.knowledgeFile(uri);
    const view = service.view(uri);
    const links = file ? linksOfKnowledge(file) : view ? linksOfLog(view, logs) : [];
    const text = service.text(uri) ?? "";
    return links.map(({ span, to }) => {
      const line = text.slice(0, span.start).split("\n").length;
      const where =
        to.kind === "file" ? to.uri.slice("mem:/ws/".length) : to.kind === "path" ? to.path : to.url;
      return `${uri.slice("mem:/ws/".length)} ${line} ${text.slice(span.start, span.end)} -> ${where}`;
    });
  });
}

const job = (name: string, number: string, rest: string, body: string): string =>
  `//- ${name}.md\n---\nmendlog: 1\njob: ${number}\n${rest}---\n\n${body}\n`;

test("a job number leads to its log, from front matter, words and cells; its own does not", async () => {
  const world =
    job("old/a", "2025-081", "", "# First") +
    job(
      "b",
      "2026-014",
      "comeback-of: 2025-081\n",
      `# 2026-014 after 2025-081

Not 2025-0811, not 2025-08, not \`2025-081\`.

## Inspection

| Item | Result | Note |
| --- | --- | --- |
| Edge | ok | as in 2025-081 |`,
    );
  expect(await linksIn(world)).toEqual([
    "b.md 4 2025-081 -> old/a.md",
    "b.md 7 2025-081 -> old/a.md",
    "b.md 15 2025-081 -> old/a.md",
  ]);
});

test("a short number is a job only where it is called one", async () => {
  const world = job("a", '"12"', "", "# Twelve") + job("b", '"13"', "", "12 pins; see job 12.");
  expect(await linksIn(world)).toEqual(["b.md 6 12 -> a.md"]);
});

test("an image in a table is a link; Markdown's own links are left to the editor", async () => {
  const world = job(
    "a",
    '"1"',
    "",
    `![x](x.png) [y](y.md)

## ROM check

| Ref | Image | CRC-32 |
| --- | --- | --- |
| U34 | roms/u34.bin | 1 |
| U35 | \`roms/u35.bin\` | 1 |
| U34 | [image](roms/u34.bin) | 1 |
| U35 | - | 1 |`,
  );
  expect(await linksIn(world)).toEqual([
    "a.md 12 roms/u34.bin -> roms/u34.bin",
    "a.md 13 roms/u35.bin -> roms/u35.bin",
  ]);
});

test("a board file leads to its papers", async () => {
  const world = `//- b.board.yaml
mendlog-board: 1
id: b
title: B
source: https://parts.example/sheets/b.pdf, page 2.
parts:
  U1: { device: 74LS04, note: see ../sheets/74ls04.pdf and b.md } # drawn in edge.png
`;
  expect(await linksIn(world)).toEqual([
    "b.board.yaml 4 https://parts.example/sheets/b.pdf -> https://parts.example/sheets/b.pdf",
    "b.board.yaml 6 ../sheets/74ls04.pdf -> ../sheets/74ls04.pdf",
    "b.board.yaml 6 b.md -> b.md",
    "b.board.yaml 6 edge.png -> edge.png",
  ]);
});

// The page of worked examples: the steps of each are made in a copy of the sources, and what it shows is what comes of it.
import { join } from "node:path";
import { afterAll, afterEach, beforeAll, expect, test } from "vitest";
import { expectCarets, readCarets } from "../support/carets";
import { circlesIn, importsWithin } from "../support/imports";
import { readFixture } from "../support/workspace";
import { type Copy, copyOfSources } from "./copy";
import { type PageSection, readPage, type Shown, sectionsOf } from "./page";
import { changed, isStep } from "./steps";

const PAGE = readPage("adding.md");
const SECTIONS = sectionsOf(PAGE);
const EXAMPLES = SECTIONS.filter(({ blocks }) => blocks.some(isStep));
/** As the page's table counts them; what it links to is the example's heading. */
const COUNTS = new Map(
  [...PAGE.matchAll(/^\| \[(.+?)\]\(#(.+?)\).*\| (\d+) \|$/gm)].map((row) => [row[2]!, Number(row[3])]),
);

const slug = (heading: string): string => heading.toLowerCase().replaceAll(" ", "-");
const isSource = ({ name }: Shown): boolean => /^(?:server\/(?:src|data)|schemas|client\/src)\//.test(name);
const shown = ({ blocks }: PageSection, name: string): string | undefined =>
  blocks.find((block) => block.name === name)?.text;

test("there is an example for each row of the table, and it takes as many source files as the table says", () => {
  const counted = EXAMPLES.map(({ heading, blocks }) => [
    slug(heading),
    new Set(
      blocks
        .filter(isStep)
        .filter(isSource)
        .map(({ name }) => name),
    ).size,
  ]);
  expect(counted).toEqual([...COUNTS]);
});

test("a change that fits nowhere, or twice, is not made", () => {
  expect(changed("a\nb\nc\n", " a\n-b\n+B\n")).toBe("a\nB\nc\n");
  expect(changed("a\nb\n", "+first\n a\n@@\n b\n+last\n")).toBe("first\na\nb\nlast\n");
  expect(() => changed("a\nb\n", " c\n+d\n")).toThrow("no place");
  expect(() => changed("a\na\n", " a\n+d\n")).toThrow("several places");
});

/** Holds what the copy says of the example's log to what the page shows. */
async function expectShown(example: PageSection, copy: Copy): Promise<number> {
  let held = 0;
  const fixture = shown(example, "log.md") ?? "";
  for (const { name } of example.blocks.filter(isStep)) {
    const code = /\/checks\/([\w-]+)\.ts$/.exec(name)?.[1];
    if (code === undefined || code === "codes") continue;
    const { bad, good } = await copy.ask({ ask: "examples", code });
    for (const { text, found } of [...bad, ...good]) expectCarets(readCarets(text), found);
    expect(bad.every(({ found }) => found.some((one) => one.code === code))).toBe(true);
    held += bad.length;
  }
  const log = readFixture(fixture).find(({ uri }) => uri.endsWith("/log.md"))?.marked;
  if (log?.marks.length) {
    expectCarets(log, await copy.ask({ ask: "findings", fixture }));
    held += log.marks.length;
  }
  const suspects = shown(example, "suspects");
  if (suspects !== undefined) {
    const names = suspects.trim().split("\n");
    // A joint of U7 is named with its pin.
    const listed = await copy.ask({ ask: "suspects", fixture });
    expect(names.filter((name, at) => !listed[at]?.includes(name))).toEqual([]);
    held++;
  }
  const hover = shown(example, "hover");
  if (hover !== undefined) {
    expect(await copy.ask({ ask: "hover", fixture })).toContain(hover.trim());
    held++;
  }
  const request = example.blocks.find(({ name }) => name.startsWith("textDocument/"));
  if (request) {
    expect(await copy.ask({ ask: "request", fixture, method: request.name })).toEqual(
      JSON.parse(request.text),
    );
    held++;
  }
  return held;
}

/** Milliseconds: a bundle takes two seconds of a core, and a machine that has other things to do takes its time. */
const PATIENCE = 240_000;

let copy: Copy;
beforeAll(() => {
  copy = copyOfSources();
});
afterEach(() => copy.undo());
afterAll(() => copy.remove());

test.each(EXAMPLES.map((example) => [example.heading, example] as const))(
  "%s: its steps fit the sources, and what was added does what the page shows",
  async (_, example) => {
    await copy.build(example.blocks.filter(isStep));
    expect(await expectShown(example, copy)).toBeGreaterThan(0);
  },
  PATIENCE,
);

test(
  "all examples in one copy are there, compile, and are written as the house writes",
  async () => {
    const steps = EXAMPLES.flatMap(({ blocks }) => blocks.filter(isStep));
    await copy.build(steps);
    const { checks, devices, kinds } = await copy.ask({ ask: "what-there-is" });
    expect(circlesIn(importsWithin(join(copy.folder, "server", "src")))).toEqual([]);
    expect(checks).toContain("work-undated");
    expect(devices).toContain("7439");
    expect(kinds).toEqual(expect.arrayContaining(["contact-resistance", "reseat"]));
    expect(await copy.tool("typescript/bin/tsc", "--noEmit", "-p", "tsconfig.json")).toBe("");
    const sources = [...new Set(steps.map(({ name }) => name))].filter((path) => path.endsWith(".ts"));
    await copy.tool(
      "@biomejs/biome/bin/biome",
      "check",
      "--vcs-enabled=false",
      "--error-on-warnings",
      ...sources,
    );
  },
  PATIENCE,
);

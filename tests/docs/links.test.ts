// Links between the pages, and into the source.
import { existsSync, readdirSync, readFileSync, statSync } from "node:fs";
import { dirname, join, relative } from "node:path";
import { expect, test } from "vitest";

const ROOT = join(import.meta.dirname, "../..");
const pagesIn = (folder: string): string[] =>
  readdirSync(join(ROOT, folder), { recursive: true })
    .map((name) => join(folder, String(name)))
    .filter((name) => name.endsWith(".md"));
const PAGES = [
  "README.md",
  "DEVELOPERS.md",
  "CHANGELOG.md",
  "demo/README.md",
  ...pagesIn("docs"),
  ...pagesIn(".github"),
];

const read = (page: string): string => readFileSync(join(ROOT, page), "utf8");
const withoutCode = (text: string): string =>
  text.replace(/^(```+)[\s\S]*?^\1$/gm, "").replace(/`[^`\n]*`/g, "``");

/** Places of a page that a link may lead to, as the sites that show Markdown make them of headings. */
const anchorsOf = (text: string): string[] =>
  [...text.matchAll(/^#+ (.+)$/gm)].map(([, heading]) =>
    heading!
      .toLowerCase()
      .replace(/[^\p{L}\p{N} _-]/gu, "")
      .replaceAll(" ", "-"),
  );

test("every link leads to a file that is there, and to a heading in it", () => {
  const broken: string[] = [];
  let seen = 0;
  for (const page of PAGES)
    for (const [, target] of withoutCode(read(page)).matchAll(/\]\(([^)\s]+)\)/g)) {
      if (/^[a-z]+:/.test(target!)) continue;
      seen += 1;
      const [path, anchor] = target!.split("#");
      const file = path === "" ? join(ROOT, page) : join(ROOT, dirname(page), path!);
      if (!existsSync(file)) broken.push(`${page}: ${target}`);
      else if (
        anchor !== undefined &&
        statSync(file).isFile() &&
        !anchorsOf(read(relative(ROOT, file))).includes(anchor)
      )
        broken.push(`${page}: ${target}`);
    }
  expect(seen).toBeGreaterThan(200);
  expect(broken).toEqual([]);
});

test("every page of the docs is reached from the README, by however many links", () => {
  const reached = new Set<string>();
  const follow = (page: string): void => {
    if (reached.has(page) || !page.endsWith(".md") || !existsSync(join(ROOT, page))) return;
    reached.add(page);
    for (const [, target] of withoutCode(read(page)).matchAll(/\]\(([^)\s#]+)/g))
      if (!/^[a-z]+:/.test(target!)) follow(join(dirname(page), target!));
  };
  follow("README.md");
  expect(pagesIn("docs").filter((page) => !reached.has(page))).toEqual([]);
});

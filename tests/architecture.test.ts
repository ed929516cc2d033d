import { readFileSync } from "node:fs";
import { dirname, join, posix } from "node:path";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { circlesIn, importsIn, importsWithin, sourcesOf } from "./support/imports";

const TOP = join(dirname(fileURLToPath(import.meta.url)), "..");
const ROOT = join(TOP, "server", "src");
const CLIENT = join(TOP, "client", "src");

/** All that knows the log, and what lies below. */
const UP_TO_REVIEW = [
  "text",
  "quantity",
  "syntax",
  "knowledge",
  "log",
  "compute",
  "judge",
  "review",
] as const;

/** What each layer may import besides itself. Files at the top of server/src are layers of their own. */
const ALLOWED: Readonly<Record<string, readonly string[]>> = {
  // What TypeScript lacks and knows nothing of the program: the lowest floor, which every other may import.
  base: [],
  text: [],
  quantity: ["text"],
  syntax: ["text"],
  knowledge: ["text", "quantity", "syntax"],
  log: ["text", "quantity", "syntax", "knowledge"],
  // Arithmetic that knows no log.
  compute: ["text", "quantity", "knowledge"],
  judge: ["text", "quantity", "syntax", "knowledge", "log", "compute"],
  review: ["text", "quantity", "syntax", "knowledge", "log", "compute", "judge"],
  // Plain data in, a drawing out: whoever calls it has looked everything up.
  pictures: ["text", "knowledge", "compute", "judge"],
  checks: [...UP_TO_REVIEW],
  // Findings and fixes are the one vocabulary that features and reports share with the checks.
  features: [...UP_TO_REVIEW, "pictures", "checks/check"],
  report: [
    "text",
    "quantity",
    "knowledge",
    "log",
    "compute",
    "judge",
    "review",
    "checks/check",
    "checks/registry",
  ],
  workspace: [...UP_TO_REVIEW, "checks/check"],
  "service.ts": [
    "text",
    "knowledge",
    "log",
    "compute",
    "judge",
    "review",
    "checks",
    "features",
    "report",
    "workspace",
  ],
  // What the server's other threads do.
  threads: ["workspace", "service.ts"],
  protocol: ["text", "knowledge", "log", "checks", "features", "workspace", "service.ts", "threads"],
  cli: [
    "text",
    "knowledge",
    "log",
    "compute",
    "judge",
    "review",
    "checks",
    "features",
    "report",
    "workspace",
    "service.ts",
    "protocol",
  ],
  "main.node.ts": ["protocol", "threads", "workspace", "cli", "service.ts"],
  "main.browser.ts": ["protocol"],
  "cli.ts": ["cli", "protocol", "threads", "workspace", "service.ts"],
};

/** Packages that only some layers may use; every other package is free. */
const PACKAGES: readonly (readonly [RegExp, (file: string) => boolean])[] = [
  [/^vscode-(languageserver|jsonrpc|languageclient)/, (file) => /^(protocol\/|main\.|cli\/)/.test(file)],
  [/^vscode$/, () => false],
  [
    /^node:/,
    (file) =>
      /^(protocol\/run-node\.ts|threads\/log-threads\.ts|protocol\/framing\/reader\.ts|workspace\/(?:node-host|parse-thread)\.ts|main\.node\.ts|cli\.ts|cli\/)/.test(
        file,
      ),
  ],
];

/** What holds something by an object that `memo` cannot, and why; everything else that is worked out goes through it. */
const OWN_WEAK_MAPS: Readonly<Record<string, string>> = {
  "workspace/context.ts":
    "Which board stands at a block follows from all blocks, and is written over while the context stays.",
};

const files = sourcesOf(ROOT);

const importsOf = (file: string): string[] => importsIn(readFileSync(join(ROOT, file), "utf8"));

const layerOf = (file: string): string => file.split("/")[0] ?? file;

describe("imports run one way", () => {
  test("there is something to look at, and every layer is named", () => {
    expect(files.length).toBeGreaterThan(80);
    expect([...new Set(files.map(layerOf))].filter((layer) => !(layer in ALLOWED))).toEqual([]);
  });

  test.each(files)("%s imports only what lies below it", (file) => {
    const layer = layerOf(file);
    const wrong = importsOf(file).filter((target) => {
      if (!target.startsWith(".")) {
        return PACKAGES.some(([pattern, may]) => pattern.test(target) && !may(file));
      }
      const path = posix.normalize(posix.join(posix.dirname(file), target));
      // Outside server/src: the schemas, and the manifest for the version number.
      if (path.startsWith("..")) return !/^(\.\.\/)+(schemas\/[\w.-]+|package)\.json$/.test(path);
      const to = path.includes("/") ? layerOf(path) : `${path}.ts`;
      if (to === layer || to === "base") return false;
      return !(ALLOWED[layer] ?? []).some((allowed) => to === allowed || path === allowed);
    });
    expect(wrong).toEqual([]);
  });

  test("checks and features do not import each other", () => {
    const crossing = files.filter((file) =>
      importsOf(file).some(
        (target) =>
          (layerOf(file) === "checks" && target.includes("/features/")) ||
          (layerOf(file) === "features" && /\/checks\/(?!check$)/.test(target)),
      ),
    );
    expect(crossing).toEqual([]);
  });

  test("what features share imports no feature", () => {
    const upward = files.filter(
      (file) =>
        file.startsWith("features/shared/") &&
        importsOf(file).some((target) => {
          const path = posix.normalize(posix.join(posix.dirname(file), target));
          return /^features\/(?!shared\/)[\w-]+\//.test(path);
        }),
    );
    expect(upward).toEqual([]);
  });

  test("no two files import each other, by whatever way round, types included", () => {
    expect(circlesIn(importsWithin(ROOT))).toEqual([]);
    expect(circlesIn(importsWithin(CLIENT))).toEqual([]);
  });

  test("a circle is seen, however long it is", () => {
    const imports = new Map([
      ["a", ["b", "d"]],
      ["b", ["c"]],
      ["c", ["a", "d"]],
      ["d", ["e"]],
      ["e", []],
      ["f", ["f", "a"]],
    ]);
    expect(circlesIn(imports)).toEqual([["a", "b", "c"], ["f"]]);
    expect(
      circlesIn(
        new Map([
          ["a", ["b"]],
          ["b", []],
        ]),
      ),
    ).toEqual([]);
  });

  test("results are kept with their object through memo, and what is kept otherwise is named with its reason", () => {
    const own = files.filter(
      (file) =>
        layerOf(file) !== "base" && /\bnew Weak(?:Map|Set)\b/.test(readFileSync(join(ROOT, file), "utf8")),
    );
    expect(own.sort()).toEqual(Object.keys(OWN_WEAK_MAPS).sort());
  });

  test("a file of more than 300 lines says on its first line why it is long", () => {
    const long = [ROOT, CLIENT].flatMap((root) =>
      sourcesOf(root)
        .map((file) => [file, readFileSync(join(root, file), "utf8")] as const)
        .filter(([, text]) => text.split("\n").length - 1 > 300 && !/^\/\/ Long, because /.test(text))
        .map(([file]) => file),
    );
    expect(long).toEqual([]);
  });
});

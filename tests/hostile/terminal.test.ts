// Whatever stands in the files, and however they are called: no command writes a control onto the terminal, and no page, text or
// table that it writes holds marks of theirs.
import { describe, expect, test } from "vitest";
import { type Files, run } from "../cli/memory";
import { FORMULA, freeFields, hostile, hostileFiles, random } from "./fields";
import { wrongInHtml, wrongInMarkdown, wrongOnTerminal } from "./looks";

const SEED = process.env.MENDLOG_SEED === "random" ? Date.now() % 1e6 : Number(process.env.MENDLOG_SEED ?? 1);
const LOG = "logs/2026-001.md";

const COMMANDS: readonly (readonly string[])[] = [
  ["check"],
  ["check", "--format=json"],
  ["check", "--format=sarif"],
  ["check", "--fix-dry-run"],
  ["diagnose", LOG],
  ["diagnose", "--format=json", LOG],
  ...["html", "md", "json"].flatMap((format) => [
    ["report", "--format", format, LOG],
    ["bill", "--format", format, LOG],
    ["sheet", "--format", format, LOG],
  ]),
  ["sheet", "evil"],
  ["parts", "--all"],
  ["parts", "--all", "--format=csv"],
  ["parts", "--all", "--format=json"],
  ["order"],
  ["order", "--format=csv"],
  ["order", "--format=json"],
  ["stats"],
  ["stats", "--format=json"],
  ["board", "draft", "logs"],
  ["board", "limits", LOG],
  ["new", "--board", "evil"],
];

test("there is much to be hostile in", () => {
  const fields = ["board", "device", "procedure", "shop", "front-matter", "limits"].map(
    (kind) => freeFields(kind).length,
  );
  expect(Math.min(...fields)).toBeGreaterThan(3);
  expect(fields.reduce((sum, count) => sum + count)).toBeGreaterThan(80);
});

describe.each([0, 1, 2, 3].map((n) => [SEED + n, n % 2 === 0] as const))(
  "seed %i, fields as they should be: %s",
  (seed, strict) => {
    const next = random(seed ^ 0x5eed);
    const files: Files = {
      ...Object.fromEntries(hostileFiles(seed, strict)),
      // A name may hold anything but a slash.
      [`logs/${hostile(next).replaceAll("/", "_")}.md`]: "---\nmendlog: 1\nboard: evil\njob: 7\n---\n\n# x\n",
      [`${hostile(next).replaceAll("/", "_")}.board.yaml`]: "mendlog-board: 1\nid: [\n",
    };

    test.each(COMMANDS.map((args) => [args.join(" "), args] as const))("%s", async (_name, args) => {
      const { out, err } = await run(args, files, { terminal: false });
      expect(wrongOnTerminal(out)).toEqual([]);
      expect(wrongOnTerminal(err)).toEqual([]);
      expect(err).not.toContain("a fault in Mendlog itself");
      const format = args[args.indexOf("--format") + 1];
      const isPage =
        args[0] === "stats"
          ? args.length === 1
          : format === "html" || (args[0] === "sheet" && args.length === 2);
      if (isPage && out !== "") expect(wrongInHtml(out)).toEqual([]);
      if (format === "md") expect(wrongInMarkdown(out)).toEqual([]);
      if (args.includes("--format=csv"))
        for (const record of out.split("\r\n"))
          expect(
            record.split(/,(?=(?:[^"]*"[^"]*")*[^"]*$)/).filter((field) => /^"?[=+@]/.test(field)),
          ).toEqual([]);
    });

    test("names and words on the command line itself", async () => {
      const evil = hostile(next);
      for (const args of [
        ["check", evil],
        ["check", "--format", evil],
        ["check", "--severity", evil],
        [evil],
        ["report", evil],
        ["new", "--board", evil],
        ["new", "--board", "evil", "--owner", evil, "--serial", FORMULA, "--symptom", evil],
        ["board", "limits", evil],
        ["parts", evil],
      ]) {
        const { out, err } = await run(args, files);
        expect(wrongOnTerminal(out), args.join(" ")).toEqual([]);
        expect(wrongOnTerminal(err), args.join(" ")).toEqual([]);
      }
    });
  },
);

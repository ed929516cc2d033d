import { readFileSync } from "node:fs";
import { expect, test } from "vitest";
import type { Severity } from "../../server/src/checks/check";
import { CHECKS } from "../../server/src/checks/registry";
import { fingerprints } from "../../server/src/report/fingerprint";
import { jsonReport } from "../../server/src/report/json";
import { countFindings, exitCode, hasFailed } from "../../server/src/report/outcome";
import { sarifReport } from "../../server/src/report/sarif";
import { fileWith, reportOf } from "./sample";
import { sarifErrors } from "./sarif-schema";

const text = "# A\r\n\r\n| U14 | O.58 😀 bad |\r\n";
const related = [{ uri: "mem:/board", span: { start: 4, end: 7 }, message: "limits [are](1) {0}" }];
const mend = { title: "Change", edits: [{ span: { start: 15, end: 19 }, newText: "0.58" }], preferred: true };
const file = fileWith(
  text,
  [
    { at: "O.58", related },
    { at: "bad", severity: "hint", tags: ["unnecessary"] as const },
  ],
  (finding) => (finding.span.start === 15 ? mend : undefined),
  "lögs/a b.md",
);
const problems = [{ path: "c d.md", message: "is not text" }];

test("the JSON shape is the one that is documented", () => {
  const report = jsonReport(reportOf([file], { problems, otherMarkdown: 2 }));
  expect(JSON.parse(report)).toEqual({
    format: 1,
    version: "1.2.3",
    base: "file:///bench/",
    summary: {
      logs: 1,
      knowledgeFiles: 0,
      otherMarkdown: 2,
      error: 0,
      warning: 1,
      information: 0,
      hint: 1,
      failOn: "warning",
      failed: true,
      exitCode: 2,
    },
    problems: [{ path: "c d.md", message: "is not text" }],
    files: [
      {
        path: "lögs/a b.md",
        kind: "log",
        findings: [
          {
            code: "unreadable-value",
            severity: "warning",
            message: "about O.58",
            start: { offset: 15, line: 3, column: 9 },
            end: { offset: 19, line: 3, column: 13 },
            related: [
              {
                path: "b.board.yaml",
                message: "limits [are](1) {0}",
                start: { offset: 4, line: 2, column: 1 },
                end: { offset: 7, line: 2, column: 4 },
              },
            ],
            tags: [],
            fix: {
              title: "Change",
              edits: [
                {
                  start: { offset: 15, line: 3, column: 9 },
                  end: { offset: 19, line: 3, column: 13 },
                  newText: "0.58",
                },
              ],
            },
          },
          {
            code: "unreadable-value",
            severity: "hint",
            message: "about bad",
            start: { offset: 23, line: 3, column: 17 },
            end: { offset: 26, line: 3, column: 20 },
            related: [],
            tags: ["unnecessary"],
          },
        ],
      },
    ],
  });
});

/** Every path to a value: "files[].findings[].start.line". */
function keysOf(value: unknown, at = ""): string[] {
  if (Array.isArray(value)) return value.flatMap((item) => keysOf(item, `${at}[]`));
  if (typeof value !== "object" || value === null) return [at];
  return Object.entries(value).flatMap(([key, item]) => keysOf(item, `${at}.${key}`));
}

test("the example in the documentation has the fields that are written", () => {
  const page = readFileSync(new URL("../../docs/command-line.md", import.meta.url), "utf8");
  const example = JSON.parse(/```json\n([\s\S]*?)```/.exec(page)?.[1] ?? "");
  const written = JSON.parse(jsonReport(reportOf([file], { problems })));
  const related = (key: string) => key.includes(".related[]") || key.includes(".tags[]");
  expect(new Set(keysOf(example))).toEqual(new Set(keysOf(written).filter((key) => !related(key))));
});

test("SARIF is valid by the official schema and says the same", () => {
  const severity = new Map<string, Severity | "off">([
    ["unknown-heading", "off"],
    ["unknown-meter", "hint"],
  ]);
  const log = JSON.parse(sarifReport(reportOf([file], { problems, severity }), CHECKS));
  expect(sarifErrors(log)).toEqual([]);
  const [run] = log.runs;
  expect(run.tool.driver.rules.map((rule: { id: string }) => rule.id)).toEqual(CHECKS.map((c) => c.code));
  expect(run.columnKind).toBe("utf16CodeUnits");
  expect(run.artifacts).toEqual([
    { location: { uri: "l%C3%B6gs/a%20b.md", uriBaseId: "WORKINGFOLDER" }, mimeType: "text/markdown" },
  ]);
  const [first, second] = run.results;
  expect(run.tool.driver.rules[first.ruleIndex].id).toBe(first.ruleId);
  expect(first).toMatchObject({
    ruleId: "unreadable-value",
    level: "warning",
    message: { text: "about O.58" },
  });
  expect(first.locations[0].physicalLocation.region).toEqual({
    startLine: 3,
    startColumn: 9,
    endLine: 3,
    endColumn: 13,
  });
  expect(first.locations[0].physicalLocation.artifactLocation.index).toBe(0);
  expect(first.relatedLocations[0].message.text).toBe("limits \\[are](1) {{0}}");
  expect(first.relatedLocations[0].physicalLocation.artifactLocation.uri).toBe("b.board.yaml");
  expect(first.fixes[0].description.text).toBe("Change");
  expect(first.fixes[0].artifactChanges[0].replacements).toEqual([
    {
      deletedRegion: { startLine: 3, startColumn: 9, endLine: 3, endColumn: 13 },
      insertedContent: { text: "0.58" },
    },
  ]);
  expect(second).toMatchObject({ level: "note", properties: { severity: "hint", tags: ["unnecessary"] } });
  expect(second.fixes).toBeUndefined();
  const [invocation] = run.invocations;
  expect(invocation).toMatchObject({ executionSuccessful: false, exitCode: 2 });
  expect(invocation.toolExecutionNotifications[0]).toMatchObject({
    level: "error",
    message: { text: "c d.md is not text." },
    locations: [{ physicalLocation: { artifactLocation: { uri: "c%20d.md" } } }],
  });
  expect(
    invocation.ruleConfigurationOverrides.map((o: { configuration: unknown }) => o.configuration),
  ).toEqual([{ enabled: false }, { level: "note" }]);
});

test("SARIF of nothing is valid, and the schema test can fail", () => {
  const log = JSON.parse(sarifReport(reportOf([]), CHECKS));
  expect(sarifErrors(log)).toEqual([]);
  log.runs[0].columnKind = "cells";
  log.runs[0].results = [{ level: "hint", message: { text: "x" } }];
  expect(sarifErrors(log)).toHaveLength(2);
});

test("a file outside the working folder has an absolute uri", () => {
  const outside = fileWith("bad", [{ at: "bad" }], undefined, "/else where/x#1.md");
  const log = JSON.parse(sarifReport(reportOf([outside]), CHECKS));
  expect(sarifErrors(log)).toEqual([]);
  expect(log.runs[0].artifacts[0].location).toEqual({ uri: "file:///else%20where/x%231.md" });
  const windows = fileWith("bad", [], undefined, "D:/logs/x.md");
  const other = JSON.parse(sarifReport(reportOf([windows]), CHECKS));
  expect(other.runs[0].artifacts[0].location).toEqual({ uri: "file:///D:/logs/x.md" });
});

test("fingerprints tell findings apart and survive moved lines and re-aligned tables", () => {
  const body = "| bad | 1 |\n| bad | 2 |\n| bad | 1 |\n";
  const at = (source: string) => {
    const findings = [...source.matchAll(/bad/g)].map(({ index }) => ({
      at: "bad",
      span: { start: index, end: index + 3 },
    }));
    return fingerprints(fileWith(source, findings));
  };
  const before = at(body);
  expect(new Set(before).size).toBe(3);
  expect(before.every((name) => /^[0-9a-f]{16}$/.test(name))).toBe(true);
  expect(at(`# Heading\n\nProse.\n\n${body.replaceAll(" | ", "   |   ")}`)).toEqual(before);
  expect(at(body.replace("2", "3"))).toEqual([before[0], expect.not.stringMatching(before[1]!), before[2]]);
});

test.each<[Severity | "never", readonly Severity[], boolean]>([
  ["error", ["warning"], false],
  ["error", ["hint", "error"], true],
  ["warning", ["warning"], true],
  ["warning", ["information"], false],
  ["information", ["information"], true],
  ["information", ["hint"], false],
  ["hint", ["hint"], true],
  ["never", ["error"], false],
  ["hint", [], false],
])("--fail-on %s with %j", (failOn, severities, failed) => {
  const report = reportOf(
    [
      fileWith(
        "bad",
        severities.map((severity) => ({ at: "bad", severity })),
      ),
    ],
    { failOn },
  );
  expect(hasFailed(countFindings(report), failOn)).toBe(failed);
  expect(exitCode(report)).toBe(failed ? 1 : 0);
  expect(exitCode({ ...report, problems })).toBe(2);
});

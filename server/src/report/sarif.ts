// SARIF 2.1.0 (OASIS standard, with errata 01). Section numbers in this file are that document's.
import { defined } from "../base/defined";
import type { Check, Severity } from "../checks/check";
import { type Json, json } from "../text/json";
import { fingerprints } from "./fingerprint";
import type { Range, Report, ReportFile, ReportFinding, ReportFix } from "./model";
import { exitCode } from "./outcome";
import { ruleOf, sarifLevel } from "./sarif-rules";

const SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json";
const BASE = "WORKINGFOLDER";
const NOT_READ = "file-not-read";

/** The report as one SARIF run. `checks` are listed as the rules, in their order. */
export function sarifReport(report: Report, checks: readonly Check[]): Json {
  const index = new Map(checks.map((check, at) => [check.code, at]));
  const places = new Map(report.files.map((file, at) => [file.path, at]));
  const artifact = (path: string) => {
    const at = places.get(path);
    return defined({ ...locationOf(path), index: at });
  };
  const log = {
    $schema: SCHEMA,
    version: "2.1.0",
    runs: [
      {
        tool: { driver: driver(report, checks) },
        columnKind: "utf16CodeUnits",
        originalUriBaseIds: { [BASE]: { uri: report.baseUri } },
        invocations: [invocation(report, index)],
        artifacts: report.files.map((file) => ({
          location: locationOf(file.path),
          mimeType: file.kind === "log" ? "text/markdown" : "application/yaml",
        })),
        results: report.files.flatMap((file) => resultsOf(file, index, artifact)),
      },
    ],
  };
  return json(log);
}

function driver(report: Report, checks: readonly Check[]) {
  return {
    name: "Mendlog",
    version: report.version,
    semanticVersion: report.version,
    rules: checks.map(ruleOf),
    notifications: [{ id: NOT_READ, shortDescription: { text: "A file that could not be looked at." } }],
  };
}

/** A file that was not read means the run did not do all it was asked: then it was not successful (3.20.14). */
function invocation(report: Report, index: ReadonlyMap<string, number>) {
  const overrides = [...report.severity].map(([code, level]) => ({
    descriptor: defined({ id: code, index: index.has(code) ? index.get(code) : undefined }),
    configuration: level === "off" ? { enabled: false } : { level: sarifLevel(level) },
  }));
  return defined({
    executionSuccessful: report.problems.length === 0,
    exitCode: exitCode(report),
    ruleConfigurationOverrides: overrides.length > 0 ? overrides : undefined,
    toolExecutionNotifications: report.problems.map(({ path, message }) => ({
      descriptor: { id: NOT_READ, index: 0 },
      level: "error",
      message: { text: plain(`${path} ${message}.`) },
      locations: [{ physicalLocation: { artifactLocation: locationOf(path) } }],
    })),
    workingDirectory: { uri: report.baseUri },
  });
}

type Artifact = (path: string) => object;

function resultsOf(file: ReportFile, index: ReadonlyMap<string, number>, artifact: Artifact) {
  const names = fingerprints(file);
  return file.findings.map((finding, at) =>
    defined({
      ruleId: finding.code,
      ruleIndex: index.has(finding.code) ? index.get(finding.code) : undefined,
      kind: "fail",
      level: sarifLevel(finding.severity),
      message: { text: plain(finding.message) },
      locations: [{ physicalLocation: physical(file.path, finding, artifact) }],
      relatedLocations: finding.related.length > 0 ? related(finding, artifact) : undefined,
      partialFingerprints: { "mendlogLine/v1": names[at] },
      fixes: finding.fix ? [fixOf(finding.fix, artifact(file.path))] : undefined,
      properties: properties(finding.severity, finding.tags),
    }),
  );
}

const related = (finding: ReportFinding, artifact: Artifact) =>
  finding.related.map((place, id) => ({
    id: id + 1,
    message: { text: plain(place.message) },
    physicalLocation: physical(place.path, place, artifact),
  }));

const physical = (path: string, range: Range, artifact: Artifact) => ({
  artifactLocation: artifact(path),
  region: regionOf(range),
});

const regionOf = ({ start, end }: Range) => ({
  startLine: start.line,
  startColumn: start.column,
  endLine: end.line,
  endColumn: end.column,
});

const fixOf = (fix: ReportFix, artifactLocation: object) => ({
  description: { text: plain(fix.title) },
  artifactChanges: [
    {
      artifactLocation,
      replacements: fix.edits.map((edit) =>
        defined({
          deletedRegion: regionOf(edit),
          insertedContent: edit.newText !== "" ? { text: edit.newText } : undefined,
        }),
      ),
    },
  ],
});

/** The word Mendlog uses, since the level does not tell information from hint. */
const properties = (severity: Severity, tags: readonly string[]) =>
  defined({
    severity,
    tags: tags.length > 0 ? tags : undefined,
  });

/** A path below the working folder is given relative to it (3.4.4); others, which would need "..", are absolute. */
function locationOf(path: string) {
  const absolute = /^(?:[A-Za-z]:)?\//.test(path);
  const encoded = path.split("/").map(encodeURIComponent).join("/");
  if (absolute) return { uri: `file://${path.startsWith("/") ? "" : "/"}${encoded.replace("%3A", ":")}` };
  return { uri: encoded, uriBaseId: BASE };
}

/** In a message, `[words](target)` would be a link (3.11.6) and `{0}` an argument to be filled in (3.11.5). */
const plain = (text: string): string => text.replace(/\[(?=[^\]]*\]\()/g, "\\[").replace(/[{}]/g, "$&$&");

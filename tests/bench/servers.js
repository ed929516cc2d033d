// Ours beside general-purpose language servers, each with a text of its own kind and of the same length: the processor time
// from the start of the process to the first findings, and that of one digit typed in the middle, to its findings. Ours
// reads far more out of its text than the others do of theirs. With --write the table goes into docs/performance.md.
//
//   node tests/bench/servers.js [--write] [lines...]
import { mkdtempSync, rmSync } from "node:fs";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { writeBetween } from "./page.js";
import { install, VERSIONS } from "./servers/install.js";
import { startSession } from "./servers/session.js";

const isWritten = process.argv.includes("--write");
const named = process.argv.slice(2).filter((word) => word !== "--write");
const SIZES = named.length > 0 ? named.map(Number) : [30, 1000, 5000];
const EDITS = 12;
const ROUNDS = 3;
const BEGIN = "<!-- servers: made by npm run bench:servers -->";
const END = "<!-- end of servers -->";

const cache = install();
const inCache = (path) => join(cache, "node_modules", path);
const load = createRequire(join(cache, "package.json"));
const here = (path) => fileURLToPath(new URL(path, import.meta.url));

const pin = (i) => 1 + (i % 14);
const row = (i) => `| U${1 + (i % 40)}  | ${pin(i)}   | 0.${500 + (i % 90)}   |      |`;
/** Sections of 20 rows, one reading of which is no number. */
function log(lines) {
  const text = ["---", "mendlog: 1", "board: sample", "---", "", "# Sample", "", "# Sample"];
  for (let i = 0; text.length < lines; i++) {
    text.push(
      "",
      `## Diode check U${1 + (i % 40)} (7404)`,
      "",
      "| Ref | Pin | Reading | Note |",
      "|-----|-----|---------|------|",
    );
    for (let n = 0; n < 20; n++) text.push(i === 0 && n === 3 ? "| U1 | 4 | O.58 | |" : row(i * 20 + n));
  }
  return `${text.join("\n")}\n`;
}
const yaml = (length) => {
  const text = ["a: 1", "a: 2", "rows:"];
  for (let i = 0, size = 0; size < length; i++)
    size +=
      text[text.push(`  - { ref: U${i % 40}, pin: ${pin(i)}, reading: 0.${500 + (i % 90)} }`) - 1].length + 1;
  return `${text.join("\n")}\n`;
};
const json = (length) => {
  const rows = [];
  for (let i = 0, size = 0; size < length; i++)
    size +=
      rows[rows.push(`    { "ref": "U${i % 40}", "pin": ${pin(i)}, "reading": 0.${500 + (i % 90)} }`) - 1]
        .length + 2;
  return `{\n  "a": 1,\n  "a": 2,\n  "rows": [\n${rows.join(",\n")}\n  ]\n}\n`;
};

const markdownIt = load("markdown-it")({ html: true });
/** What the editor has switched on where a person switches validation on. */
const VALIDATE = {
  enabled: true,
  fragmentLinks: { enabled: "warning" },
  fileLinks: { enabled: "warning", markdownFragmentLinks: "inherit" },
  referenceLinks: { enabled: "warning" },
  duplicateLinkDefinitions: { enabled: "warning" },
  unusedLinkDefinitions: { enabled: "hint" },
  ignoredLinks: [],
};
const SERVERS = [
  {
    name: "Mendlog",
    version: "this one",
    command: [here("../../dist/server.cjs"), "--stdio"],
    languageId: "markdown",
    file: "a.md",
    text: log,
  },
  {
    name: "unified's, with two rules",
    version: VERSIONS["unified-language-server"],
    command: [here("servers/unified.mjs"), cache, "--stdio"],
    languageId: "markdown",
    file: "a.md",
    text: log,
  },
  {
    name: "the editor's Markdown server",
    version: VERSIONS["vscode-markdown-languageserver"],
    command: [inCache("vscode-markdown-languageserver/dist/node/workerMain.js"), "--stdio"],
    languageId: "markdown",
    file: "a.md",
    text: (lines) => `${log(lines)}\n[nowhere](#nowhere)\n`,
    settings: {
      markdown: {
        validate: VALIDATE,
        server: {},
        suggest: { paths: {} },
        preferences: {},
        organizeLinkDefinitions: {},
      },
    },
    pull: true,
    options: { markdownFileExtensions: ["md"] },
    requests: {
      "markdown/parse": ({ text, uri }) => markdownIt.parse(text ?? opened.get(uri) ?? "", {}),
      "markdown/fs/readFile": () => [],
      "markdown/fs/stat": () => undefined,
      "markdown/fs/readDirectory": () => [],
      "markdown/findMarkdownFilesInWorkspace": () => [],
      "markdown/fs/watcher/create": () => undefined,
      "markdown/fs/watcher/delete": () => undefined,
    },
  },
  {
    name: "YAML",
    version: VERSIONS["yaml-language-server"],
    command: [inCache("yaml-language-server/bin/yaml-language-server"), "--stdio"],
    languageId: "yaml",
    file: "a.yaml",
    text: (lines) => yaml(log(lines).length),
    configuration: (section) =>
      section === "yaml" ? { schemaStore: { enable: false }, validate: true } : null,
  },
  {
    name: "JSON",
    version: VERSIONS["vscode-json-languageserver"],
    command: [inCache("vscode-json-languageserver/bin/vscode-json-languageserver"), "--stdio"],
    languageId: "json",
    file: "a.json",
    text: (lines) => json(log(lines).length),
  },
];
/** Of the document that is open, for the server that has its client parse it. */
const opened = new Map();

/** @returns seconds of processor time to the first findings, and milliseconds of it for a digit */
async function measured(server, lines) {
  const folder = mkdtempSync(join(tmpdir(), "mendlog-servers-"));
  try {
    const uri = pathToFileURL(join(folder, server.file)).href;
    const text = server.text(lines);
    const session = await startSession(server.command, { folder: pathToFileURL(folder).href, ...server });
    try {
      opened.set(uri, text);
      await session.open(uri, server.languageId, text);
      let found = await session.findings(uri, 0);
      for (let tries = 0; found.length === 0 && tries < 50; tries++) {
        if (server.pull) await new Promise((go) => setTimeout(go, 100));
        found = await session.findings(uri, session.count(uri));
      }
      if (found.length === 0) throw new Error("nothing was found");
      const first = session.cpu();
      // What is done behind the first findings is not the digit's.
      await new Promise((go) => setTimeout(go, 1500));
      const offset = text.indexOf("0.5", text.length >> 1) + 3;
      const line = text.slice(0, offset).split("\n").length - 1;
      const character = offset - text.lastIndexOf("\n", offset - 1) - 1;
      const began = session.cpu();
      for (let i = 0; i < EDITS; i++) {
        const count = session.count(uri);
        const digit = String((i + 3) % 10);
        const now = text.slice(0, offset) + digit + text.slice(offset + 1);
        opened.set(uri, now);
        const range = { start: { line, character }, end: { line, character: character + 1 } };
        await session.change(uri, i + 2, { range, text: digit });
        await session.findings(uri, count);
      }
      return { first, digit: ((session.cpu() - began) * 1000) / EDITS };
    } finally {
      session.end();
    }
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

const lines = [
  "| Server | Version | Lines | start to first findings, CPU | of the YAML server's | a digit, CPU |",
  "| --- | --- | --- | --- | --- | --- |",
];
for (const size of SIZES) {
  const best = new Map();
  const failed = new Map();
  for (let round = 0; round < ROUNDS; round++) {
    for (const server of SERVERS) {
      const result = await measured(server, size).catch((error) => ({ error: error.message }));
      const before = best.get(server.name);
      if (result.error !== undefined) failed.set(server.name, result.error);
      else if (!before || result.first + result.digit / 1000 < before.first + before.digit / 1000)
        best.set(server.name, result);
    }
  }
  for (const { name, version } of SERVERS) {
    const one = best.get(name);
    if (!one) {
      lines.push(`| ${name} | ${version} | ${size} | ${failed.get(name)} | - | - |`);
      console.log(lines.at(-1));
      continue;
    }
    const ratio = one.first / (best.get("YAML")?.first ?? Number.NaN);
    lines.push(
      `| ${name} | ${version} | ${size} | ${one.first.toFixed(2)} s | ${ratio.toFixed(2)} | ${one.digit.toFixed(1)} ms |`,
    );
    console.log(lines.at(-1));
  }
}
if (isWritten) {
  writeBetween(BEGIN, END, lines.join("\n"));
}

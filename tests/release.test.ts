// What is shipped, as somebody has it who is not here: made twice the same, installed in an empty folder and used.
import { execFileSync } from "node:child_process";
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  utimesSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { basename, dirname, join } from "node:path";
import { inflateRawSync } from "node:zlib";
import Ajv from "ajv";
import { afterAll, beforeAll, expect, test } from "vitest";
import manifest, { contributes, version } from "../package.json";
import { writeNpmPackage } from "../server/build/npm-package.js";
import { codesOf } from "./protocol/bench";
import { startClient } from "./protocol/client.js";

const root = join(import.meta.dirname, "..");
const LOG =
  "---\nmendlog: 1\n---\n\n## Supply rails\n\n| Rail | Reading |\n|------|---------|\n| +5V  | 4.1     |\n";

let folder: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "mendlog-release-"));
});
afterAll(() => rmSync(folder, { recursive: true }));

/** Status and output of a check of one log whose rail is low, in a folder where nothing else lies. */
function check(program: string, name: string): { readonly status: number; readonly out: string } {
  const cwd = join(folder, name);
  mkdirSync(cwd);
  writeFileSync(join(cwd, "log.md"), LOG);
  try {
    return {
      status: 0,
      out: execFileSync(process.execPath, [program, "check", "."], { cwd, encoding: "utf8" }),
    };
  } catch (error) {
    const { status, stdout } = error as { status: number; stdout: string };
    return { status, out: stdout };
  }
}

/** What a server finds in the same log, over standard input and output. */
async function found(command: readonly string[]): Promise<readonly unknown[]> {
  const client = await startClient({ command });
  try {
    await client.open("file:///log.md", LOG);
    return codesOf(await client.diagnostics("file:///log.md"));
  } finally {
    expect(await client.stop()).toBe(0);
  }
}

/** The files that a package's description leads to. */
const documents = ({ icon, contributes: { snippets } }: Described): readonly string[] => [
  icon,
  ...snippets.map(({ path }) => path),
];

interface Described {
  readonly icon: string;
  readonly contributes: { readonly snippets: readonly { readonly path: string }[] };
}

function vsix(name: string, zone: string): Buffer {
  const path = join(folder, name);
  execFileSync(process.execPath, [join(root, "server/build/package.js"), path], {
    stdio: "ignore",
    env: { ...process.env, TZ: zone },
  });
  return readFileSync(path);
}

/** The files of a zip by their paths, by its directory (PKWARE APPNOTE 4.3, from memory). */
function entriesOf(zip: Buffer): Map<string, Buffer> {
  const found = new Map<string, Buffer>();
  const end = zip.lastIndexOf(Buffer.from("PK\x05\x06", "latin1"));
  let at = zip.readUInt32LE(end + 16);
  for (let left = zip.readUInt16LE(end + 10); left > 0; left--) {
    const method = zip.readUInt16LE(at + 10);
    const size = zip.readUInt32LE(at + 20);
    const [name, extra, comment] = [28, 30, 32].map((where) => zip.readUInt16LE(at + where)) as [
      number,
      number,
      number,
    ];
    const local = zip.readUInt32LE(at + 42);
    const data = local + 30 + zip.readUInt16LE(local + 26) + zip.readUInt16LE(local + 28);
    const packed = zip.subarray(data, data + size);
    found.set(zip.toString("utf8", at + 46, at + 46 + name), method === 0 ? packed : inflateRawSync(packed));
    at += 46 + name + extra + comment;
  }
  return found;
}

test("the extension is the same bytes twice, and what is in it runs where nothing else is", async () => {
  const first = vsix("one.vsix", "Pacific/Auckland");
  // Files are younger, and the clock of the place is another.
  utimesSync(join(root, "dist/cli.cjs"), new Date(), new Date());
  expect(vsix("two.vsix", "America/Lima").equals(first)).toBe(true);

  const entries = entriesOf(first);
  for (const path of [
    "dist/extension.cjs",
    "dist/server.cjs",
    "dist/THIRD-PARTY-NOTICES.txt",
    "dist/sbom.cdx.json",
  ])
    expect(entries.has(`extension/${path}`), path).toBe(true);
  expect([...entries.keys()].filter((path) => /node_modules|\.ts$|\.map$|\/tests\//.test(path))).toEqual([]);
  // The gallery takes three numbers.
  const described = JSON.parse(entries.get("extension/package.json")!.toString("utf8"));
  expect(described.version).toMatch(/^\d+\.\d+\.\d+$/);
  const readme = entries.get("extension/readme.md")!.toString("utf8");
  expect(readme).toContain("## Your first log");
  expect(readme).not.toMatch(/!\[/);
  expect([...entries.keys()].filter((path) => /pictures|readme\.md$/i.test(path)).sort()).toEqual([
    "extension/docs/checks/README.md",
    "extension/docs/procedures/README.md",
    "extension/readme.md",
  ]);
  // Whatever the README sends its reader to, besides the source's own pages, lies beside it.
  const pages = [...readme.matchAll(/\]\((docs\/[^)#]+)/g)].map(([, path]) => `extension/${path}`);
  expect(pages.length).toBeGreaterThan(90);
  expect(pages.filter((path) => !entries.has(path))).toEqual([]);
  // Unpacked where an editor has its extensions, all that it begins itself runs.
  const at = join(folder, "extensions");
  for (const [path, bytes] of entries) {
    if (!path.startsWith("extension/")) continue;
    mkdirSync(dirname(join(at, path)), { recursive: true });
    writeFileSync(join(at, path), bytes);
  }
  for (const path of [described.main, described.browser, "dist/web/server.js", ...documents(described)])
    expect(existsSync(join(at, "extension", path)), path).toBe(true);
  expect(check(join(at, "extension/dist/cli.cjs"), "of-vsix").out).toContain("rail-out-of-tolerance");
  expect(await found([join(at, "extension/dist/server.cjs"), "--stdio"])).toContain("rail-out-of-tolerance");
});

test("the package for npm has what it needs, installs without a network and runs", async () => {
  const made = join(folder, "made");
  writeNpmPackage(root, made);
  const own = JSON.parse(readFileSync(join(made, "package.json"), "utf8"));
  expect(own.private).toBeUndefined();
  expect(own.dependencies).toBeUndefined();
  expect(own.repository.url).toMatch(/^https:/);
  execFileSync("npm", ["pack", "--silent", "--pack-destination", folder], { cwd: made });
  const tarball = readdirSync(folder).find((name) => name.endsWith(".tgz"))!;
  const at = join(folder, "installed");
  mkdirSync(at);
  writeFileSync(join(at, "package.json"), "{}");
  execFileSync("npm", ["install", "--offline", "--no-audit", "--no-fund", join(folder, tarball)], {
    cwd: at,
    stdio: "ignore",
  });
  const installed = join(at, "node_modules/mendlog");
  expect(readdirSync(join(installed, "dist")).sort()).toEqual([
    "THIRD-PARTY-NOTICES.txt",
    "cli.cjs",
    "core.cjs",
    "parquet.cjs",
    "protocol.cjs",
    "sbom.cdx.json",
  ]);
  expect(readdirSync(join(installed, "docs")).sort()).toEqual(
    manifest.files
      .filter((path) => path.startsWith("docs/"))
      .map((path) => basename(path))
      .sort(),
  );
  const bin = join(at, "node_modules/.bin/mendlog");
  expect(execFileSync(bin, ["--version"], { encoding: "utf8" }).trim()).toBe(version);
  const { status, out } = check(join(installed, "dist/cli.cjs"), "of-npm");
  expect(out).toContain("rail-out-of-tolerance");
  expect(status).toBe(1);
  expect(await found([join(installed, "dist/cli.cjs"), "serve", "--stdio"])).toContain(
    "rail-out-of-tolerance",
  );

  // What the extension takes for a finding in the output of a task is one.
  const [matcher] = contributes.problemMatchers;
  const lines = out.split("\n").map((line) => new RegExp(matcher!.pattern.regexp).exec(line));
  const [, file, line, column, severity, , code] =
    lines.find((found) => found?.[6] === "rail-out-of-tolerance") ?? [];
  expect([file, line, column, severity, code]).toEqual([
    "log.md",
    "9",
    "10",
    "warning",
    "rail-out-of-tolerance",
  ]);
});

test("the bill of materials is as CycloneDX has it, and names what the notices name", () => {
  const schemas = join(root, "node_modules/@cyclonedx/cyclonedx-library/res/schema");
  const read = (name: string) => JSON.parse(readFileSync(join(schemas, name), "utf8"));
  const ajv = new Ajv({ strict: false, validateFormats: false });
  // The package names its copies otherwise than they name themselves.
  for (const name of ["spdx.SNAPSHOT.schema.json", "jsf-0.82.SNAPSHOT.schema.json"])
    ajv.addSchema({ ...read(name), $id: `http://cyclonedx.org/schema/${name}` });
  const holds = ajv.compile(read("bom-1.5.SNAPSHOT.schema.json"));
  const bom = JSON.parse(readFileSync(join(root, "dist/sbom.cdx.json"), "utf8"));
  expect(holds(bom), JSON.stringify(holds.errors)).toBe(true);
  expect(holds({ ...bom, components: [{ type: "library" }] })).toBe(false);

  const notices = readFileSync(join(root, "dist/THIRD-PARTY-NOTICES.txt"), "utf8");
  const named = [...notices.matchAll(/^-{100}\n\n(\S+) (\S+)$/gm)].map(
    ([, name, which]) => `${name}@${which}`,
  );
  expect(named.length).toBeGreaterThan(60);
  const listed = bom.components.map(
    ({ group, name, version: which }: Record<string, string>) =>
      `${group === undefined ? "" : `${group}/`}${name}@${which}`,
  );
  expect(listed).toEqual(named);
});

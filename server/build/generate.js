// Writes what is made from the checks, the kinds of table and the procedures: the lists of the first two, pages, the table in
// the README, the tables of an export, the settings in package.json and in the schema of the shop file, and the snippets. With
// --check nothing is written, and it fails where something would change.
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";
import { checkPages, checkTable } from "./check-pages.js";
import { loadCore } from "./core.js";
import { exportTables } from "./export-tables.js";
import { bundle, clientTexts } from "./l10n.js";
import { lists } from "./lists.js";
import { manifest } from "./manifest.js";
import { procedurePages } from "./procedure-pages.js";
import { shopSchema } from "./shop-checks.js";
import { snippetsFile } from "./snippets.js";

const ROOT = join(dirname(fileURLToPath(import.meta.url)), "..", "..");
const SHOP_SCHEMA = "schemas/shop.schema.json";
/** Folders whose pages are all generated: one that is not made any more is taken away. */
const OWN_FOLDERS = ["docs/checks", "docs/procedures"];
/** Pages of which a part is generated, and what marks it. */
const CHECKS_IN = { page: "README.md", begin: "<!-- checks:begin -->", end: "<!-- checks:end -->" };
const TABLES_IN = { page: "docs/export.md", begin: "<!-- tables:begin -->", end: "<!-- tables:end -->" };

const read = (path) => (existsSync(join(ROOT, path)) ? readFileSync(join(ROOT, path), "utf8") : undefined);

/** Every generated file by its path; `undefined` for one that is to go. */
export async function generated() {
  const core = await loadCore();
  const procedures = [...core.builtinLibrary().procedures].sort((a, b) => (a.id < b.id ? -1 : 1));
  const files = new Map([...(await checkPages(core)), ...procedurePages(procedures)]);
  for (const folder of OWN_FOLDERS) {
    if (!existsSync(join(ROOT, folder))) continue;
    for (const name of readdirSync(join(ROOT, folder))) {
      const path = `${folder}/${name}`;
      if (name.endsWith(".md") && !files.has(path)) files.set(path, undefined);
    }
  }
  files.set("l10n/bundle.l10n.json", bundle(clientTexts(join(ROOT, "client/src"))));
  files.set("snippets/log.code-snippets", snippetsFile(procedures));
  files.set("package.json", manifest(read("package.json"), core.CHECKS));
  files.set(SHOP_SCHEMA, shopSchema(read(SHOP_SCHEMA), core.CHECKS));
  for (const [place, text] of [
    [CHECKS_IN, checkTable(core.CHECKS, "docs/checks/")],
    [TABLES_IN, exportTables(core.EXPORT_TABLES)],
  ]) {
    const page = pageWith(place, text);
    if (page !== undefined) files.set(place.page, page);
  }
  return files;
}

/** A page with the text between its markers; undefined, with a word about it, where it has none. */
function pageWith({ page, begin: from, end: to }, generatedText) {
  const text = read(page) ?? "";
  const begin = text.indexOf(from);
  const end = text.indexOf(to, begin);
  if (begin < 0 || end < 0) {
    console.error(`${page} has no ${from} and ${to}; what belongs there is left out.`);
    return undefined;
  }
  return `${text.slice(0, begin + from.length)}\n\n${generatedText}\n\n${text.slice(end)}`;
}

const checkOnly = process.argv.includes("--check");
const differing = (files) => [...files].filter(([path, text]) => read(path) !== text);

// The lists come first: what is made of the code is made with them.
const listed = differing(lists(ROOT));
if (!checkOnly) listed.forEach(write);
const changed = [...listed, ...differing(await generated())];

if (checkOnly) {
  for (const [path, text] of changed) {
    console.error(`${path} ${text === undefined ? "should be gone" : "is out of date"}`);
  }
  if (changed.length > 0) {
    console.error("Run `npm run generate` and commit what it writes.");
    process.exitCode = 1;
  }
} else {
  changed.slice(listed.length).forEach(write);
  if (changed.length === 0) console.log("Nothing to change.");
}

function write([path, text]) {
  const file = join(ROOT, path);
  if (text === undefined) {
    rmSync(file);
  } else {
    mkdirSync(dirname(file), { recursive: true });
    writeFileSync(file, text);
  }
  console.log(`${text === undefined ? "removed" : "wrote"} ${path}`);
}

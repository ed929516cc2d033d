// The lists of checks and of kinds of table, as modules: one file a check and a kind, so that what is new is a file and not a
// file and a line in a list of imports.
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { transformSync } from "esbuild";

const CHECKS = "server/src/checks";
const KINDS = "server/src/log/kinds";

const NOTICE = "// Made by `npm run generate`; see server/build/lists.js.";

/** By its path, each list's text; both are held by `generate --check`. */
export const lists = (root) =>
  new Map([
    [`${CHECKS}/by-code.ts`, checkList(codesIn(root))],
    [`${KINDS}/all.ts`, kindList(kindsIn(root))],
  ]);

/** The codes in their order, from the module that the compiler knows them by. */
function codesIn(root) {
  const source = readFileSync(join(root, CHECKS, "codes.ts"), "utf8");
  const module = { exports: {} };
  const { code } = transformSync(source, { loader: "ts", format: "cjs" });
  new Function("module", "exports", code)(module, module.exports);
  return module.exports.CHECK_CODES;
}

/** File names of the records: what has one and nothing else by default. */
const kindsIn = (root) =>
  readdirSync(join(root, KINDS))
    .filter((name) => /^export default \{/m.test(readFileSync(join(root, KINDS, name), "utf8")))
    .map((name) => name.replace(/\.ts$/, ""));

function checkList(codes) {
  const keys = codes.map((code) => `  ${/^\w+$/.test(code) ? code : `"${code}"`}: ${nameOf(code)},`);
  return [
    NOTICE,
    ...imports(codes, [
      ["check", 'import type { Check } from "./check";'],
      ["codes", 'import type { CheckCode } from "./codes";'],
    ]),
    "",
    "/** Each check by its code; it does not compile where a file has another code than its name. */",
    "export const BY_CODE: { readonly [Code in CheckCode]: Check & { readonly code: Code } } = {",
    ...keys,
    "};",
    "",
  ].join("\n");
}

function kindList(ids) {
  return [
    NOTICE,
    ...imports(ids, [["kind", 'import type { KindRecord } from "./kind";']]),
    "",
    "/** By the names of their files. */",
    "export const ALL: readonly KindRecord[] = [",
    ...[...ids].sort().map((id) => `  ${nameOf(id)},`),
    "];",
    "",
  ].join("\n");
}

/** The import of each file's default with those of the types, in the formatter's order. */
const imports = (files, types) =>
  [...files.map((file) => [file, `import ${nameOf(file)} from "./${file}";`]), ...types]
    .sort(([a], [b]) => (a < b ? -1 : 1))
    .map(([, line]) => line);

const nameOf = (file) => file.replace(/-(\w)/g, (_, letter) => letter.toUpperCase());

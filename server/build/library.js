// Turns server/data/**/*.yaml into one module at build time, so that no entry point has to read
// or parse some hundred small YAML files when the server starts; and the schemas into another (validators.js).
import { readdirSync, readFileSync } from "node:fs";
import { dirname, join, relative, sep } from "node:path";
import { fileURLToPath } from "node:url";
import { parse } from "yaml";
import { packed } from "./packed.js";
import { validatorsSource } from "./validators.js";

const DATA = join(dirname(fileURLToPath(import.meta.url)), "..", "data");
const KINDS = {
  devices: ".device.yaml",
  families: ".family.yaml",
  makers: ".maker.yaml",
  procedures: ".procedure.yaml",
};

/** Every data file of one kind: `{ file, data }`, sorted by path. Throws on YAML that does not parse. */
export function readKind(kind) {
  const root = join(DATA, kind);
  return readdirSync(root, { recursive: true })
    .map(String)
    .filter((name) => name.endsWith(KINDS[kind]))
    .sort()
    .map((name) => {
      const file = join(root, name);
      try {
        const data = parse(readFileSync(file, "utf8"));
        return { file: relative(DATA, file).split(sep).join("/"), data };
      } catch (error) {
        throw new Error(`${file}: ${error.message}`);
      }
    });
}

/** The module's source text: for each kind a function that gives its files' data, made anew at every call. */
export function librarySource() {
  const unpacked = join(dirname(DATA), "src", "knowledge", "packed");
  const lists = Object.keys(KINDS).map((kind) => {
    const text = packed(readKind(kind).map(({ data }) => data));
    return `export const ${kind} = () => unpacked(${JSON.stringify(text)});`;
  });
  return [`import { unpacked } from ${JSON.stringify(unpacked)};`, ...lists].join("\n");
}

/** What is made at build time, each a module of the programs. */
const MODULES = {
  "virtual:mendlog-library": librarySource,
  "virtual:mendlog-validators": validatorsSource,
};

export const libraryPlugin = {
  esbuild: () => ({
    name: "mendlog-library",
    setup(build) {
      build.onResolve({ filter: /^virtual:mendlog-/ }, ({ path }) => ({ path, namespace: "mendlog" }));
      build.onLoad({ filter: /.*/, namespace: "mendlog" }, ({ path }) => ({
        contents: MODULES[path](),
        loader: "js",
        resolveDir: DATA,
      }));
    },
  }),
  vite: () => ({
    name: "mendlog-library",
    resolveId: (id) => (id in MODULES ? `\0${id}` : undefined),
    load: (id) => (id.startsWith("\0") ? MODULES[id.slice(1)]?.() : undefined),
  }),
};

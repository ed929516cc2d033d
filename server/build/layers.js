// What the programs have in common is built once: `core.cjs`, all that knows no protocol and no machine, and above it
// `protocol.cjs`, the language server without its way to a client. Command line, server and the browser's worker are
// shells around them. Each layer is a script that names itself, so that Node requires it and a worker, which has no
// `require`, is given all of them one behind the other.
import { join, relative, sep } from "node:path";

const ROOT = join(import.meta.dirname, "../..");
const STUB = "layer";
const ENTRY = "layer-entry";
/** Marks the plug-in's own question, which it is not to answer itself. */
const OWN_QUESTION = "layers";

/** By name, the lowest last, as they can be built: what stands in one is only known when all above it are read. */
export const LAYERS = {
  protocol: { file: "protocol.cjs", global: "mendlogProtocol", below: ["core"] },
  core: { file: "core.cjs", global: "mendlogCore", below: [] },
};

/** Sources that stand above the layers: each is part of the program that needs it. */
const SHELLS =
  /^server\/src\/(?:cli(?:\/|\.ts$)|main\.|protocol\/(?:run-node\.ts$|framing\/)|threads\/log-threads\.ts$|workspace\/(?:node-host|parse-thread)\.ts$)/;
const PROTOCOL = /^(?:server\/src\/protocol|node_modules\/vscode-[a-z-]+\/lib\/(?:common|esm))\//;
const CORE = /^(?:server\/src|schemas|node_modules\/(?!vscode-)[^/]+)\//;

/**
 * @param {string} path from the project's folder, with forward slashes
 * @returns the name of the layer that it is built into, if of any
 */
export function layerOf(path) {
  if (SHELLS.test(path)) return undefined;
  if (PROTOCOL.test(path)) return "protocol";
  return CORE.test(path) ? "core" : undefined;
}

/** Whether a bundler's input is a file, and not what stands for a module of another layer. */
export const isFile = (input) => !input.startsWith(`${STUB}:`) && !input.startsWith(`${ENTRY}:`);

/** The layers of one build: what is asked of them by what stands above. */
export function layersOf() {
  const asked = new Map(Object.keys(LAYERS).map((name) => [name, new Set()]));

  /** Takes what layers below have from there, and notes what that was. */
  const fromLayers = (below) => ({
    name: "from-layers",
    setup(build) {
      // What begins with a slash is told by a module that was made, and stands in the same layer.
      build.onResolve(
        { filter: /^[^/]/, namespace: "file" },
        async ({ path, pluginData, with: _, ...from }) => {
          if (pluginData === OWN_QUESTION || from.kind === "entry-point" || /^(?:node|virtual):/.test(path))
            return undefined;
          const found = await build.resolve(path, { ...from, pluginData: OWN_QUESTION });
          if (found.errors.length > 0 || found.external) return undefined;
          const id = relative(ROOT, found.path).split(sep).join("/");
          const layer = layerOf(id);
          if (!below.includes(layer)) return undefined;
          asked.get(layer).add(id);
          return { path: `${layer}:${id}`, namespace: STUB };
        },
      );
      build.onLoad({ filter: /.*/, namespace: STUB }, ({ path }) => {
        const [layer, id] = path.split(":");
        const { file, global } = LAYERS[layer];
        // In a worker the name is there. Else the file is read here, so that a program that can do without does.
        const there = `typeof ${global} === "object" ? ${global} : require("./${file}")`;
        return { contents: `module.exports = (${there})[${JSON.stringify(id)}];`, loader: "js" };
      });
      build.onResolve({ filter: /^/, namespace: STUB }, ({ path }) => ({ path, external: true }));
    },
  });

  /** Gives out, by its path, each module that was asked for. */
  const entryOf = (name) => ({
    name: "layer-entry",
    setup(build) {
      build.onResolve({ filter: new RegExp(`^${ENTRY}:`) }, () => ({ path: name, namespace: ENTRY }));
      build.onLoad({ filter: /.*/, namespace: ENTRY }, () => ({
        contents: [...asked.get(name)].sort().map(givenOut).join("\n"),
        resolveDir: ROOT,
        loader: "js",
      }));
    },
  });

  return {
    /** For a program that stands on all layers. */
    plugin: fromLayers(Object.keys(LAYERS)),

    /** Options of a layer, to be built when all that stands above it is. */
    layer(name) {
      const { file, global, below } = LAYERS[name];
      return {
        entryPoints: [`${ENTRY}:${name}`],
        outfile: `dist/${file}`,
        // Nothing of Node and nothing of a page: what comes in several kinds is to be the one for workers, which is plain.
        platform: "browser",
        target: "es2022",
        mainFields: ["browser", "module", "main"],
        conditions: ["worker"],
        format: "iife",
        globalName: global,
        footer: { js: `if(typeof module==="object")module.exports=${global};` },
        plugins: [entryOf(name), ...(below.length > 0 ? [fromLayers(below)] : [])],
      };
    },

    /** How many modules are asked of layers: where it grows, they are to be built again. */
    get size() {
      return [...asked.values()].reduce((sum, { size }) => sum + size, 0);
    },
  };
}

/** What is no ES module is given out as it is: a copy would not hold what is put into it later. */
function givenOut(id, n) {
  const path = JSON.stringify(`./${id}`);
  const isCommonJs = /^node_modules\/vscode-[a-z-]+\/lib\/common\//.test(id);
  return [
    isCommonJs ? `const m${n} = require(${path});` : `import * as m${n} from ${path};`,
    `export { m${n} as ${JSON.stringify(id)} };`,
  ].join(" ");
}

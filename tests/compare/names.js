// Exported names that are declared in more than one file, each of which would have to be told apart by whoever reads it.
//
//   node tests/compare/names.js
//
// The sources are read as text, as the formatter leaves them: an export begins at the start of its line.
import { realpathSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { readSources } from "./docs.js";

export { readSources };

const DECLARED =
  /^export (?:declare )?(?:async )?(?:abstract )?(?:function\*?|const|let|interface|type|class|enum) +([\w$]+)/gm;

/**
 * The names that a text declares and exports, each once; what it exports again is not among them.
 * @param {string} text
 * @returns {string[]}
 */
export const namesIn = (text) => [...new Set([...text.matchAll(DECLARED)].map((match) => match[1]))];

/**
 * The files of each name that stands in several.
 * @param {ReadonlyMap<string, string>} sources texts by their paths
 * @returns {ReadonlyMap<string, readonly string[]>}
 */
export function severalTimes(sources) {
  const files = new Map();
  for (const [path, text] of sources)
    for (const name of namesIn(text)) files.set(name, [...(files.get(name) ?? []), path]);
  return new Map([...files].filter(([, paths]) => paths.length > 1));
}

if (process.argv[1] && realpathSync(process.argv[1]) === fileURLToPath(import.meta.url)) {
  const several = severalTimes(readSources());
  for (const [name, paths] of several) console.log(`${name}  ${paths.join("  ")}`);
  console.log(`${several.size} names in several files`);
}

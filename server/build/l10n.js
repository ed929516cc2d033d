// The words of the client, as its source has them: what a translation has to cover.
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";

/** One text in double or single quotes, as the formatter writes them. */
const TEXT = /^\s*("(?:[^"\\\n]|\\.)*"|'(?:[^'\\\n]|\\.)*')\s*[,)]/;

/**
 * The texts of all `l10n.t(...)` in one source.
 * @throws {Error} where one is not a plain text: the editor looks a translation up by the text, so it has to stand there.
 */
export function textsIn(source, path) {
  return [...source.matchAll(/\bl10n\.t\(/g)].map(({ index, 0: call }) => {
    const quoted = TEXT.exec(source.slice(index + call.length))?.[1];
    if (quoted === undefined) {
      const line = source.slice(0, index).split("\n").length;
      throw new Error(`${path}:${line}: l10n.t wants a text in quotes first, {0} standing for what changes.`);
    }
    const inner = quoted.slice(1, -1);
    return JSON.parse(
      quoted[0] === '"' ? quoted : `"${inner.replaceAll("\\'", "'").replaceAll('"', '\\"')}"`,
    );
  });
}

/** Every text of the sources in a folder, each once, in the order of the alphabet. */
export function clientTexts(folder) {
  const files = readdirSync(folder, { recursive: true }).map(String);
  const texts = files
    .filter((name) => name.endsWith(".ts"))
    .flatMap((name) => textsIn(readFileSync(join(folder, name), "utf8"), name));
  return [...new Set(texts)].sort();
}

/** The bundle beside which translations are made: each text stands for itself. */
export const bundle = (texts) =>
  `${JSON.stringify(Object.fromEntries(texts.map((text) => [text, text])), null, 2)}\n`;

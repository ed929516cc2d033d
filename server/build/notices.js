// What the bundles hold of other people's work, with the licence each asks to be passed on.
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { dirname, join, sep } from "node:path";

/** Names that packages keep their licence texts under. */
const LICENCE_FILE = /^(?:licen[cs]e|copying|notice)(?:[.-].*)?$/i;

/**
 * The packages that files of a bundle come from.
 * @param inputs paths from `root`, as the bundler names what it took
 * @returns in the order of their names, each once: `{ name, version, licence, texts, home }`, `licence` as an SPDX
 *   expression or undefined, `texts` what its licence files say
 */
export function packagesOf(inputs, root) {
  const found = new Map();
  for (const input of inputs) {
    const folder = packageFolder(input, root);
    if (folder !== undefined && !found.has(folder)) found.set(folder, describe(folder));
  }
  const byName = new Map([...found.values()].map((one) => [`${one.name}@${one.version}`, one]));
  return [...byName.values()].sort((a, b) => (a.name < b.name ? -1 : a.name > b.name ? 1 : 0));
}

/** The nearest folder up from a file below `node_modules` that holds a package's own description. */
function packageFolder(input, root) {
  if (!input.includes(`node_modules${sep}`) && !input.includes("node_modules/")) return undefined;
  for (let at = dirname(join(root, input)); at !== dirname(at); at = dirname(at)) {
    const file = join(at, "package.json");
    if (!existsSync(file)) continue;
    const { name, version } = JSON.parse(readFileSync(file, "utf8"));
    if (name !== undefined && version !== undefined) return at;
  }
  return undefined;
}

function describe(folder) {
  const { name, version, license, homepage, repository } = JSON.parse(
    readFileSync(join(folder, "package.json"), "utf8"),
  );
  const read = (file) => readFileSync(join(folder, file), "utf8").replaceAll("\r\n", "\n").trim();
  const names = readdirSync(folder).sort();
  const files = names.filter((file) => LICENCE_FILE.test(file)).map(read);
  const readmes = files.length > 0 ? [] : names.filter((file) => /^readme/i.test(file)).map(read);
  const texts = [...files, ...readmes.map(licenceSection)].filter((text) => text !== "");
  const home = homepage ?? (typeof repository === "string" ? repository : repository?.url);
  return { name, version, licence: typeof license === "string" ? license : license?.type, texts, home };
}

/** What a README says under "License", where a package has no file of it. */
function licenceSection(readme) {
  const heading = /^(?:#+ *licen[cs]e\b.*|licen[cs]e *\n[=-]{3,})$/im.exec(readme);
  if (!heading) return "";
  const rest = readme.slice(heading.index + heading[0].length);
  const next = /^(?:#+ .*|.+\n[=-]{3,})$/m.exec(rest);
  return rest.slice(0, next?.index ?? rest.length).trim();
}

/** Packages that nothing may be shipped of: no text says on what terms. */
export const withoutLicence = (packages) => packages.filter(({ texts }) => texts.length === 0);

/** The file that is shipped beside the bundles. */
export function noticesText(packages) {
  const list = packages.map(({ name, version, licence, home, texts }) =>
    [
      `${name} ${version}`,
      ...(licence === undefined ? [] : [`Licence: ${licence}`]),
      ...(home === undefined ? [] : [home]),
      "",
      texts.join("\n\n"),
    ].join("\n"),
  );
  return `${[
    "Mendlog is made with the packages below; parts of them are in its bundles. Each is passed on under its own licence.",
    ...list,
  ].join(`\n\n${"-".repeat(100)}\n\n`)}\n`;
}

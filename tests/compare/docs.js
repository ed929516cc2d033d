// What crosses a folder says what it is: the exports of server/src and client/src that a file of another folder imports,
// and which of them have no doc comment, the most imported first.
//
//   node tests/compare/docs.js [FOLDER]      only what is declared below FOLDER, such as server/src/judge
//
// The sources are read as text, as the formatter leaves them: an export begins at the start of its line.
import { readdirSync, readFileSync, realpathSync } from "node:fs";
import { join, posix, resolve } from "node:path";
import { fileURLToPath } from "node:url";

const SELF = fileURLToPath(import.meta.url);
const TOP = resolve(SELF, "../../..");

const DECLARED =
  /^export (?:declare )?(default )?(?:async )?(?:abstract )?(?:(?:function\*?|const|let|interface|type|class|enum) +([\w$]+)|.)/;
const NAMED = /^(?:import|export) (?:type )?([^"';=()]*?) ?from +"(\.[^"]*)"/gm;
const OWN = /^export (?:type )?\{([^}]*)\};/gm;
/** `const { a, b: c } = await import("./x")`, `(await import("./x")).a` and the type `import("./x").A`. */
const LATE = /(?:\{([^{}]*)\} = [^;{}]*)?\bimport\("(\.[^"]*)"\)(?:\)?\.([\w$]+))?/g;

/** The texts of the sources by their paths from the project's folder. */
export function readSources() {
  const paths = ["server/src", "client/src"].flatMap((root) =>
    readdirSync(join(TOP, root), { recursive: true })
      .map((name) => `${root}/${String(name).replaceAll("\\", "/")}`)
      .filter((path) => path.endsWith(".ts") && !path.endsWith(".d.ts")),
  );
  return new Map(paths.sort().map((path) => [path, readFileSync(join(TOP, path), "utf8")]));
}

/**
 * What is exported and imported by a file of another folder, through others that export it again or at once: its file,
 * name, line from 1, how many such files there are, and whether it is documented. The most imported first. What is
 * imported and declared nowhere is `lost`: the texts were then read wrongly.
 * @param {ReadonlyMap<string, string>} sources texts by their paths
 */
export function crossings(sources) {
  const files = new Map(
    [...sources].map(([path, text]) => [
      path,
      { text, links: linksIn(text), declared: declarationsIn(text), own: ownNames(text) },
    ]),
  );
  const users = new Map();
  for (const path of files.keys())
    for (const { target, name } of importsIn(path, files)) {
      const home = homeOf(target, name, files);
      if (posix.dirname(home.path) === posix.dirname(path)) continue;
      const key = `${home.path} ${home.name}`;
      users.set(key, (users.get(key) ?? new Set()).add(path));
    }
  const declared = [...files].flatMap(([path, file]) =>
    file.declared.map((it) => ({ path, ...it, users: users.get(`${path} ${it.name}`)?.size ?? 0 })),
  );
  const found = new Set(declared.map(({ path, name }) => `${path} ${name}`));
  return {
    all: declared.filter((it) => it.users > 0).sort((a, b) => b.users - a.users),
    lost: [...users.keys()].filter((key) => !found.has(key)),
  };
}

/** What a file declares and exports; of a function's several signatures the first. */
function declarationsIn(text) {
  const lines = text.split("\n");
  const found = lines.flatMap((line, at) => {
    const match = DECLARED.exec(line);
    if (!match || (!match[1] && !match[2])) return [];
    return {
      name: match[1] ? "default" : match[2],
      line: at + 1,
      isDocumented: endsDoc(lines, at - 1, "") || areMembersDocumented(lines, at),
    };
  });
  return found.filter((it, at) => found.findIndex((other) => other.name === it.name) === at);
}

/** Whether a doc comment ends on a line, or above it where only comments for tools lie between. */
function endsDoc(lines, at, indent) {
  let end = at;
  while (lines[end]?.startsWith(`${indent}//`)) end--;
  if (!lines[end]?.endsWith("*/")) return false;
  let begin = end;
  while (begin >= 0 && !lines[begin].startsWith(`${indent}/*`)) begin--;
  const comment = lines
    .slice(begin, end + 1)
    .join(" ")
    .trim();
  return comment.startsWith("/**") && /[^\s*/]/.test(comment);
}

/** Whether what begins on a line is a type of members that each have their own doc comment. */
function areMembersDocumented(lines, at) {
  if (!/^export (?:interface|type) .*\{$/.test(lines[at])) return false;
  const end = lines.findIndex((line, index) => index > at && line.startsWith("}"));
  const body = lines.slice(at + 1, end);
  const members = body.flatMap((line, index) => (/^ {2}[\w"'[(]/.test(line) ? [index] : []));
  return members.length > 0 && members.every((index) => endsDoc(body, index - 1, "  "));
}

/** What a file takes of other sources, once for each name. A whole module taken by one name is left out. */
function importsIn(path, files) {
  const { text, links } = files.get(path);
  const late = [...text.matchAll(LATE)].flatMap(([, listed = "", from, name]) =>
    [...listed.split(",").map((it) => it.split(":")[0].trim()), name].map((it) => ({ from, name: it })),
  );
  return [...links, ...late].flatMap(({ from, name }) => {
    const target = fileOf(path, from, files);
    return target && name && name !== "*" ? { target, name } : [];
  });
}

/** Every name that a file imports or exports again: the file it names, the name there and the name here; "*" for all names. */
function linksIn(text) {
  return [...text.matchAll(NAMED)].flatMap(([line, what, from]) => {
    const isExport = line.startsWith("export");
    const [, listed = ""] = /\{([^}]*)\}/.exec(what) ?? [];
    const [ownDefault] = /^(?!\*)[\w$]+/.exec(what) ?? [];
    return [
      ...namesIn(listed),
      ...(ownDefault ? [{ name: "default", as: ownDefault }] : []),
      ...(what === "*" ? [{ name: "*", as: "*" }] : []),
    ].map((it) => ({ ...it, from, isExport }));
  });
}

/** The names of a list in braces, there and here: `type A, b as c`. */
const namesIn = (listed) =>
  listed.split(",").flatMap((it) => {
    const [name, as = name] = it
      .trim()
      .replace(/^type /, "")
      .split(" as ");
    return name ? { name, as } : [];
  });

/** What a file exports that it has by another line: `export type { A };`. */
const ownNames = (text) => [...text.matchAll(OWN)].flatMap(([, listed]) => namesIn(listed));

/** The file that an import names, where it is one of the sources. */
function fileOf(path, from, files) {
  const target = posix.join(posix.dirname(path), from);
  return [target, `${target}.ts`, `${target}/index.ts`].find((it) => files.has(it));
}

/** Where a name is declared that a file exports, however often it is exported again on the way. */
function homeOf(path, name, files) {
  const { links, own } = files.get(path);
  const mine = own.find(({ as }) => as === name);
  const link = mine
    ? links.find(({ isExport, as }) => !isExport && as === mine.name)
    : links.find(({ isExport, as }) => isExport && as === name);
  if (link) {
    const target = fileOf(path, link.from, files);
    return target ? homeOf(target, link.name, files) : { path, name };
  }
  for (const { from, as } of links) {
    const target = as === "*" ? fileOf(path, from, files) : undefined;
    const home = target && homeOf(target, name, files);
    if (home && files.get(home.path).declared.some((it) => it.name === home.name)) return home;
  }
  return { path, name };
}

if (process.argv[1] && realpathSync(process.argv[1]) === SELF) {
  const { all, lost } = crossings(readSources());
  const asked = all.filter(({ path }) => path.startsWith(process.argv[2] ?? ""));
  for (const key of lost) console.log(`${key}: imported, and declared nowhere`);
  for (const { path, line, name, users } of asked.filter((it) => !it.isDocumented))
    console.log(`${path}:${line} ${name} (${users})`);
  const documented = asked.filter((it) => it.isDocumented).length;
  const share = asked.length === 0 ? 100 : (100 * documented) / asked.length;
  console.log(`${documented} of ${asked.length} documented: ${share.toFixed(1)} %`);
}

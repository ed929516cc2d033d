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
const NAMED = /^(?:import|export) (?:type )?([^"';=()]*?) ?from +"(\.[^"]+)"/gm;
/** `const { a, b: c } = await import("./x")`, `(await import("./x")).a` and the type `import("./x").A`. */
const LATE = /(?:\{([^{}]*)\} = [^;{}]*)?\bimport\("(\.[^"]+)"\)(?:\)?\.([\w$]+))?/g;

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
 * name, line from 1, how many such files there are, and whether it is documented. The most imported first.
 */
export function crossings(sources) {
  const users = new Map();
  for (const [path, text] of sources)
    for (const { target, name } of importsIn(path, text, sources)) {
      const home = homeOf(target, name, sources);
      if (posix.dirname(home.path) === posix.dirname(path)) continue;
      const key = `${home.path} ${home.name}`;
      users.set(key, (users.get(key) ?? new Set()).add(path));
    }
  return [...sources]
    .flatMap(([path, text]) => declarationsIn(text).map((it) => ({ path, ...it })))
    .map((it) => ({ ...it, users: users.get(`${it.path} ${it.name}`)?.size ?? 0 }))
    .filter((it) => it.users > 0)
    .sort((a, b) => b.users - a.users);
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

/** What a file imports of others or exports again, by the file it names. A whole module taken by one name is left out. */
function importsIn(path, text, sources) {
  const found = [];
  const add = (from, names) => {
    const target = fileOf(path, from, sources);
    if (target) for (const name of names) if (name) found.push({ target, name });
  };
  for (const [, what, from] of text.matchAll(NAMED)) {
    const [, listed = ""] = /\{([^}]*)\}/.exec(what) ?? [];
    const isDefault = /^(?!\{|\*|type \{)[\w$]/.test(what);
    add(from, [...namesIn(listed), isDefault && "default"]);
  }
  for (const [, listed = "", from, name] of text.matchAll(LATE))
    add(from, [...listed.split(",").map((it) => it.split(":")[0].trim()), name]);
  return found;
}

/** The names at their home that a list in braces takes: `type A, b as c` takes A and b. */
const namesIn = (listed) =>
  listed.split(",").map((it) =>
    it
      .trim()
      .replace(/^type /, "")
      .replace(/ as .*$/, ""),
  );

/** The file that an import names, where it is one of the sources. */
function fileOf(path, from, sources) {
  const target = posix.join(posix.dirname(path), from);
  return [target, `${target}.ts`, `${target}/index.ts`].find((it) => sources.has(it));
}

/** Where a name is declared that a file exports, however often it is exported again on the way. */
function homeOf(path, name, sources) {
  const text = sources.get(path);
  for (const [line, what, from] of text.matchAll(NAMED)) {
    if (!line.startsWith("export")) continue;
    const target = fileOf(path, from, sources);
    if (!target) continue;
    const [, listed = ""] = /\{([^}]*)\}/.exec(what) ?? [];
    const taken = listed.split(",").map((it) => it.trim().replace(/^type /, ""));
    const again = taken.find((it) => (/ as (.*)$/.exec(it)?.[1] ?? it) === name);
    if (again) return homeOf(target, again.replace(/ as .*$/, ""), sources);
    if (what.startsWith("*") && exportsName(target, name, sources)) return homeOf(target, name, sources);
  }
  return { path, name };
}

function exportsName(path, name, sources) {
  const home = homeOf(path, name, sources);
  return declarationsIn(sources.get(home.path)).some((it) => it.name === home.name);
}

if (process.argv[1] && realpathSync(process.argv[1]) === SELF) {
  const all = crossings(readSources()).filter((it) => it.path.startsWith(process.argv[2] ?? ""));
  for (const it of all) if (!it.isDocumented) console.log(`${it.path}:${it.line} ${it.name} (${it.users})`);
  const documented = all.filter((it) => it.isDocumented).length;
  console.log(`${documented} of ${all.length} documented: ${((100 * documented) / all.length).toFixed(1)} %`);
}

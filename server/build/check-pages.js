import { runExample } from "./examples.js";
import { code, fence, NOTICE, page, table } from "./markdown.js";

/** docs/checks/: a page a check and an index, as paths and texts. */
export async function checkPages(core) {
  const pages = new Map();
  for (const check of core.CHECKS) pages.set(`docs/checks/${check.code}.md`, await checkPage(core, check));
  pages.set("docs/checks/README.md", index(core.CHECKS));
  return pages;
}

/** The same table for the index and the project's README; `folder` is put in front of the links. */
export function checkTable(checks, folder = "") {
  const row = ({ code: name, title, severity, fixes }) => [
    `[${code(name)}](${folder}${name}.md)`,
    title,
    severity,
    fixes ? "yes" : "",
  ];
  return table(["Check", "What it finds", "Severity", "Fix"], checks.map(row));
}

function index(checks) {
  return page(
    NOTICE,
    "# The checks",
    "In the order they are listed everywhere: the file as a whole first, then places, then values. A severity can be changed, or a check turned off, with the setting `mendlog.severity` or `mendlog check --severity CODE=LEVEL`. A comment `<!-- mendlog-allow CODE: why -->` hides a check's findings in its section.",
    checkTable(checks),
  );
}

async function checkPage(core, check) {
  const bad = await Promise.all(
    check.examples.bad.map(async (example) => ({
      files: await runExample(core, check, core.textOf(example)),
      fixes: core.fixesIn(example).map((fix) => ({ ...fix, makes: core.madeBy(fix) })),
    })),
  );
  const good = await Promise.all(check.examples.good.map((example) => runExample(core, check, example)));
  return page(
    NOTICE,
    `# ${check.title}`,
    `${code(check.code)}, ${check.severity}`,
    check.why,
    `**What to do.** ${check.remedy}`,
    check.settledBy && `**Settled.** ${SETTLED[check.settledBy]}`,
    check.fixes
      ? "**Fixes.** Offered where it is clear what was meant. Each is shown below with what it makes of the text."
      : `**No fix is offered.** ${check.noFix}`,
    ...optionsText(check),
    bad.length > 0 && "## Found",
    ...bad.flatMap(({ files, fixes }) => [
      ...files.flatMap((file) => fileText(file, files.length > 1)),
      ...fixes.flatMap(fixText),
    ]),
    good.length > 0 && "## Not found",
    ...good.flatMap((files) => files.flatMap((file) => fileText(file, files.length > 1))),
    usesBoard(check, core.textOf) &&
      "The examples are about a small board of their own, `example`, in `server/src/checks/example-board.ts`.",
  );
}

const SETTLED = {
  "later-reading":
    "By a reading of the same place, taken after a repair and within limits. The finding stays as a hint that names the reading.",
  "later-reading-of-each-pin":
    "By readings of all its pins, taken after a repair and within limits. The finding stays as a hint that names the last of them.",
};

/** What of it can be chosen, and where. */
function optionsText({ code: name, options = [] }) {
  if (options.length === 0) return [];
  return [
    "## Options",
    table(
      ["Option", "What it is", "Default", "From", "To"],
      options.map((option) =>
        [code(option.name), option.description, option.default, option.least, option.most].map(String),
      ),
    ),
    `Chosen with the setting ${code("mendlog.options")}, as in ${code(JSON.stringify({ [name]: { [options[0].name]: options[0].default } }))}, or with ${code(`mendlog check --option ${name}.${options[0].name}=${options[0].default}`)}.`,
  ];
}

/** A fix with the lines it changes, file by file; only another file than the finding's is named. */
function fixText({ title, answer, makes }) {
  const [own, ...others] = makes.split(/^\/\/- (.+)\n/m);
  const asked = answer === undefined ? "" : `, with the name ${code(answer)}`;
  const changes = own === "" ? [] : [{ place: "", lines: own }];
  for (let i = 0; i < others.length; i += 2) changes.push({ place: code(others[i]), lines: others[i + 1] });
  return changes.flatMap(({ place, lines }, i) => {
    const words =
      i === 0 ? `Fix "${escaped(title)}"${asked}${place && `, in ${place}`}:` : `and in ${place}:`;
    return [words, fence(lines.replace(/\n$/, ""), "diff")];
  });
}

function fileText({ name, shown, said }, named) {
  return [
    named && code(name),
    fence(shown, "text"),
    said
      .map(({ text, message }) => `- ${text === "" ? "" : `${code(text)}: `}${escaped(message)}`)
      .join("\n"),
  ];
}

const usesBoard = (check, textOf) =>
  [...check.examples.bad.map(textOf), ...check.examples.good].some((text) =>
    text.includes("\nboard: example\n"),
  );

/** Messages are plain text and quote what was typed; nothing in them may turn into Markdown. */
const escaped = (text) => text.replace(/[\\`*_[\]<>|~]/g, "\\$&");

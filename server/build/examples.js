// A check's examples, made readable: the fixtures they are written as, without their marks but with a caret
// under every place a finding is at, and what is really said there.

/** A caret line of a fixture: blanks, carets, a code and perhaps a piece of the message. */
const CARETS = /^[ \t]*\^+ [a-z0-9-]+(?:: .*)?$/;
const MAX_LINE = 160;
const MAX_QUOTE = 60;

/** The fixture's files with the caret lines taken out. One without `//-` lines is a log. */
function filesOf(fixture) {
  const parts = fixture.split(/^\/\/- (.+)\r?\n/m);
  const files = parts[0].trim() === "" ? [] : [{ name: "log.md", text: parts[0] }];
  for (let i = 1; i < parts.length; i += 2) files.push({ name: parts[i].trim(), text: parts[i + 1] ?? "" });
  return files.map(({ name, text }) => ({
    name,
    text: text
      .split(/(?<=\n)/)
      .filter((line) => !CARETS.test(line.replace(/\r?\n$/, "")))
      .join(""),
  }));
}

/**
 * Runs the whole core over an example.
 * @returns its files, each with `shown` (the text with carets under the places of this check's findings) and
 *   `said` (one `{ text, message }` a finding).
 */
export async function runExample(core, check, fixture) {
  const files = filesOf(fixture);
  const uri = (name) => `mem:/bench/${name}`;
  const texts = new Map(files.map(({ name, text }) => [uri(name), text]));
  if (!files.some(({ name }) => name.endsWith(".board.yaml"))) {
    texts.set(uri("example.board.yaml"), core.EXAMPLE_BOARD);
  }
  const service = new core.Service({
    read: async (name) => texts.get(name),
    list: async () => [...texts.keys()],
  });
  await service.load();
  return files.map(({ name, text }) => {
    service.open(uri(name), text);
    const found = service.findings(uri(name)).filter((finding) => finding.code === check.code);
    const said = found.map((finding) => ({
      text: firstLine(text.slice(finding.span.start, finding.span.end)),
      message: finding.message,
    }));
    return { name, shown: withCarets(core, text, found), said };
  });
}

/** Carets go under the first line of each place; long lines are cut, since nobody reads them in a page. */
function withCarets(core, text, found) {
  const lines = core.lineIndex(text);
  const shown = [];
  for (let line = 0; line < lines.lineCount; line++) {
    const [start, end] = [lines.lineStart(line), lines.lineEnd(line)];
    shown.push(cut(text.slice(start, end)));
    const marks = new Set();
    for (const { span } of found) {
      if (lines.lineAt(span.start) !== line) continue;
      const last = Math.max(Math.min(span.end, end), span.start + 1);
      for (let at = span.start; at < last; at++) marks.add(at - start);
    }
    if (marks.size === 0) continue;
    const width = Math.min(Math.max(...marks) + 1, MAX_LINE);
    shown.push(Array.from({ length: width }, (_, at) => (marks.has(at) ? "^" : " ")).join(""));
  }
  return shown.join("\n");
}

const cut = (line) =>
  line.length > MAX_LINE ? `${line.slice(0, MAX_LINE)} ... (${line.length} characters)` : line;

function firstLine(text) {
  const line = text.split(/\r?\n/)[0];
  return line.length > MAX_QUOTE ? `${line.slice(0, MAX_QUOTE)} ...` : line;
}

import assert from "node:assert/strict";
import { execFileSync } from "node:child_process";

const SEVERITIES = { error: "error", warning: "warning", information: "info", hint: "hint" };
const key = ({ file, line, column, severity, code }) => `${file}:${line}:${column} ${severity} ${code}`;

export default {
  title: "the Problems panel of the demo holds exactly what the command line finds, no file opened",
  workspace: "../../demo",
  async run(editor, { cli, say }) {
    const printed = execFileSync(
      process.execPath,
      [cli, "check", "--format", "json", "--fail-on", "never", "."],
      {
        cwd: editor.folder,
        encoding: "utf8",
      },
    );
    const expected = JSON.parse(printed).files.flatMap(({ path, findings }) =>
      // The panel lists no hints; they are dots in the text.
      findings
        .filter(({ severity }) => severity !== "hint")
        .map(({ code, severity, start }) =>
          key({
            file: path,
            line: start.line,
            column: start.column,
            severity: SEVERITIES[severity],
            code,
          }),
        ),
    );
    assert.ok(expected.length > 20, "the demo is full of mistakes");
    await editor.press("Control+Shift+M");
    const counted = async () => {
      const text = (await editor.page.locator("#status\\.problems").textContent()) ?? "";
      return [...text.matchAll(/\d+/g)].reduce((sum, [count]) => sum + Number(count), 0);
    };
    await editor.until(
      `${expected.length} problems`,
      async () => (await counted()) === expected.length,
      30_000,
    );
    await editor.page.waitForSelector(".markers-panel .marker-message");
    // The panel draws its rows a while after the count stands in the status bar.
    let rows = [];
    await editor.until(
      "a row for each",
      async () => {
        rows = await editor.problems();
        return rows.length === expected.length;
      },
      30_000,
    );
    assert.deepEqual(rows.map(key).sort(), expected.sort());
    for (const it of rows) {
      assert.match(it.source, /^mendlog$/);
      for (const place of it.related) assert.doesNotMatch(place, /Ln 1, Col 1]/, `${it.file}:${it.line}`);
      assert.match(it.message, /^\S.*[.?]$/s, `${it.file}:${it.line} ${it.code}`);
    }
    say(`${rows.length} problems in ${new Set(rows.map((it) => it.file)).size} files`);
    await editor.screenshot("demo");
  },
};

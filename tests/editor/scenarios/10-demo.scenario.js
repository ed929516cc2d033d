import assert from "node:assert/strict";
import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";

export default {
  title: "every log of the demo opens, and every problem shown has a code and a sentence",
  workspace: "../../demo",
  async run(editor) {
    const logs = readdirSync(join(editor.folder, "logs"))
      .filter((name) => name.endsWith(".md"))
      .map((name) => `logs/${name}`)
      .filter((name) => /^mendlog: *1$/m.test(readFileSync(join(editor.folder, name), "utf8")));
    assert.ok(logs.length > 0, "the demo has logs");
    for (const log of logs) await editor.openFile(log);
    await editor.waitForProblem((it) => it.source !== "");
    for (const it of await editor.problems()) {
      assert.match(it.code, /^[a-z]+(-[a-z]+)*$/, `${it.file}:${it.line} ${it.message}`);
      assert.match(it.message, /\w.*\.$/s, `${it.file}:${it.line} ${it.code}`);
    }
    await editor.screenshot("demo");
  },
};

import assert from "node:assert/strict";
import { cpSync, mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { findCommand } from "../install.js";
import { workThroughNeovim } from "../neovim/neovim.js";

const BENCH = fileURLToPath(new URL("../bench", import.meta.url));

export default {
  title: "Neovim set up as its page says fixes, renames, formats and writes the suspects",
  window: false,
  skip: () => (findCommand("nvim") ? undefined : "nvim is not installed"),
  async run(_editor, { repository, cli }) {
    const page = readFileSync(join(repository, "docs/other-editors.md"), "utf8");
    const [init, , command] = [...page.matchAll(/```lua\n([\s\S]*?)```/g)].map(([, lua]) => lua);
    assert.ok(init && command, "the page has no lines for Neovim");
    const folder = mkdtempSync(join(tmpdir(), "mendlog-neovim-"));
    try {
      const root = join(folder, "bench");
      cpSync(BENCH, root, { recursive: true });
      const path = join(folder, "bin");
      mkdirSync(path);
      const started = `#!/bin/sh\nexec '${process.execPath}' '${cli}' "$@"\n`;
      writeFileSync(join(path, "mendlog"), started, { mode: 0o755 });
      const file = join(root, "logs", "faulty.md");
      const seen = await workThroughNeovim(folder, { init: `${init}\n${command}`, path, root, file });

      assert.ok(seen.findings >= 3, `${seen.findings} findings`);
      assert.ok(seen.fix, "no quick fix");
      assert.match(seen.fixed, /\| U14 \| 4 +\| 0\.58 /);
      assert.ok(seen.references >= 4, `${seen.references} references`);
      assert.match(seen.signature, /Reading/);
      assert.match(seen.renamed, /\| U77 \| 2 /);
      assert.match(seen.board, /U77/);
      assert.notEqual(seen.ragged, seen.formatted);
      assert.match(seen.formatted, /\n\| U77 \| 2 +\| 1\.42 +\|/);
      assert.match(seen.written, /## Suspects[\s\S]*U77/);
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  },
};

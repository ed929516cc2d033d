import assert from "node:assert/strict";
import { cpSync, existsSync, mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { findCommand } from "../install.js";
import { askThroughNeovim } from "../neovim/neovim.js";

const BENCH = fileURLToPath(new URL("../bench", import.meta.url));

export default {
  title: "Neovim gets diagnostics, hover and completion from the same server",
  window: false,
  skip: () => (findCommand("nvim") ? undefined : "nvim is not installed"),
  async run(_editor, { cli }) {
    assert.ok(existsSync(cli), `${cli} is missing: run npm run build`);
    const folder = mkdtempSync(join(tmpdir(), "mendlog-neovim-"));
    try {
      const root = join(folder, "bench");
      cpSync(BENCH, root, { recursive: true });
      const file = join(root, "logs", "faulty.md");
      const lines = readFileSync(file, "utf8").split("\n");
      const place = (text, into) => {
        const line = lines.findIndex((it) => it.includes(text));
        return { line, character: lines[line].indexOf(text) + into };
      };
      const answers = await askThroughNeovim(folder, {
        cmd: [process.execPath, cli, "serve", "--stdio"],
        root,
        file,
        hover: place("U14", 1),
        completion: place("U41", 1),
      });
      const codes = answers.diagnostics.map((it) => it.code);
      for (const code of ["diode-out-of-window", "unknown-designator", "unreadable-value"]) {
        assert.ok(codes.includes(code), `${code} among ${codes.join(", ")}`);
      }
      const open = answers.diagnostics.find((it) => it.code === "diode-out-of-window");
      assert.deepEqual(open.range.start, place("1.42", 0));
      assert.match(JSON.stringify(answers.hover.contents), /74LS04/);
      const items = answers.completion.items ?? answers.completion;
      const labels = items.map((it) => it.label);
      for (const ref of ["U14", "U15", "U20"])
        assert.ok(labels.includes(ref), `${ref} among ${labels.join(", ")}`);
    } finally {
      rmSync(folder, { recursive: true, force: true });
    }
  },
};

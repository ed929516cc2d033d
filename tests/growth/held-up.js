// How long a server is deaf to everybody while it is given a text: with it, no key in any other log is answered.
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { startClient } from "../protocol/client.js";

const HOOK = fileURLToPath(new URL("./stint.cjs", import.meta.url));
const KEY =
  "---\nmendlog: 1\n---\n\n## Diode check\n\n| Ref | Pin | Reading |\n|---|---|---|\n| U14 | 1 | 0.58 |\n";

/** @param {Record<string, string>} files that lie in the folder, by path */
export async function startHeldUp(files = {}) {
  const folder = mkdtempSync(join(tmpdir(), "mendlog-held-"));
  for (const [path, text] of Object.entries(files)) {
    mkdirSync(dirname(join(folder, path)), { recursive: true });
    writeFileSync(join(folder, path), text);
  }
  const uri = (path) => pathToFileURL(join(folder, path)).href;
  const client = await startClient({
    folders: [pathToFileURL(folder).href],
    nodeOptions: ["--require", HOOK],
  });
  let version = 1;
  const look = async () => {
    const from = client.stderr.length;
    process.kill(client.pid, "SIGUSR2");
    for (;;) {
      const said = /stint ([\d.]+) cpu ([\d.]+)\n/.exec(client.stderr.slice(from));
      if (said) return { stint: Number(said[1]), cpu: Number(said[2]) };
      await new Promise((resolve) => setTimeout(resolve, 5));
    }
  };
  const key = uri("key.md");
  await client.open(key, KEY);
  await client.diagnostics(key);
  return {
    client,
    uri,
    /**
     * Opens the text and types one sign at its end, while somebody types in another log.
     * @returns {Promise<{ stint: number, cpu: number, key: number, codes: string[] }>} milliseconds: the longest stint without hearing
     * anybody, all that the processor did, and the longest that a key in the other log took on the clock
     */
    async give(path, text, block) {
      const before = await look();
      let typing = true;
      let longest = 0;
      const typist = (async () => {
        while (typing) {
          const at = performance.now();
          version++;
          await client.change(key, version, { text: KEY.replace("0.58", `0.${50 + (version % 9)}`) });
          await client.diagnostics(key, version);
          longest = Math.max(longest, performance.now() - at);
          await new Promise((resolve) => setTimeout(resolve, 5));
        }
      })();
      if (block) process.kill(client.pid, "SIGPWR");
      await client.open(uri(path), text, path.endsWith(".md") ? "markdown" : "yaml");
      await client.diagnostics(uri(path), 1);
      const lines = text.split(/\r\n|\n|\r/);
      const end = { line: lines.length - 1, character: lines.at(-1).length };
      await client.change(uri(path), 2, { range: { start: end, end }, text: "x" });
      const position = { line: end.line, character: end.character + 1 };
      const textDocument = { uri: uri(path) };
      await Promise.all([
        client.request("textDocument/hover", { textDocument, position }),
        client.request("textDocument/completion", { textDocument, position }),
        client.request("textDocument/documentSymbol", { textDocument }),
      ]);
      const found = await client.diagnostics(uri(path), 2);
      typing = false;
      await typist;
      const after = await look();
      await client.close(uri(path));
      client.published.length = 0;
      return {
        stint: after.stint,
        cpu: after.cpu - before.cpu,
        key: longest,
        codes: [...new Set(found.map(({ code }) => code))],
      };
    },
    end() {
      client.kill();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

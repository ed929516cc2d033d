// One window of an editor: a server process, and the documents that are open in front of it.
import { fileURLToPath } from "node:url";
import { FULL_CAPABILITIES, startClient } from "../../protocol/client.js";

const HOOK = fileURLToPath(new URL("./gc.cjs", import.meta.url));
/** Milliseconds that a server has to come to what a fresh one says: it reads closed logs when nobody has typed for a while. */
const SETTLES = 120_000;
/** Milliseconds in which every question has its answer, on a busy machine too. */
const HANGS = 90_000;

export async function openWindow(folder, documents = new Map()) {
  const client = await startClient({
    folders: [folder.uri("").replace(/\/$/, "")],
    capabilities: FULL_CAPABILITIES,
    nodeOptions: ["--expose-gc", "--require", HOOK],
  });
  /** A question without an answer is a server that hangs. */
  const ask = async (method, params) => {
    let timer;
    const late = new Promise((_, reject) => {
      timer = setTimeout(
        () => reject(new Error(`${method} has no answer: ${JSON.stringify(params).slice(0, 200)}`)),
        HANGS,
      );
    });
    try {
      return await Promise.race([client.request(method, params), late]);
    } finally {
      clearTimeout(timer);
    }
  };
  /** Text and version by path. */
  const open = new Map();
  const window = {
    client,
    open,
    async show(path, text) {
      if (open.has(path)) return;
      open.set(path, { text, version: 1 });
      await client.open(folder.uri(path), text, path.endsWith(".md") ? "markdown" : "yaml");
    },
    async hide(path) {
      if (open.delete(path)) await client.close(folder.uri(path));
    },
    async type(path, { from, to, text }) {
      const document = open.get(path);
      const at = (offset) => positionAt(document.text, offset);
      const range = { start: at(from), end: at(to) };
      const end = offsetAt(document.text, range.end);
      const start = Math.min(end, offsetAt(document.text, range.start));
      document.text = document.text.slice(0, start) + text + document.text.slice(end);
      document.version++;
      await client.change(folder.uri(path), document.version, {
        range: { start: range.start, end: range.end },
        text,
      });
    },
    saved: (path) => client.notify("textDocument/didSave", { textDocument: { uri: folder.uri(path) } }),
    /** @param changes path and 1 made, 2 changed, 3 deleted */
    watched: (changes) =>
      client.notify("workspace/didChangeWatchedFiles", {
        changes: changes.map(([path, type]) => ({ uri: folder.uri(path), type })),
      }),
    /** Asks about a place, as an editor does while somebody types; what comes of it is only looked at for the canary. */
    async ask(path, offset) {
      const textDocument = { uri: folder.uri(path) };
      const position = positionAt(open.get(path).text, offset);
      const answers = await Promise.all([
        ask("textDocument/hover", { textDocument, position }),
        ask("textDocument/completion", { textDocument, position }),
        ask("textDocument/documentSymbol", { textDocument }),
      ]);
      return JSON.stringify(answers);
    },
    /** All findings of all files as JSON, by uri; asked file by file, since one question about all may be held back. */
    async findings() {
      const all = new Map();
      for (const path of new Set([...folder.model.keys(), ...open.keys()])) {
        const uri = folder.uri(path);
        const { items } = await ask("textDocument/diagnostic", { textDocument: { uri } });
        all.set(uri, JSON.stringify(items));
      }
      return all;
    },
    /** Bytes in use after a collection. */
    async heap() {
      const before = client.stderr.length;
      process.kill(client.pid, "SIGUSR2");
      for (let tries = 0; tries < 200; tries++) {
        const said = /heap (\d+)\n/.exec(client.stderr.slice(before));
        if (said) return Number(said[1]);
        await pause(25);
      }
      return Number.NaN;
    },
  };
  for (const [path, { text }] of documents) await window.show(path, text);
  return window;
}

/** What the window says and a fresh server does not, or undefined; and everything that was published. */
export async function compared(folder, window) {
  const fresh = await openWindow(folder, window.open);
  try {
    const until = Date.now() + SETTLES;
    for (;;) {
      const [now, anew] = [await window.findings(), await fresh.findings()];
      const uri = [...new Set([...now.keys(), ...anew.keys()])].find(
        (each) => (now.get(each) ?? "[]") !== (anew.get(each) ?? "[]"),
      );
      const published = [...now.values(), ...anew.values()].join("\n");
      if (uri === undefined) return { published, files: now.size };
      if (Date.now() > until)
        return { published, files: now.size, differs: `${uri}: ${firstOther(now.get(uri), anew.get(uri))}` };
      await pause(250);
    }
  } finally {
    fresh.client.kill();
  }
}

/** The first finding that the two have not in common. */
function firstOther(now = "[]", anew = "[]") {
  const [a, b] = [JSON.parse(now), JSON.parse(anew)].map((all) => all.map((one) => JSON.stringify(one)));
  const at = a.findIndex((one, i) => one !== b[i]);
  return `${a[at] ?? "nothing"}\n  anew ${b[at < 0 ? a.length : at] ?? "nothing"}`;
}

export const pause = (milliseconds) => new Promise((resolve) => setTimeout(resolve, milliseconds));

/** The protocol's positions, written the slow way. */
function positionAt(text, offset) {
  const before = text.slice(0, offset).split(/\r\n|\n|\r/);
  return { line: before.length - 1, character: before.at(-1).length };
}
function offsetAt(text, { line, character }) {
  const lines = text.split(/(?<=\r\n|\n|\r(?!\n))/);
  const start = lines.slice(0, line).join("").length;
  return Math.min(start + character, start + (lines[line] ?? "").replace(/[\r\n]+$/, "").length);
}

// One rig for a whole run: a server with the extension in it, a browser, and an editor window for each scenario.

import { cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { dirname, join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";
import { packAsker } from "./asking.js";
import { createEditor } from "./editor.js";
import { install } from "./install.js";
import { startServer } from "./server.js";

/** Where screenshots go; git ignores it. */
export const OUT = join(dirname(fileURLToPath(import.meta.url)), "out");

const VIEWPORT = { width: 1400, height: 1000 };
const CLOSE_TIMEOUT = 5_000;
const FOLDERS_TIMEOUT = 10_000;
/** Has the extension run in a worker of the page, as where the editor has no server of its own. */
const IN_BROWSER = { "remote.extensionKind": { "mendlog.mendlog": ["web"] } };

/**
 * Starts the rig. Whatever happens afterwards, close() (or the end of this process) ends all it started.
 * @param {object} options
 * @param {string} [options.vsix] absolute path of the extension's package
 * @param {(line: string) => void} [options.log]
 */
export async function startRig({ vsix, log } = {}) {
  const paths = await install({ log });
  const { chromium } = await import(pathToFileURL(paths.playwright).href);
  const root = mkdtempSync(join(tmpdir(), "mendlog-editor-"));
  mkdirSync(OUT, { recursive: true });
  const clear = () => rmSync(root, { recursive: true, force: true, maxRetries: 5, retryDelay: 100 });
  process.on("exit", clear);

  /** Servers by kind, started when first asked for: most runs never need an untrusted one. */
  const servers = new Map();
  let browser;
  let windows = 0;

  const server = ({ trusted = true, locale, web, asker }) => {
    const kind = asker ? "asker" : web ? "web" : (locale ?? (trusted ? "trusted" : "untrusted"));
    if (!servers.has(kind)) {
      const settings = web ? IN_BROWSER : {};
      const beside = asker ? [packAsker(join(root, "asker.vsix"))] : [];
      servers.set(
        kind,
        startServer({ paths, folder: join(root, kind), vsix, beside, trusted, locale, settings }),
      );
    }
    return servers.get(kind);
  };

  /** One for all windows: they share the cache, so that only the first loads and compiles the editor. */
  let shared;
  const context = () => {
    shared ??= browser.newContext({ viewport: VIEWPORT });
    return shared;
  };

  const close = async () => {
    for (const starting of servers.values()) await starting.then((it) => it.stop()).catch(() => {});
    servers.clear();
    if (browser) await withinTime(browser.close());
    process.off("exit", clear);
    clear();
  };

  /**
   * Opens an editor window on a copy of a folder; what a scenario writes never touches the original.
   * @param {object} [request]
   * @param {string} [request.workspace] folder to copy; without it the window opens on an empty folder
   * @param {Record<string, string>} [request.files] further files, by relative path
   * @param {Record<string, unknown>} [request.settings] workspace settings
   * @param {boolean} [request.trusted] false opens the folder in restricted mode
   * @param {string} [request.locale] the language the editor is started in
   * @param {string} [request.manyFolders] a .code-workspace among the files, opened in place of the folder
   * @param {boolean} [request.web] true runs the extension in the browser, without Node
   * @param {boolean} [request.asker] true has the extension of asking.js beside the one under test
   * @param {boolean} [request.folderless] true opens a window without a folder; `files` can be opened by path
   */
  const open = async ({
    workspace,
    files = {},
    settings,
    trusted = true,
    folderless = false,
    manyFolders,
    locale,
    web = false,
    asker = false,
  } = {}) => {
    const running = await server({ trusted, locale, web, asker });
    windows += 1;
    const folder = join(root, "workspaces", String(windows), "bench");
    mkdirSync(folder, { recursive: true });
    if (workspace) cpSync(workspace, folder, { recursive: true });
    for (const [name, text] of Object.entries(files)) write(join(folder, name), text);
    if (settings) write(join(folder, ".vscode", "settings.json"), JSON.stringify(settings));

    const page = await (await context()).newPage();
    const errors = [];
    const refused = [];
    page.on("requestfailed", (request) => {
      if (new URL(request.url()).hostname !== "127.0.0.1") refused.push(request.url());
    });
    page.on("pageerror", (error) => errors.push(String(error)));
    const editor = createEditor({ page, folder, out: OUT, server: running });
    try {
      const what = manyFolders
        ? `workspace=${encodeURIComponent(join(folder, manyFolders))}`
        : `folder=${encodeURIComponent(folder)}`;
      await page.goto(`${running.url}/?${folderless ? "ew=true" : what}`);
      // Now and then the editor opens a workspace of several folders without having read which: it does when loaded again.
      if (manyFolders) {
        const folders = page.waitForSelector(".explorer-folders-view", { timeout: FOLDERS_TIMEOUT });
        await folders.catch(() => page.reload());
      }
      await editor.ready({ folderless });
    } catch (error) {
      await editor.screenshot(`window-${windows}-did-not-open`).catch(() => {});
      await page.close();
      throw error;
    }
    return Object.assign(editor, { refused, errors, close: () => page.close() });
  };

  try {
    [browser] = await Promise.all([
      chromium.launch({
        executablePath: paths.chromium,
        // No name resolves, neither for the editor nor for the browser's own errands: only 127.0.0.1 is there.
        // (Routing every request through this process would do the same, but turns the cache off.)
        args: ["--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1", "--disable-dev-shm-usage"],
      }),
      server({}),
    ]);
  } catch (error) {
    await close();
    throw error;
  }
  return { open, close };
}

/** Waits for a promise, but not for ever: what is still alive then ends with this process. */
async function withinTime(promise) {
  let timer;
  const enough = new Promise((done) => {
    timer = setTimeout(done, CLOSE_TIMEOUT);
  });
  await Promise.race([promise, enough]);
  clearTimeout(timer);
}

function write(path, text) {
  mkdirSync(dirname(path), { recursive: true });
  writeFileSync(path, text);
}

// One code-server process: started in a process group of its own, ended with everything it started.

import { spawn } from "node:child_process";
import { mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { createServer } from "node:net";
import { dirname, join } from "node:path";

const START_TIMEOUT = 60_000;
const INSTALL_TIMEOUT = 60_000;

/** User settings that keep everything but the extension under test off the screen and off the network. */
export const QUIET_SETTINGS = {
  "workbench.startupEditor": "none",
  "workbench.secondarySideBar.defaultVisibility": "hidden",
  "workbench.tips.enabled": false,
  // A sticky row is drawn twice, and the second one would be read as a problem of its own.
  "workbench.tree.enableStickyScroll": false,
  "workbench.enableExperiments": false,
  "workbench.welcomePage.walkthroughs.openOnInstall": false,
  "workbench.colorTheme": "Default Light Modern",
  "chat.disableAIFeatures": true,
  "telemetry.telemetryLevel": "off",
  "extensions.autoUpdate": false,
  "extensions.autoCheckUpdates": false,
  "extensions.ignoreRecommendations": true,
  "update.mode": "none",
  "git.enabled": false,
  "files.autoSave": "off",
  "editor.minimap.enabled": false,
  // Lenses come late and move every line below them, also from under the mouse; the scenario about them turns them on.
  "editor.codeLens": false,
  // Hints stand between the words a scenario looks for on the screen; those about them turn them on.
  "editor.inlayHints.enabled": "off",
  "editor.hover.delay": 200,
  "editor.accessibilitySupport": "off",
  // Word of a port that something else on this machine opened lies over what is looked at.
  "remote.autoForwardPorts": false,
  "editor.cursorBlinking": "solid",
  // One row of the screen for each line of the file, so a scenario can speak of line numbers.
  "[markdown]": { "editor.wordWrap": "off" },
};

/** Keys of the user's own for commands that the palette hides where they do not apply: a person can have such keys. */
export const OWN_KEYS = {
  "mendlog.writeReport": "ctrl+alt+shift+a",
  "mendlog.writeBill": "ctrl+alt+shift+t",
  "mendlog.writeSheet": "ctrl+alt+shift+f10",
  "mendlog.insertTableReadOnly": "ctrl+alt+shift+f12",
  "mendlog.guide": "ctrl+alt+shift+f5",
  "mendlog.stopGuide": "ctrl+alt+shift+f4",
  "mendlog.showNumbers": "ctrl+alt+shift+f11",
  "mendlog.showPane": "ctrl+alt+shift+f3",
  "mendlog.nextStep": "ctrl+alt+shift+f2",
  "mendlog.showSuspects": "ctrl+alt+shift+f7",
  "mendlog.writePartsList": "ctrl+alt+shift+f6",
  "mendlog.writeSuspects": "ctrl+alt+shift+b",
  "mendlog.refreshSuspects": "ctrl+alt+shift+d",
  "mendlog.insertTable": "ctrl+alt+shift+e",
  "mendlog.pasteColumn": "ctrl+alt+shift+f",
  "mendlog.readMeter": "ctrl+alt+shift+g",
  "mendlog.showProving": "ctrl+alt+shift+h",
  "mendlog.nextRow": "ctrl+alt+shift+i",
  "mendlog.jobs.writeReport": "ctrl+alt+shift+j",
  "mendlog.jobs.openBoard": "ctrl+alt+shift+l",
  "mendlog.stopMeter": "ctrl+alt+shift+m",
  "mendlog.nextCell": "ctrl+alt+shift+n",
  "mendlog.previousCell": "ctrl+alt+shift+o",
  "mendlog.showServerLog": "ctrl+alt+shift+p",
  "mendlog.restartServer": "ctrl+alt+shift+q",
  "mendlog.newLog": "ctrl+alt+shift+r",
  "mendlog.importBoard": "ctrl+alt+shift+c",
  "mendlog.writeBoardFile": "ctrl+alt+shift+f8",
  "mendlog.takeAsReference": "ctrl+alt+shift+k",
  "mendlog.proposeLimits": "ctrl+alt+shift+f9",
  "mendlog.startRow": "ctrl+alt+shift+s",
  "mendlog.showPlaces": "ctrl+alt+shift+u",
  // The editor's own: quicker than the palette, and there whatever has the focus.
  "notifications.clearAll": "ctrl+alt+shift+v",
  "editor.action.fixAll": "ctrl+alt+shift+w",
  "workbench.action.closeActiveEditor": "ctrl+alt+shift+z",
  "workbench.action.files.setActiveEditorReadonlyInSession": "ctrl+alt+shift+x",
  "workbench.action.files.setActiveEditorWriteableInSession": "ctrl+alt+shift+y",
};

/**
 * Starts a server that has the extension installed.
 * @param {object} options
 * @param {{ node: string, codeServer: string }} options.paths from install()
 * @param {string} options.folder an empty folder for HOME, user data, extensions and logs
 * @param {string} [options.vsix] absolute path of the extension's package
 * @param {string[]} [options.beside] packages of further extensions
 * @param {boolean} [options.trusted] false leaves workspace trust on, so every folder opens restricted
 * @param {string} [options.locale] the language asked of extensions; the editor's own words stay English
 * @param {Record<string, unknown>} [options.settings] added to the quiet ones
 * @returns {Promise<{ url: string, folder: string, logs(): string, output(channel: RegExp): string, stop(): void }>}
 */
export async function startServer({
  paths,
  folder,
  vsix,
  beside = [],
  trusted = true,
  settings = {},
  locale,
}) {
  const home = join(folder, "home");
  const data = join(folder, "data");
  const extensions = join(folder, "extensions");
  for (const path of [home, extensions, join(data, "User")]) mkdirSync(path, { recursive: true });
  writeFileSync(
    join(data, "User", "settings.json"),
    JSON.stringify({ ...QUIET_SETTINGS, ...settings }, undefined, 2),
  );
  writeFileSync(
    join(data, "User", "keybindings.json"),
    JSON.stringify(Object.entries(OWN_KEYS).map(([command, key]) => ({ command, key }))),
  );

  if (locale) knowLanguage(data, locale);

  // Nothing is inherited but what a program needs to run: an editor's own variables would redirect the server.
  const env = {
    HOME: home,
    PATH: `${dirname(paths.node)}:${process.env.PATH}`,
    LANG: "C.UTF-8",
    ...(process.env.TMPDIR ? { TMPDIR: process.env.TMPDIR } : {}),
  };
  const folders = ["--user-data-dir", data, "--extensions-dir", extensions];
  const launch = (args) =>
    spawn(paths.node, [paths.codeServer, ...folders, ...args], {
      env,
      cwd: home,
      detached: true,
      stdio: ["ignore", "pipe", "pipe"],
    });

  for (const one of [...(vsix ? [vsix] : []), ...beside]) await installExtension(launch, one);

  const port = await freePort();
  const child = launch([
    "--bind-addr",
    `127.0.0.1:${port}`,
    "--auth",
    "none",
    "--disable-telemetry",
    "--disable-update-check",
    "--disable-getting-started-override",
    "--disable-proxy",
    // A window that is gone stays gone; and a server whose runner was killed outright ends by itself.
    "--reconnection-grace-time",
    "5",
    "--idle-timeout-seconds",
    "300",
    ...(trusted ? ["--disable-workspace-trust"] : []),
    ...(locale ? ["--locale", locale] : []),
  ]);
  let printed = "";
  const keep = (chunk) => {
    printed = (printed + chunk).slice(-20_000);
  };
  child.stdout.on("data", keep);
  child.stderr.on("data", keep);
  let ended = false;
  child.on("close", () => {
    ended = true;
  });

  const stop = () => {
    process.off("exit", stop);
    endGroup(child.pid);
  };
  // Before other exit handlers: the folder the server writes to is removed by one of them.
  process.prependListener("exit", stop);

  const url = `http://127.0.0.1:${port}`;
  const deadline = Date.now() + START_TIMEOUT;
  while (!(await answers(`${url}/healthz`))) {
    if (ended || Date.now() > deadline) {
      stop();
      throw new Error(`code-server did not come up on ${url}:\n${printed}`);
    }
    await new Promise((resolve) => setTimeout(resolve, 100));
  }

  return {
    url,
    folder,
    logs: () => printed,
    output: (channel) => readOutputs(join(data, "logs"), channel),
    stop,
  };
}

/** The editor only speaks a language it has a pack of; an empty one is enough for it to ask extensions for theirs. */
function knowLanguage(data, locale) {
  const words = join(data, "empty.i18n.json");
  writeFileSync(words, JSON.stringify({ version: "1.0.0", contents: {} }));
  const extensions = [{ extensionIdentifier: { id: "test.language" }, version: "1.0.0" }];
  const pack = { hash: "test", label: locale, extensions, translations: { vscode: words } };
  writeFileSync(join(data, "languagepacks.json"), JSON.stringify({ [locale]: pack }));
}

async function installExtension(launch, vsix) {
  const child = launch(["--install-extension", vsix]);
  const give = () => endGroup(child.pid);
  process.on("exit", give);
  const timer = setTimeout(give, INSTALL_TIMEOUT);
  let printed = "";
  child.stdout.on("data", (chunk) => {
    printed += chunk;
  });
  child.stderr.on("data", (chunk) => {
    printed += chunk;
  });
  const code = await new Promise((resolve) => child.on("close", resolve));
  clearTimeout(timer);
  process.off("exit", give);
  // The command ends with 0 for some refusals, so its own sentence is what counts.
  if (code !== 0 || !/successfully installed/i.test(printed)) {
    throw new Error(`The editor would not install ${vsix} (exit code ${code}):\n${printed}`);
  }
}

/** Ends a process group started with `detached`; one already gone is fine. */
function endGroup(pid) {
  if (pid === undefined) return;
  try {
    process.kill(-pid, "SIGKILL");
  } catch (error) {
    if (error.code !== "ESRCH") throw error;
  }
}

async function answers(url) {
  try {
    return (await fetch(url)).status === 200;
  } catch {
    return false;
  }
}

function freePort() {
  return new Promise((resolve, reject) => {
    const probe = createServer();
    probe.on("error", reject);
    probe.listen(0, "127.0.0.1", () => {
      const { port } = probe.address();
      probe.close(() => resolve(port));
    });
  });
}

/** The text of every output channel whose file name matches: VS Code keeps each as a log file. */
function readOutputs(logs, channel) {
  let names;
  try {
    names = readdirSync(logs, { recursive: true });
  } catch {
    return "";
  }
  return names
    .map(String)
    .filter((name) => name.endsWith(".log") && channel.test(name))
    .map((name) => `--- ${name}\n${readFileSync(join(logs, name), "utf8")}`)
    .join("\n");
}

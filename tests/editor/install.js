// Puts a real VS Code (code-server), the Node it needs and playwright-core into a cache folder outside the
// repository, so that none of it weighs on the project's own package.json. A second call costs one file read.
//
//   node tests/editor/install.js

import { spawn, spawnSync } from "node:child_process";
import {
  closeSync,
  existsSync,
  mkdirSync,
  openSync,
  readFileSync,
  rmSync,
  statSync,
  writeFileSync,
} from "node:fs";
import { homedir } from "node:os";
import { delimiter, join } from "node:path";
import { pathToFileURL } from "node:url";

/** The only place a version is named; a change here reinstalls. */
export const VERSIONS = {
  node: "24.21.0",
  "code-server": "4.139.1",
  "playwright-core": "1.65.1",
};

/** Counted up when the steps below change without a version doing so. */
const RECIPE = 2;

/** Debian package -> the command that shows it is there. */
const TOOLS = { chromium: "chromium", "g++": "g++", make: "make", python3: "python3" };

/** How long another process may hold the install lock before this one gives up, in milliseconds. */
const LOCK_PATIENCE = 10 * 60_000;

/** @returns {string} absolute path of the cache folder. */
export function cacheFolder() {
  return process.env.MENDLOG_EDITOR_CACHE || join(homedir(), ".cache", "mendlog-editor");
}

/**
 * Installs whatever is missing and says where everything is.
 * @param {{ log?: (line: string) => void }} [options]
 * @returns {Promise<{ node: string, codeServer: string, playwright: string, chromium: string }>} absolute paths.
 * @throws {Error} with a sentence to act on when a tool is missing or a step fails.
 */
export async function install({ log = () => {} } = {}) {
  if (process.platform !== "linux") {
    throw new Error(`The editor tests run on Linux only; this is ${process.platform}.`);
  }
  const cache = cacheFolder();
  const root = join(cache, "install");
  const stamp = join(root, "complete.json");
  const wanted = JSON.stringify({ ...VERSIONS, recipe: RECIPE, arch: process.arch });

  const chromium = findCommand("chromium");
  if (chromium && readOrEmpty(stamp) === wanted) return locate(root, chromium);

  ensureTools(log);
  mkdirSync(cache, { recursive: true });
  const unlock = await lock(join(cache, "install.lock"), log);
  try {
    // Another run may have finished the job while this one waited for the lock.
    if (readOrEmpty(stamp) !== wanted) {
      const began = Date.now();
      log(`Installing code-server ${VERSIONS["code-server"]} into ${root} (about a minute, 1 GB)`);
      rmSync(root, { recursive: true, force: true, maxRetries: 10, retryDelay: 300 });
      mkdirSync(root, { recursive: true });
      await fill(root, log);
      writeFileSync(stamp, wanted);
      log(`Installed in ${Math.round((Date.now() - began) / 1000)} s`);
    }
  } finally {
    unlock();
  }
  return locate(root, findCommand("chromium"));
}

function locate(root, chromium) {
  const modules = join(root, "node_modules");
  return {
    node: join(modules, nodePackage(), "bin", "node"),
    codeServer: join(modules, "code-server", "out", "node", "entry.js"),
    playwright: join(modules, "playwright-core", "index.mjs"),
    chromium,
  };
}

const nodePackage = () => `node-linux-${process.arch}`;

async function fill(root, log) {
  writeFileSync(join(root, "package.json"), JSON.stringify({ name: "editor-cache", private: true }));
  const modules = join(root, "node_modules");
  const quiet = ["--no-audit", "--no-fund", "--loglevel=error"];

  log(`  Node ${VERSIONS.node}`);
  await npm(root, ["install", `${nodePackage()}@${VERSIONS.node}`, ...quiet]);
  const nodeHome = join(modules, nodePackage());
  // The native parts are built against the Node that will load them, from the headers that came with it.
  const env = {
    PATH: join(nodeHome, "bin") + delimiter + process.env.PATH,
    npm_config_nodedir: nodeHome,
  };
  const bare = ["--omit=dev", "--ignore-scripts", ...quiet];
  log("  code-server and playwright-core");
  await npm(
    root,
    [
      "install",
      `code-server@${VERSIONS["code-server"]}`,
      `playwright-core@${VERSIONS["playwright-core"]}`,
      ...bare,
    ],
    env,
  );
  const vscode = join(modules, "code-server", "lib", "vscode");
  log("  the editor's own modules");
  await npm(vscode, ["install", ...bare], env);
  log("  the logging and watchdog modules (native)");
  // Without the first the output channels of extensions stay silently empty; without the second an extension
  // host outlives its server.
  await npm(vscode, ["rebuild", "@vscode/spdlog", "@vscode/native-watchdog", "--loglevel=error"], env);
  log("  the built-in extensions' modules");
  await npm(join(vscode, "extensions"), ["install", ...bare], env);
}

function npm(cwd, args, env = {}) {
  return new Promise((resolve, reject) => {
    const child = spawn("npm", args, {
      cwd,
      env: { ...npmEnvironment(), ...env },
      detached: true,
      stdio: ["ignore", "pipe", "pipe"],
    });
    // An interrupted install must not leave an npm behind that goes on writing into the folder.
    const end = () => {
      try {
        process.kill(-child.pid, "SIGKILL");
      } catch {
        // It has ended already.
      }
    };
    process.on("exit", end);
    let tail = "";
    const keep = (chunk) => {
      tail = (tail + chunk).slice(-4000);
    };
    child.stdout.on("data", keep);
    child.stderr.on("data", keep);
    child.on("error", (error) => {
      process.off("exit", end);
      reject(new Error(`npm could not be started: ${error.message}`));
    });
    child.on("close", (code) => {
      process.off("exit", end);
      if (code === 0) resolve();
      else reject(new Error(`npm ${args.join(" ")} failed in ${cwd} (exit code ${code}):\n${tail.trim()}`));
    });
  });
}

/** The environment without what an enclosing `npm run` set for the project itself. */
function npmEnvironment() {
  const inherited =
    /^npm_(package_|lifecycle_|command$|config_(local_prefix|prefix|global_prefix|ignore_scripts|omit)$)/i;
  return Object.fromEntries(Object.entries(process.env).filter(([key]) => !inherited.test(key)));
}

function ensureTools(log) {
  const missing = () => Object.keys(TOOLS).filter((name) => !findCommand(TOOLS[name]));
  let wanted = missing();
  if (wanted.length === 0) return;
  const command = `apt-get install -y --no-install-recommends ${wanted.join(" ")}`;
  const canInstall = process.getuid?.() === 0 && findCommand("apt-get") && existsSync("/etc/debian_version");
  if (canInstall) {
    log(`Missing: ${wanted.join(", ")}; running ${command}`);
    const env = { ...process.env, DEBIAN_FRONTEND: "noninteractive" };
    spawnSync("apt-get", ["update", "-qq"], { env, stdio: "ignore" });
    const [program, ...args] = command.split(" ");
    const done = spawnSync(program, args, { env, encoding: "utf8" });
    if (done.status !== 0) throw new Error(`${command} failed:\n${(done.stderr || "").trim().slice(-2000)}`);
    wanted = missing();
    if (wanted.length === 0) return;
  }
  throw new Error(
    `The editor tests need ${wanted.join(", ")}, not found on PATH. On Debian: sudo ${command}. ` +
      "Elsewhere install them and make sure the browser's command is called chromium.",
  );
}

/** @returns {string | undefined} absolute path of a command on PATH. */
export function findCommand(name) {
  return (process.env.PATH ?? "")
    .split(delimiter)
    .filter((folder) => folder !== "")
    .map((folder) => join(folder, name))
    .find((path) => existsSync(path) && statSync(path).isFile());
}

function readOrEmpty(path) {
  try {
    return readFileSync(path, "utf8");
  } catch {
    return "";
  }
}

/** Holds a lock file with this process's id; a lock whose owner is gone is taken over. */
async function lock(path, log) {
  const deadline = Date.now() + LOCK_PATIENCE;
  let said = false;
  for (;;) {
    try {
      const file = openSync(path, "wx");
      writeFileSync(file, String(process.pid));
      closeSync(file);
      return () => rmSync(path, { force: true });
    } catch (error) {
      if (error.code !== "EEXIST") throw error;
    }
    const owner = Number(readOrEmpty(path));
    if (owner > 0 && !isAlive(owner)) {
      rmSync(path, { force: true });
      continue;
    }
    if (Date.now() > deadline) {
      throw new Error(
        `${path} is held by process ${owner || "?"}; remove the file if nothing is being installed.`,
      );
    }
    if (!said) log(`Waiting for process ${owner || "?"}, which is installing into the same cache`);
    said = true;
    await new Promise((resolve) => setTimeout(resolve, 500));
  }
}

function isAlive(pid) {
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return error.code === "EPERM";
  }
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) {
  for (const signal of ["SIGINT", "SIGTERM", "SIGHUP"]) process.on(signal, () => process.exit(1));
  install({ log: (line) => console.log(line) }).then(
    (paths) => console.log(Object.values(paths).join("\n")),
    (error) => {
      console.error(error.message);
      process.exitCode = 1;
    },
  );
}

// Runs headless Neovims, each of its own, and gives what the server answered there.

import { spawn } from "node:child_process";
import { mkdirSync, writeFileSync } from "node:fs";
import { delimiter, dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const HERE = dirname(fileURLToPath(import.meta.url));
const TIMEOUT = 55_000;

/**
 * Without a configuration: check.lua starts the server itself.
 * @param {string} folder an empty folder for Neovim's own files and the request
 * @param {{ cmd: string[], root: string, file: string, hover: object, completion: object }} request see check.lua
 * @returns {Promise<{ server: object, diagnostics: object[], hover: object, completion: object }>}
 * @throws {Error} with what Neovim or the server said.
 */
export function askThroughNeovim(folder, request) {
  const path = join(folder, "request.json");
  writeFileSync(path, JSON.stringify(request));
  const args = ["--clean", "-u", "NONE", "-c", `luafile ${join(HERE, "check.lua")}`];
  return run(folder, args, { cwd: request.root, env: { CHECK_REQUEST: path } });
}

/**
 * With a configuration that holds nothing but the given lines, as a person has it who has just set this up.
 * @param {string} folder an empty folder for Neovim's own files
 * @param {{ init: string, path: string, root: string, file: string }} request `init` is the text of init.lua, `path` a
 *   folder of programs to be found
 * @returns {Promise<Record<string, unknown>>} what work.lua saw
 * @throws {Error} with what Neovim or the server said.
 */
export function workThroughNeovim(folder, { init, path, root, file }) {
  const config = join(folder, "config");
  mkdirSync(join(config, "nvim"), { recursive: true });
  writeFileSync(join(config, "nvim", "init.lua"), init);
  const env = { XDG_CONFIG_HOME: config, PATH: `${path}${delimiter}${process.env.PATH}` };
  return run(folder, [file, "-c", `luafile ${join(HERE, "work.lua")}`], { cwd: root, env });
}

async function run(folder, args, { cwd, env }) {
  const home = join(folder, "home");
  mkdirSync(home, { recursive: true });
  const child = spawn("nvim", ["--headless", ...args], {
    cwd,
    detached: true,
    env: { PATH: process.env.PATH, HOME: home, LANG: "C.UTF-8", ...env },
    stdio: ["ignore", "pipe", "pipe"],
  });
  const end = () => {
    try {
      process.kill(-child.pid, "SIGKILL");
    } catch (error) {
      if (error.code !== "ESRCH") throw error;
    }
  };
  process.on("exit", end);
  let late = false;
  const timer = setTimeout(() => {
    late = true;
    end();
  }, TIMEOUT);
  let said = "";
  let failed = "";
  child.stdout.on("data", (chunk) => {
    said += chunk;
  });
  child.stderr.on("data", (chunk) => {
    failed += chunk;
  });
  const code = await new Promise((resolve, reject) => {
    child.on("error", reject);
    child.on("close", resolve);
  });
  clearTimeout(timer);
  process.off("exit", end);
  end();
  if (code !== 0) {
    throw new Error(
      `Neovim ${late ? `was ended after ${TIMEOUT} ms` : `ended with ${code}`}:\n${failed.trim()}`,
    );
  }
  return JSON.parse(said.trim().split("\n").at(-1));
}

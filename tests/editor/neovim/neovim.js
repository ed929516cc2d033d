// Runs check.lua in a headless Neovim of its own and gives what the server answered there.

import { spawn } from "node:child_process";
import { mkdirSync, writeFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { fileURLToPath } from "node:url";

const SCRIPT = join(dirname(fileURLToPath(import.meta.url)), "check.lua");
const TIMEOUT = 55_000;

/**
 * @param {string} folder an empty folder for Neovim's own files and the request
 * @param {{ cmd: string[], root: string, file: string, hover: object, completion: object }} request see check.lua
 * @returns {Promise<{ server: object, diagnostics: object[], hover: object, completion: object }>}
 * @throws {Error} with what Neovim or the server said.
 */
export async function askThroughNeovim(folder, request) {
  const home = join(folder, "home");
  mkdirSync(home, { recursive: true });
  const path = join(folder, "request.json");
  writeFileSync(path, JSON.stringify(request));
  const child = spawn("nvim", ["--headless", "--clean", "-u", "NONE", "-c", `luafile ${SCRIPT}`], {
    cwd: request.root,
    detached: true,
    env: { PATH: process.env.PATH, HOME: home, LANG: "C.UTF-8", CHECK_REQUEST: path },
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

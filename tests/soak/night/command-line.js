// What befalls the command line in a night: killed in the middle of writing, no room left, and a spoilt memory of the
// last time. Each gives what went wrong, or nothing.
import { spawn } from "node:child_process";
import { existsSync, readdirSync, readFileSync, statSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";

const CLI = fileURLToPath(new URL("../../../dist/cli.cjs", import.meta.url));

/** @param after milliseconds until it is killed, if it is */
function mendlog(folder, args, after) {
  return new Promise((resolve) => {
    const child = spawn(process.execPath, [CLI, ...args], { cwd: folder.workspace });
    let out = "";
    let err = "";
    child.stdout.on("data", (chunk) => (out += chunk));
    child.stderr.on("data", (chunk) => (err += chunk));
    const timer = after === undefined ? undefined : setTimeout(() => child.kill("SIGKILL"), after);
    child.on("close", (code) => {
      clearTimeout(timer);
      resolve({ code, out, err });
    });
  });
}

const CHECK = ["check", ".", "--format", "json", "--fail-on", "never"];
const timeless = (json) => json.replace(/"(?:generated|time|duration)":[^,}]*/g, "");

/** Killed at any moment, a file holds all of what it held or all of what it was to hold. */
export async function killed(folder, draw) {
  const path = folder.made("findings.json");
  const before = existsSync(path) ? readFileSync(path, "utf8") : undefined;
  const { out } = await mendlog(folder, CHECK);
  await mendlog(folder, [...CHECK, "--force", "-o", path], 20 + Math.floor(draw() * 600));
  const after = existsSync(path) ? readFileSync(path, "utf8") : undefined;
  const whole = after === before || (after !== undefined && timeless(after) === timeless(out));
  return whole ? [] : ["a file was left half written by a program that was killed"];
}

/** Without room: status 2 and a line, and the file that was there is whole. @param ballast a file that takes all room */
export async function noRoom(folder, ballast) {
  const path = folder.made("kept.json");
  const { out } = await mendlog(folder, CHECK);
  writeFileSync(path, "mine\n");
  const fill = () => {
    const megabyte = Buffer.alloc(1 << 20);
    try {
      for (let n = 0; n < 4096; n++) writeFileSync(ballast, megabyte, { flag: "a" });
    } catch {
      // No room: that is what was wanted.
    }
  };
  fill();
  const wrong = [];
  const { code, err } = await mendlog(folder, [...CHECK, "--force", "-o", path]);
  const now = readFileSync(path, "utf8");
  // A file on that disk may still have room in its last page.
  if (timeless(now) === timeless(out)) return [];
  const said = err.split("\n").filter((line) => line.includes("kept.json"));
  if (code !== 2 || said.length !== 1 || !said[0].endsWith("kept.json cannot be written: the disk is full."))
    wrong.push(`no room: status ${code}, ${err}`);
  if (now !== "mine\n") wrong.push("no room: the old file is not whole");
  return wrong;
}

/** What is kept between two runs, spoilt anywhere: the findings are those of a run without it. */
export async function spoiltCache(folder, draw) {
  const cache = folder.made("cache");
  // Links that lead out make it status 2, with what was kept and without.
  const without = await mendlog(folder, [...CHECK, "--no-cache"]);
  const wanted = timeless(without.out);
  const first = timeless((await mendlog(folder, [...CHECK, "--cache-dir", cache])).out);
  const wrong = first === wanted ? [] : ["with what was kept other findings than without"];
  for (const name of existsSync(cache) ? readdirSync(cache) : []) {
    const path = join(cache, name);
    const bytes = readFileSync(path);
    const kind = draw();
    if (kind < 0.3) writeFileSync(path, bytes.subarray(0, Math.floor(draw() * bytes.length)));
    else if (kind < 0.4) writeFileSync(path, "");
    else {
      for (let n = 0; n < 1 + draw() * 20; n++)
        bytes[Math.floor(draw() * bytes.length)] = Math.floor(draw() * 256);
      writeFileSync(path, bytes);
    }
  }
  const spoilt = await mendlog(folder, [...CHECK, "--cache-dir", cache]);
  if (spoilt.code !== without.code || timeless(spoilt.out) !== wanted)
    wrong.push(`a spoilt cache changes the findings: ${spoilt.err}`);
  if (existsSync(cache) && readdirSync(cache).some((name) => statSync(join(cache, name)).size === 0))
    wrong.push("an empty cache was not replaced");
  return wrong;
}

// One command in a process of its own: its time, its processor time with all its threads, and its largest memory.
import { spawn } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

const METER = `process.on("exit", () => {
  const { userCPUTime, systemCPUTime, maxRSS } = process.resourceUsage();
  require("node:fs").writeFileSync(process.env.BENCH_USAGE, JSON.stringify({ cpu: (userCPUTime + systemCPUTime) / 1000, mb: maxRSS / 1024 }));
});`;

/** @returns {Promise<{ wall: number, cpu: number, mb: number, status: number, out: string }>} milliseconds, megabytes */
export async function measured(args, { cwd, env = {} } = {}) {
  const folder = mkdtempSync(join(tmpdir(), "mendlog-bench-"));
  try {
    const meter = join(folder, "meter.cjs");
    const usage = join(folder, "usage.json");
    writeFileSync(meter, METER);
    const began = performance.now();
    const child = spawn(process.execPath, ["-r", meter, ...args], {
      cwd,
      env: { ...process.env, ...env, BENCH_USAGE: usage },
      stdio: ["ignore", "pipe", "inherit"],
    });
    let out = "";
    child.stdout.setEncoding("utf8").on("data", (text) => {
      if (out.length < 1_000_000) out += text;
    });
    const status = await new Promise((resolve, reject) => child.on("error", reject).on("close", resolve));
    return { ...JSON.parse(readFileSync(usage, "utf8")), wall: performance.now() - began, status, out };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

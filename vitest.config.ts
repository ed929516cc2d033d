import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { defineConfig } from "vitest/config";
import { libraryPlugin } from "./server/build/library.js";

/**
 * Tests that put something else in the place of a module, a clock or a timer: each in a process of its own. All others
 * share one for each core, in which the server's modules are made once and not once a file; that halves the time.
 */
const REPLACING = readdirSync(join(import.meta.dirname, "tests"), { recursive: true })
  .map((name) => join("tests", String(name)))
  .filter((name) => name.endsWith(".test.ts"))
  .filter((name) => /\bvi\.\w/.test(readFileSync(join(import.meta.dirname, name), "utf8")));

const TESTS = ["tests/**/*.test.ts"];
const NO_TESTS = ["tests/editor/**", "tests/bench/**", "node_modules/**"];

export default defineConfig({
  plugins: [libraryPlugin.vite()],
  test: {
    // Every core: by default one is left idle, which on two doubles the time.
    maxWorkers: "100%",
    testTimeout: 60_000,
    hookTimeout: 60_000,
    setupFiles: ["tests/support/setup.ts"],
    projects: [
      {
        extends: true,
        test: { name: "shared", include: TESTS, exclude: [...NO_TESTS, ...REPLACING], isolate: false },
      },
      { extends: true, test: { name: "replacing", include: REPLACING, exclude: NO_TESTS } },
    ],
  },
});

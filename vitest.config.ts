import { defineConfig } from "vitest/config";
import { libraryPlugin } from "./server/build/library.js";

export default defineConfig({
  plugins: [libraryPlugin.vite()],
  test: {
    include: ["tests/**/*.test.ts"],
    exclude: ["tests/editor/**", "tests/bench/**", "node_modules/**"],
    // Every core: by default one is left idle, which on two doubles the time.
    maxWorkers: "100%",
    testTimeout: 60_000,
    hookTimeout: 60_000,
    setupFiles: ["tests/support/setup.ts"],
  },
});

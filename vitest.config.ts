import { defineConfig } from "vitest/config";
import { libraryPlugin } from "./server/build/library.js";

export default defineConfig({
  plugins: [libraryPlugin.vite()],
  test: {
    include: ["tests/**/*.test.ts"],
    exclude: ["tests/editor/**", "tests/bench/**", "node_modules/**"],
    testTimeout: 60_000,
    setupFiles: ["tests/support/setup.ts"],
  },
});

// The demo's texts by path, for those that are bundled elsewhere and cannot say where it lies.
import { readdirSync, readFileSync } from "node:fs";

const ROOT = new URL("../../demo/", import.meta.url);

/** @returns {Record<string, string>} logs and knowledge files by path with forward slashes */
export function demoTexts() {
  const names = readdirSync(ROOT, { recursive: true }).map((name) => String(name).replaceAll("\\", "/"));
  return Object.fromEntries(
    names
      .filter((name) => /\.(md|yaml)$/.test(name))
      .sort()
      .map((name) => [name, readFileSync(new URL(name, ROOT), "utf8")]),
  );
}

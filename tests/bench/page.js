// The page of what everything costs: each bench puts its table between two marks of its own.
import { readFileSync, writeFileSync } from "node:fs";

const PAGE = new URL("../../docs/performance.md", import.meta.url);

/**
 * Puts text in place of what stands between two marks of docs/performance.md.
 * @throws where the page does not have both, in this order
 */
export function writeBetween(begin, end, text) {
  const page = readFileSync(PAGE, "utf8");
  const at = page.indexOf(begin);
  const to = page.indexOf(end, at);
  if (at < 0 || to < 0) throw new Error(`docs/performance.md has no ${begin} with ${end} behind it`);
  writeFileSync(PAGE, `${page.slice(0, at + begin.length)}\n\n${text}\n\n${page.slice(to)}`);
}

// Tells of changes on the disk, as Node does.
import { type FSWatcher, watch } from "node:fs";
import { join } from "node:path";

/** Milliseconds of quiet after which a burst of changes counts as over: an editor writes a file in several steps. */
const QUIET = 150;

/**
 * The paths of each burst of changes below files and folders, from the call on; those that come while nobody waits are told of
 * next. What cannot be watched is left out. Ends when whoever reads it stops.
 */
export function changesBelow(paths: readonly string[]): AsyncIterable<readonly string[]> {
  const waiting = new Set<string>();
  let wake = (): void => {};
  let timer: NodeJS.Timeout | undefined;
  const watchers = paths.flatMap((path): FSWatcher[] => {
    try {
      const watcher = watch(path, { recursive: true }, (_, name) => {
        waiting.add(name === null ? path : join(path, name));
        clearTimeout(timer);
        timer = setTimeout(() => wake(), QUIET);
      });
      watcher.on("error", () => watcher.close());
      return [watcher];
    } catch {
      return [];
    }
  });
  return (async function* () {
    try {
      for (;;) {
        await new Promise<void>((go) => {
          wake = go;
          if (waiting.size > 0) timer = setTimeout(go, QUIET);
        });
        const all = [...waiting];
        waiting.clear();
        yield all;
      }
    } finally {
      clearTimeout(timer);
      for (const watcher of watchers) watcher.close();
    }
  })();
}

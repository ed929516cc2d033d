// Files that logs and board files lead to by a path; the host keeps to the workspace.

import { type CancellationToken, stopIfCancelled } from "../base/cancellation";
import type { FileBytes } from "../compute/memory/file-bytes";
import type { Host } from "./host";
import { imagePathFrom } from "./image-uri";
import { fileBeside } from "./uri";

/** True for a file that lies in the workspace's folders, links followed, and can be read. */
export async function exists(host: Host, uri: string): Promise<boolean> {
  // No byte is asked for: a file that has any is there, and too large.
  const file = await host.readBytes?.(uri, 0);
  return file !== undefined && (file.ok || file.reason === "too-large");
}

/** The workspace's memory images by their paths from a log, as they are now. */
export async function imagePathsFor(host: Host, log: string): Promise<readonly string[]> {
  const files = (await host.listImages?.()) ?? [];
  return files.flatMap((file) => imagePathFrom(log, file) ?? []);
}

/**
 * Reads pictures by their path from a log.
 * @throws Cancelled where nobody waits for them any longer
 */
export const picturesOf =
  (host: Host, log: string, token: CancellationToken) =>
  async (path: string, most: number): Promise<FileBytes> => {
    stopIfCancelled(token);
    const file = fileBeside(log, path);
    const got = file === undefined ? undefined : await host.readBytes?.(file, most);
    return got ?? { ok: false, reason: "outside" };
  };

// One file for the desktop, a remote machine and a browser: what only one of them has is taken up there alone.
import type { ExtensionContext } from "vscode";
import { stopExtension } from "./start";

/** A browser's worker may have something of that name, put there for what was written for Node, but is no version of it. */
const isNode = typeof process === "object" && typeof process.versions?.node === "string";

export async function activate(context: ExtensionContext) {
  const { activate: here } = isNode ? await import("./extension.node") : await import("./extension.browser");
  return here(context);
}

export const deactivate = stopExtension;

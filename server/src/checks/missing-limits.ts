// A shop file that names a file of pooled limits which is not there.
import type { Shop } from "../knowledge/types";
import { nodeAt } from "../syntax/yaml";
import type { Span } from "../text/span";
import type { KnowledgeInput } from "./check";

export interface MissingLimits {
  readonly span: Span;
  readonly path: string;
}

/** Undefined for every other file, and where one of that name was read. */
export function missingLimits({ kind, file, knowledge }: KnowledgeInput): MissingLimits | undefined {
  if (kind !== "shop" || !file) return undefined;
  const path = (file.value as Shop).limitsFrom;
  const span = nodeAt(file.loaded.tree, ["limits-from"])?.valueSpan;
  if (path === undefined || !span) return undefined;
  const name = lastOf(path);
  return knowledge.limits.some(({ uri }) => lastOf(plain(uri)) === name) ? undefined : { span, path };
}

const lastOf = (path: string): string => path.slice(path.lastIndexOf("/") + 1);

function plain(uri: string): string {
  try {
    return decodeURIComponent(uri);
  } catch {
    return uri;
  }
}

import { type Document, parseDocument } from "yaml";

const OPTIONS = {
  version: "1.2",
  schema: "core",
  prettyErrors: false,
  // Ours is linear and names both places; the parser's compares every key with every other.
  uniqueKeys: false,
} as const;

/**
 * The YAML parser's document of a text. It makes an error of every mistake, of which there may be one a sign; each would
 * note down who called whom, which nobody reads and which takes most of its time.
 */
export function yamlDocument(text: string): Document.Parsed {
  const { stackTraceLimit } = Error;
  Error.stackTraceLimit = 0;
  try {
    return parseDocument(text, OPTIONS);
  } finally {
    Error.stackTraceLimit = stackTraceLimit;
  }
}

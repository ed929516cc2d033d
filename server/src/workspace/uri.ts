// One spelling for each file. Editors escape the same path differently ("c%3A" or "C:", "%28" or "("), and the core
// compares uris as strings, so every uri of a file is brought into one form before the core sees it.

/** Where this runs; undefined in a browser. */
const PLATFORM = typeof process === "undefined" ? undefined : process.platform;

/**
 * `file:` uris with every character but the unreserved ones and "/" escaped and a lower-case drive letter. On macOS a
 * name is the same file however its accents are put together (from memory), and is spelt with them together.
 */
export function canonicalUri(uri: string, platform: string | undefined = PLATFORM): string {
  const match = /^file:\/\/([^/?#]*)([^?#]*)/i.exec(uri);
  if (!match) return uri;
  const spelt = platform === "darwin" ? (part: string) => part.normalize("NFC") : (part: string) => part;
  const path = match[2]!.split("/").map((part) => escapePart(spelt(unescapePart(part))));
  return `file://${match[1]!.toLowerCase()}${path.join("/")}`.replace(
    /^file:\/\/\/([A-Za-z])%3A(?=\/|$)/,
    (_, drive: string) => `file:///${drive.toLowerCase()}%3A`,
  );
}

function unescapePart(part: string): string {
  try {
    return decodeURIComponent(part);
  } catch {
    // A stray "%" in somebody's file name; it is kept as a character.
    return part;
  }
}

// Half of a surrogate pair cannot be escaped, and no file system hands one out.
const escapePart = (part: string): string =>
  encodeURIComponent(part.replace(/\p{Surrogate}/gu, "\uFFFD")).replace(
    /[!'()*]/g,
    (char) => `%${char.charCodeAt(0).toString(16).toUpperCase()}`,
  );

/** The file at a path relative to another file's folder, "/" between folders; undefined where a uri has no paths. */
export function fileBeside(uri: string, path: string): string | undefined {
  try {
    return canonicalUri(new URL(path.split("/").map(escapePart).join("/"), uri).href);
  } catch {
    return undefined;
  }
}

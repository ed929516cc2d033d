// One spelling for each file. Editors escape the same path differently ("c%3A" or "C:", "%28" or "("), and the core
// compares uris as strings, so every uri of a file is brought into one form before the core sees it.

/** `file:` uris with every character but the unreserved ones and "/" escaped and a lower-case drive letter. */
export function canonicalUri(uri: string): string {
  const match = /^file:\/\/([^/?#]*)([^?#]*)/i.exec(uri);
  if (!match) return uri;
  const path = match[2]!.split("/").map((part) => escapePart(unescapePart(part)));
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

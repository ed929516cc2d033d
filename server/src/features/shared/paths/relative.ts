// Paths between files. Uris are in the one spelling of the core: every character but the unreserved ones escaped.

/** The uri that a relative path leads to from a file; undefined where it leads above the root or is none. */
export function resolvePath(from: string, path: string): string | undefined {
  if (path === "" || path.startsWith("/") || /^[a-z]:/i.test(path)) return undefined;
  const [, root, folders] = /^([a-z][a-z0-9+.-]*:(?:\/\/[^/]*)?\/)(?:(.*)\/)?[^/]*$/i.exec(from) ?? [];
  if (root === undefined) return undefined;
  const parts = folders === undefined || folders === "" ? [] : folders.split("/");
  for (const part of path.split("/")) {
    if (part === "..") {
      if (parts.pop() === undefined) return undefined;
    } else if (part !== "." && part !== "") parts.push(escaped(part));
  }
  return root + parts.join("/");
}

/** The path that leads from a file to another one, not escaped; undefined where they have no root in common. */
export function relativePath(from: string, to: string): string | undefined {
  const [fromRoot, fromParts] = split(from);
  const [toRoot, toParts] = split(to);
  if (fromRoot === undefined || fromRoot !== toRoot) return undefined;
  fromParts.pop();
  let same = 0;
  while (same < fromParts.length && same < toParts.length - 1 && fromParts[same] === toParts[same]) same++;
  return [...fromParts.slice(same).map(() => ".."), ...toParts.slice(same).map(unescaped)].join("/");
}

function split(uri: string): [root: string | undefined, parts: string[]] {
  const [, root, path] = /^([a-z][a-z0-9+.-]*:(?:\/\/[^/]*)?\/)(.*)$/i.exec(uri) ?? [];
  return [root, (path ?? "").split("/")];
}

const escaped = (part: string): string =>
  encodeURIComponent(part.replace(/\p{Surrogate}/gu, "\uFFFD")).replace(
    /[!'()*]/g,
    (char) => `%${char.charCodeAt(0).toString(16).toUpperCase()}`,
  );

function unescaped(part: string): string {
  try {
    return decodeURIComponent(part);
  } catch {
    return part;
  }
}

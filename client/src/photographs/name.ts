// What a photograph that is put into a log is called: by the job, what the log stands at, and a number nobody has yet.

/** Kinds of picture that a report can show. */
const ENDINGS: Readonly<Record<string, string>> = {
  "image/jpeg": "jpg",
  "image/png": "png",
  "image/gif": "gif",
  "image/webp": "webp",
};

export const PICTURE_TYPES = Object.keys(ENDINGS);

export const endingOf = (type: string): string | undefined => ENDINGS[type];

/** Bytes; the check for photographs that are too large says the same. */
export const MOST_PHOTOGRAPH_BYTES = 50 * 1024 * 1024;

/** The job's number where the front matter gives one, else the name of the log's file. */
export function stemOf(text: string, file: string): string {
  const [, front = ""] = /^---\r?\n([\s\S]*?)\r?\n---/.exec(text) ?? [];
  const job = /^job:[ \t]*["']?([^"'#\r\n]+)/m.exec(front)?.[1]?.trim();
  const plain = (words: string): string =>
    words.replace(/[^A-Za-z0-9._-]+/g, "-").replace(/^[-.]+|[-.]+$/g, "");
  return plain(job ?? "") || plain(file.replace(/\.(?:md|markdown)$/i, "")) || "photo";
}

/** The part that the nearest heading above, or the line, names first: "U14". */
export function subjectAbove(lines: readonly string[]): string | undefined {
  const own = lines.at(-1) ?? "";
  const heading = lines.findLast((line) => /^#{1,6}\s/.test(line)) ?? "";
  for (const line of [own, heading]) {
    const ref = /\b(?:U|IC|Q|TR|R|C|D|J|P|BR|F|RN|SW|K|VR|Y|BT)\d{1,4}\b/.exec(line)?.[0];
    if (ref) return ref;
  }
  return undefined;
}

/** "photos/2026-018-u14-3.jpg", the first number that is not taken. */
export function freeName(
  stem: string,
  subject: string | undefined,
  ending: string,
  taken: ReadonlySet<string>,
): string {
  const base = [stem, subject?.toLowerCase()].filter(Boolean).join("-");
  for (let number = 1; ; number += 1) {
    const name = `${base}-${number}.${ending}`;
    if (!taken.has(name.toLowerCase())) return name;
  }
}

/** The link, with what it shows to be written between its brackets; `$` and `}` end no tab stop. */
export const linkSnippet = (path: string, subject: string | undefined): string =>
  `![\${1:${(subject ?? "what it shows").replace(/[$}\\]/g, "")}}](${path.replace(/[$}\\]/g, "\\$&")})`;

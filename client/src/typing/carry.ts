// Typed faster than a key's answer came: what belongs where the key leads stands where it was pressed.

/** An edit by offsets of the text it was made for. */
export interface Edit {
  readonly start: number;
  readonly end: number;
  readonly newText: string;
}

/** One edit that does it all, with the cursor between two parts of what it writes. */
export interface Carried {
  readonly start: number;
  readonly end: number;
  readonly before: string;
  readonly after: string;
}

/**
 * Does what a key is to do and takes along what was typed behind it.
 * @param text the document when the key was pressed
 * @param edits what the key does to that, in order and apart from each other
 * @param cursor where the key leads, in the text after the edits
 * @param at where the key was pressed
 * @param typed what was typed there since
 * @returns the edit of the document as it stands now, which is `text` with `typed` in it
 */
export function carry(
  text: string,
  edits: readonly Edit[],
  cursor: number,
  at: number,
  typed: string,
): Carried {
  const now = text.slice(0, at) + typed + text.slice(at);
  const made = apply(text, edits);
  const wanted = made.slice(0, cursor) + typed + made.slice(cursor);
  const behind = cursor + typed.length;
  const most = Math.min(now.length, wanted.length);
  let start = 0;
  while (start < most && start < cursor && now[start] === wanted[start]) start += 1;
  let tail = 0;
  const longest = Math.min(most - start, wanted.length - behind);
  while (tail < longest && now[now.length - 1 - tail] === wanted[wanted.length - 1 - tail]) tail += 1;
  return {
    start,
    end: now.length - tail,
    before: wanted.slice(start, behind),
    after: wanted.slice(behind, wanted.length - tail),
  };
}

/** The offset of a place of the text after the edits. */
export function offsetAfter(
  text: string,
  edits: readonly Edit[],
  place: { readonly line: number; readonly character: number },
): number {
  let start = 0;
  let line = 0;
  for (const end of apply(text, edits).matchAll(/\r\n|\r|\n/g)) {
    if (line === place.line) break;
    line += 1;
    start = end.index + end[0].length;
  }
  return start + place.character;
}

function apply(text: string, edits: readonly Edit[]): string {
  let made = "";
  let at = 0;
  for (const { start, end, newText } of edits) {
    made += text.slice(at, start) + newText;
    at = end;
  }
  return made + text.slice(at);
}

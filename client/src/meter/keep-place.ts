/** One change of a text, as the editor tells of it. */
export interface Change {
  readonly rangeOffset: number;
  readonly rangeLength: number;
  readonly text: string;
}

/**
 * Where an offset is after changes that came together: each is told in offsets of the text before all of them.
 * @returns undefined where a change touched the line part around it, from `start` to `end`
 */
export function keepPlace(
  offset: number,
  around: { readonly start: number; readonly end: number },
  changes: readonly Change[],
): { readonly offset: number; readonly start: number; readonly end: number } | undefined {
  let by = 0;
  for (const { rangeOffset, rangeLength, text } of changes) {
    if (rangeOffset > around.end) continue;
    if (rangeOffset + rangeLength >= around.start) return undefined;
    by += text.length - rangeLength;
  }
  return { offset: offset + by, start: around.start + by, end: around.end + by };
}

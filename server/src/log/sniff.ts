/** Front matter longer than this is not searched for the opening key: no log has so many fields. */
const MAX_HEAD = 20_000;

/**
 * True where the text is a repair log: it opens with a front-matter fence and a line `mendlog:` stands before
 * the closing one. Broken YAML elsewhere, or a fence that is never closed, does not hide the key, so that a
 * half-typed log is still served. A line ends at `\n`, `\r\n` or a lone `\r`, as in CommonMark. Costs a look at the first line for every other Markdown file; nothing is parsed.
 */
export function isLog(text: string): boolean {
  const bom = text.charCodeAt(0) === 0xfeff ? 1 : 0;
  if (!text.startsWith("---", bom)) return false;
  const head = text.slice(bom, bom + MAX_HEAD);
  if (!/^---[ \t]*[\r\n]/.test(head)) return false;
  const close = /[\r\n]---[ \t]*(?:[\r\n]|$)/.exec(head);
  const body = close ? head.slice(0, close.index + 1) : head;
  return /^mendlog[ \t]*:/m.test(body);
}

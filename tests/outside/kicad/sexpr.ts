// A reader for the parenthesised text KiCad keeps its symbols in: lists, bare words and quoted strings.

export type SExpr = string | readonly SExpr[];

/** Parses one expression. Throws with the offset on text that is not balanced. */
export function parseSExpr(text: string): SExpr {
  const token = /\s*(?:([()])|"((?:[^"\\]|\\.)*)"|([^\s()"]+))/gy;
  const stack: SExpr[][] = [];
  for (;;) {
    const at = token.lastIndex;
    const match = token.exec(text);
    if (match === null) throw new Error(`unfinished or unreadable expression at offset ${at}`);
    const [, bracket, quoted, word] = match;
    if (bracket === "(") {
      stack.push([]);
      continue;
    }
    let done: SExpr;
    if (bracket === ")") {
      const list = stack.pop();
      if (list === undefined) throw new Error(`unexpected ")" at offset ${at}`);
      done = list;
    } else {
      done = quoted !== undefined ? quoted.replace(/\\(.)/g, "$1") : (word ?? "");
    }
    const parent = stack.at(-1);
    if (parent === undefined) return done;
    parent.push(done);
  }
}

/** The children of `list` that are lists opened by `word`. */
export function childrenOf(list: SExpr, word: string): (readonly SExpr[])[] {
  if (typeof list === "string") return [];
  return list.filter((item): item is readonly SExpr[] => typeof item !== "string" && item[0] === word);
}

/** The first value of the child opened by `word`: `(name "A")` gives "A". */
export function firstValue(list: SExpr, word: string): string | undefined {
  const value = childrenOf(list, word)[0]?.[1];
  return typeof value === "string" ? value : undefined;
}

// What changed between two texts, line by line, as a unified diff writes it: a line of context around each change.

const CONTEXT = 1;

type Line = readonly [sign: " " | "-" | "+", text: string];

/** Without file names and line numbers; `@@` stands where lines are left out between changes. Empty where nothing changed. */
export function lineDiff(before: string, after: string): string {
  const lines = aligned(before === "" ? [] : before.split("\n"), after === "" ? [] : after.split("\n"));
  const isNear = lines.map((_, at) =>
    lines.slice(Math.max(0, at - CONTEXT), at + CONTEXT + 1).some(([sign]) => sign !== " "),
  );
  const shown: string[] = [];
  let last: number | undefined;
  for (const [at, [sign, text]] of lines.entries()) {
    if (!isNear[at]) continue;
    if (last !== undefined && last < at - 1) shown.push("@@");
    last = at;
    // What ends a file is no line.
    if (at < lines.length - 1 || text !== "") shown.push(sign === " " && text === "" ? "" : `${sign}${text}`);
  }
  return shown.join("\n");
}

/** All lines of both texts, those of a longest common subsequence once. */
function aligned(before: readonly string[], after: readonly string[]): Line[] {
  // common[i][j]: how many lines before[i..] and after[j..] have in common.
  const common = Array.from({ length: before.length + 1 }, () => new Array<number>(after.length + 1).fill(0));
  const at = (i: number, j: number): number => common[i]?.[j] ?? 0;
  for (let i = before.length - 1; i >= 0; i--) {
    const row = common[i] ?? [];
    for (let j = after.length - 1; j >= 0; j--)
      row[j] = before[i] === after[j] ? at(i + 1, j + 1) + 1 : Math.max(at(i + 1, j), at(i, j + 1));
  }
  const lines: Line[] = [];
  let [i, j] = [0, 0];
  while (i < before.length || j < after.length) {
    const [old, now] = [before[i], after[j]];
    if (old !== undefined && old === now) {
      lines.push([" ", old]);
      i++;
      j++;
    } else if (old !== undefined && (now === undefined || at(i + 1, j) >= at(i, j + 1))) {
      lines.push(["-", old]);
      i++;
    } else {
      lines.push(["+", now ?? ""]);
      j++;
    }
  }
  return lines;
}

/**
 * How well a query fits a name: higher is better, undefined where its letters are not in the name, or in name and
 * container together, in order. Case and blanks do not count. A whole run of letters beats scattered ones, the
 * beginning of a word its middle, a short name a long one.
 */
export function fuzzy(query: string, name: string, container = ""): number | undefined {
  const wanted = query.toLowerCase().replace(/\s+/g, "");
  if (wanted === "") return 0;
  const own = scattered(wanted, name);
  if (own !== undefined) return own + 50;
  return scattered(wanted, `${name} ${container}`);
}

function scattered(wanted: string, name: string): number | undefined {
  const text = name.toLowerCase();
  const run = text.indexOf(wanted);
  if (run >= 0) return (isStart(name, run) ? 40 : 20) - run / 10 - name.length / 100;
  let at = -1;
  let score = 0;
  for (const letter of wanted) {
    const next = text.indexOf(letter, at + 1);
    if (next < 0) return undefined;
    if (next === at + 1 || isStart(name, next)) score += 1;
    at = next;
  }
  return score / wanted.length - name.length / 100;
}

const isStart = (name: string, at: number): boolean => at === 0 || !/[A-Za-z0-9]/.test(name[at - 1]!);

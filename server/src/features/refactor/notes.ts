// In a long table a note is of one reading, in a wide one of a whole row. There each says which column it is of, unless
// it is of all.

/** One note for a row, from those of its columns. `names` are all columns of the table. */
export function joinNotes(
  notes: readonly (readonly [column: string, note: string])[],
  names: readonly string[],
): string {
  const [first] = notes;
  if (!first) return "";
  const same = notes.length === names.length && notes.every(([, note]) => note === first[1]);
  if (same && splitNotes(first[1], names) === undefined) return first[1];
  return notes
    .filter(([, note]) => note !== "")
    .map(([column, note]) => `${column}: ${note}`)
    .join("; ");
}

/** The notes by column, where each part of the note names one; undefined where it is of the whole row. */
export function splitNotes(note: string, names: readonly string[]): ReadonlyMap<string, string> | undefined {
  const known = names.map((name) => name.replace(/[.*+?^${}()|[\]\\]/g, "\\$&")).join("|");
  if (known === "") return undefined;
  const parts = note.split(new RegExp(`; (?=(?:${known}): )`));
  const found = new Map<string, string>();
  const named = new RegExp(`^(${known}): (.*)$`, "s");
  for (const part of parts) {
    const [, name, text] = named.exec(part) ?? [];
    if (name === undefined || text === undefined || found.has(name)) return undefined;
    found.set(name, text);
  }
  return found;
}

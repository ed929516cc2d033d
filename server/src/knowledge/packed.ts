/** Key, then its value in each object that has it, in order. */
type Column = readonly [string, readonly unknown[]];

/**
 * The objects that `server/build/packed.js` laid out, as they were. What stands in it was made with the program: it is taken
 * at its word, and what is no such text throws.
 */
export function unpacked(text: string): Record<string, unknown>[] {
  const [shapes, rows, columns] = JSON.parse(text) as [string[][], number[], Column[]];
  const fields = new Map(columns.map(([key, values]) => [key, { values, next: 0 }]));
  return rows.map((shape) => {
    const object: Record<string, unknown> = {};
    for (const key of shapes[shape]!) {
      const field = fields.get(key)!;
      object[key] = field.values[field.next++];
    }
    return object;
  });
}

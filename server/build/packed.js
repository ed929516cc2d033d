// Lays a list of like objects out so that less is left of it when it is compressed: a field of all objects, one value beside
// the other, and which keys each object has. `server/src/knowledge/packed.ts` reads it. To lay out what is in the fields too
// would save as much again, and cost twice the time to read.

/**
 * @param {readonly object[]} objects plain data, as JSON has it
 * @returns {string} JSON
 */
export function packed(objects) {
  const shapes = new Map();
  const columns = new Map();
  const rows = objects.map((object) => {
    for (const [key, value] of Object.entries(object)) {
      if (!columns.has(key)) columns.set(key, []);
      columns.get(key).push(value);
    }
    const keys = JSON.stringify(Object.keys(object));
    if (!shapes.has(keys)) shapes.set(keys, shapes.size);
    return shapes.get(keys);
  });
  return JSON.stringify([[...shapes.keys()].map((keys) => JSON.parse(keys)), rows, [...columns]]);
}

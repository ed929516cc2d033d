// The parser moves a few events near the end of its list at every heading that is underlined and every quote or list that
// ends, and copies the whole list to do it: 1,700 quotes took 4 s, twice as many eight times that. What stands before the
// first change stays where it is here, so it costs what is changed and what is behind it. The outcome is the same, event for
// event; `tests/syntax/quick-edits.test.ts` holds it against the parser's own.
import { EditMap } from "micromark-util-edit-map";

/** The library's own, for the test. */
export const copyingAll = EditMap.prototype.consume;

EditMap.prototype.consume = function (this: EditMap, events): undefined {
  if (this.map.length === 0) return;
  this.map.sort((a, b) => a[0] - b[0]);
  const from = this.map[0]![0];
  const tail = events.slice(from);
  events.length = from;
  let taken = 0;
  for (const [at, removed, added] of this.map) {
    for (const event of tail.slice(taken, at - from)) events.push(event);
    for (const event of added) events.push(event);
    taken = at - from + removed;
  }
  for (const event of tail.slice(taken)) events.push(event);
  this.map.length = 0;
  this.index.clear();
};

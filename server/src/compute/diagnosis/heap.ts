/** Puts `item` into a binary heap kept in an array; the smallest by `before` is at index 0. */
export function push<T>(heap: T[], item: T, before: (a: T, b: T) => boolean): void {
  let at = heap.push(item) - 1;
  while (at > 0) {
    const parent = (at - 1) >> 1;
    if (!before(item, heap[parent]!)) break;
    heap[at] = heap[parent]!;
    at = parent;
  }
  heap[at] = item;
}

/** Takes the smallest out; undefined where the heap is empty. */
export function pop<T>(heap: T[], before: (a: T, b: T) => boolean): T | undefined {
  const top = heap[0];
  const last = heap.pop();
  if (last === undefined || heap.length === 0) return top;
  let at = 0;
  for (;;) {
    let child = 2 * at + 1;
    if (child >= heap.length) break;
    if (child + 1 < heap.length && before(heap[child + 1]!, heap[child]!)) child += 1;
    if (!before(heap[child]!, last)) break;
    heap[at] = heap[child]!;
    at = child;
  }
  heap[at] = last;
  return top;
}

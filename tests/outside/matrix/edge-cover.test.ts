import fc from "fast-check";
import { hopcroftKarp } from "hopcroft-karp";
import { describe, expect, test } from "vitest";
import { maximumMatching, minimumVertexCover } from "../../../server/src/compute/matrix/matching";
import { provingPlan } from "../../../server/src/compute/matrix/proving";
import { accepted } from "../../compute/matrix/support";

type Graph = readonly (readonly boolean[])[];

const neighbours = (graph: Graph): number[][] =>
  graph.map((row) => row.flatMap((edge, column) => (edge ? [column] : [])));

const matched = (graph: Graph): number =>
  maximumMatching(neighbours(graph)).filter((right) => right !== undefined).length;

/** A matrix whose allowed crossings are the graph's edges. */
function cover(graph: Graph) {
  const reserved = graph.flatMap((row, r) =>
    row.flatMap((edge, c) => (edge ? [] : [{ row: r + 1, column: c + 1 }])),
  );
  return accepted(provingPlan({ rows: graph.length, columns: graph[0]!.length, reserved }, []));
}

const complete = (rows: number, columns: number): Graph =>
  Array.from({ length: rows }, () => Array.from({ length: columns }, () => true));

/** Up to 32 lines a side; `sparse` of ten crossings are allowed. */
const graphs = fc
  .tuple(fc.integer({ min: 1, max: 32 }), fc.integer({ min: 1, max: 32 }), fc.integer({ min: 1, max: 9 }))
  .chain(([rows, columns, tenths]) =>
    fc.array(
      fc.array(
        fc.integer({ min: 0, max: 9 }).map((n) => n < tenths),
        { minLength: columns, maxLength: columns },
      ),
      { minLength: rows, maxLength: rows },
    ),
  );

// Textbook values, computed: matching and edge cover of a complete bipartite graph are min and max of its sides.
describe("complete bipartite graphs", () => {
  test.each([
    ["K2,3", 2, 3, 2, 3],
    ["K1,4", 1, 4, 1, 4],
    ["K8,8", 8, 8, 8, 8],
    ["K32,32", 32, 32, 32, 32],
  ])("%s", (_, rows, columns, matching, edges) => {
    expect(matched(complete(rows, columns))).toBe(matching);
    expect(cover(complete(rows, columns)).next).toHaveLength(edges);
  });
});

// Gallai, 1959 (from memory): without isolated vertices, matching + edge cover = vertices.
test("matching and edge cover come to the number of vertices (Gallai's identity)", () => {
  fc.assert(
    fc.property(graphs, (graph) => {
      const { next, unprovable } = cover(graph);
      const isolated =
        graph.filter((row) => !row.includes(true)).length +
        graph[0]!.filter((_, column) => !graph.some((row) => row[column])).length;
      expect(unprovable).toHaveLength(isolated);
      expect(matched(graph) + next.length).toBe(graph.length + graph[0]!.length - isolated);
    }),
    { numRuns: 100 },
  );
});

// König, 1931 (from memory): in a bipartite graph a smallest vertex cover is as large as a largest matching.
test("König's theorem, and the cover touches every edge", () => {
  fc.assert(
    fc.property(graphs, (graph) => {
      const { left, right } = minimumVertexCover(neighbours(graph));
      expect(left.size + right.size).toBe(matched(graph));
      expect(graph.every((row, r) => row.every((edge, c) => !edge || left.has(r) || right.has(c)))).toBe(
        true,
      );
    }),
    { numRuns: 100 },
  );
});

// npm hopcroft-karp 0.0.2, an independent matching by another algorithm.
test("as large as the library's matching, and a matching", () => {
  fc.assert(
    fc.property(graphs, (graph) => {
      const theirs = hopcroftKarp(
        Object.fromEntries(neighbours(graph).map((list, r) => [`r${r}`, list.map((c) => `c${c}`)])),
      );
      const ours = maximumMatching(neighbours(graph));
      const rights = ours.filter((right) => right !== undefined);
      expect(rights).toHaveLength(Object.values(theirs).filter((partner) => partner !== null).length);
      expect(new Set(rights).size).toBe(rights.length);
      ours.forEach((right, left) => {
        if (right !== undefined) expect(graph[left]![right]).toBe(true);
      });
    }),
    { numRuns: 100 },
  );
});

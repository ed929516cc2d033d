// The library ships no types; only what the tests call.
declare module "hopcroft-karp" {
  /** Neighbours by left vertex, all names different; the partner of each left vertex, or null. */
  export function hopcroftKarp(graph: Record<string, string[]>): Record<string, string | null>;
}

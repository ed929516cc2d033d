import type { Problem, YamlTree } from "../syntax/yaml";

export { locate, nodeAt, type Problem, type YamlPath, type YamlTree } from "../syntax/yaml";

/**
 * A knowledge file after reading. `value` holds everything that could be used, so a file with errors still
 * serves with the rest; it is absent only where the file as a whole is not of its kind. Every problem has
 * the span of what it is about, and `locate(tree, path)` finds any part of the file again.
 */
export interface Loaded<T> {
  readonly value?: T;
  readonly problems: readonly Problem[];
  readonly tree: YamlTree;
}

/** The name of the layer that a file, by its path from the project's folder, is built into, if of any. */
export function layerOf(path: string): "core" | "protocol" | undefined;

/** Writes the folder of the npm package anew. @param root the project @param target the folder */
export function writeNpmPackage(root: string, target: string): void;

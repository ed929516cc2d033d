// Which source file imports which, read from the texts.
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join, posix } from "node:path";

/** The TypeScript files of a folder, by their paths in it; declarations of types for others left out. */
export const sourcesOf = (root: string): string[] =>
  readdirSync(root, { recursive: true })
    .map((name) => String(name).split("\\").join("/"))
    .filter((name) => name.endsWith(".ts") && !name.endsWith(".d.ts"));

/** What a text imports or exports again, types included, as it is written there. */
export const importsIn = (text: string): string[] =>
  [...text.matchAll(/(?:from|import)\s*\(?\s*"([^"]+)"/g)].map((match) => match[1] ?? "");

/** The files of a folder that each of them imports. */
export function importsWithin(root: string): ReadonlyMap<string, readonly string[]> {
  const files = sourcesOf(root);
  const known = new Set(files);
  return new Map(
    files.map((file) => {
      const targets = importsIn(readFileSync(join(root, file), "utf8")).flatMap((target) => {
        if (!target.startsWith(".")) return [];
        const path = posix.normalize(posix.join(posix.dirname(file), target));
        const found = [`${path}.ts`, `${path}/index.ts`].find((it) => known.has(it));
        // What leads out of the folder has to be there, or the look for circles would be blind.
        if (!found && !path.startsWith("..") && !existsSync(join(root, path)))
          throw new Error(`${file} imports ${target}, which is nowhere`);
        return found ?? [];
      });
      return [file, targets] as const;
    }),
  );
}

/**
 * Groups of files that reach each other by their imports, each sorted (R. Tarjan, "Depth-first search and linear graph
 * algorithms", SIAM J. Comput. 1, 1972; from memory).
 */
export function circlesIn(imports: ReadonlyMap<string, readonly string[]>): string[][] {
  const order = new Map<string, number>();
  const low = new Map<string, number>();
  const open: string[] = [];
  const circles: string[][] = [];
  const visit = (file: string): number => {
    const number = order.size;
    order.set(file, number);
    low.set(file, number);
    open.push(file);
    for (const target of imports.get(file) ?? []) {
      const reached = order.has(target)
        ? open.includes(target)
          ? (order.get(target) ?? number)
          : number
        : visit(target);
      low.set(file, Math.min(low.get(file) ?? number, reached));
    }
    if (low.get(file) === number) {
      const circle = open.splice(open.indexOf(file));
      if (circle.length > 1 || imports.get(file)?.includes(file)) circles.push(circle.sort());
    }
    return low.get(file) ?? number;
  };
  for (const file of imports.keys()) if (!order.has(file)) visit(file);
  return circles;
}

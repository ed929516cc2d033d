import { readdirSync } from "node:fs";
import { join } from "node:path";

/** Every file below a folder, folders by name. */
export function* filesBelow(folder) {
  for (const entry of readdirSync(folder, { withFileTypes: true })) {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) yield* filesBelow(path);
    else yield path;
  }
}

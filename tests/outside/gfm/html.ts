const ENTITIES: Readonly<Record<string, string>> = { "&lt;": "<", "&gt;": ">", "&amp;": "&", "&quot;": '"' };

/** Tables, rows and cells in the HTML of another reader, without markup inside the cells. */
export const htmlCells = (html: string): string[][][] =>
  [...html.matchAll(/<table>([\s\S]*?)<\/table>/g)].map(([, table]) =>
    [...table!.matchAll(/<tr>([\s\S]*?)<\/tr>/g)].map(([, row]) =>
      [...row!.matchAll(/<t[hd][^>]*>([\s\S]*?)<\/t[hd]>/g)].map(([, cell]) =>
        cell!.replace(/<[^>]*>/g, "").replace(/&\w+;/g, (entity) => ENTITIES[entity] ?? entity),
      ),
    ),
  );

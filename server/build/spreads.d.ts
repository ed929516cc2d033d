/** The same script, each object literal that begins with a spread begun with a spread of nothing. */
export function withSharedShapes(code: string): string;

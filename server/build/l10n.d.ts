/** The texts of all `l10n.t(...)` in one source. */
export function textsIn(source: string, path: string): string[];
/** Every text of the sources in a folder, each once, in the order of the alphabet. */
export function clientTexts(folder: string): string[];
/** The bundle beside which translations are made. */
export function bundle(texts: readonly string[]): string;

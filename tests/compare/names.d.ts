export { readSources } from "./docs.js";
export function namesIn(text: string): string[];
export function severalTimes(sources: ReadonlyMap<string, string>): ReadonlyMap<string, readonly string[]>;

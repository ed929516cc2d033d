/** @returns JSON that `unpacked` of `server/src/knowledge/packed.ts` reads. */
export function packed(objects: readonly object[]): string;

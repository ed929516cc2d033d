import type { Ajv } from "ajv";

export function createAjv(options?: { readonly checked?: boolean }): Ajv;
export function validatorsSource(): string;

import { BY_CODE } from "./by-code";
import type { Check } from "./check";
import { CHECK_CODES } from "./codes";

/** Every check there is, in the order they are listed to people. */
export const CHECKS: readonly Check[] = CHECK_CODES.map((code) => BY_CODE[code]);

const byCode: ReadonlyMap<string, Check> = new Map(Object.entries(BY_CODE));

/** Undefined where somebody typed a code that no check has. */
export const checkOf = (code: string): Check | undefined => byCode.get(code);

/** Words by the command that says them. */
type Words = Readonly<Record<string, RegExp>>;
export const NO_LOG: Words;
export const NO_LOG_OR_BOARD: Words;
export const NEEDS_MORE: Words;
export const AS_EVER: readonly string[];
export const QUIET_COMMANDS: readonly string[];
export const ANYWHERE: readonly string[];

/** Text that a snippet must not read as a stop of its own. */
export const literal = (text: string): string => text.replace(/[$}\\]/g, "\\$&");

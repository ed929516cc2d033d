// Work that is written down before it is done. Which words say so is common practice, no source.

/** True for "to replace", "plan: fit modification", "planned" and the like at the beginning of an action. */
export const isPlanned = (action: string): boolean =>
  /^\W*(?:plan(?:s|ned|ning)?\b|to[- ]?do\b|to\s+(?:be\s+)?[a-z]+|will\s+[a-z]+|propos(?:e|ed|al)\b|suggest(?:ed)?\b|intend(?:ed)?\b)/i.test(
    action,
  );

/** True for words such as "replaced" and "fitted new", which left another part in the place; plans leave nothing. */
export const saysReplaced = (action: string): boolean => !isPlanned(action) && namesReplacing(action);

export const namesReplacing = (action: string): boolean =>
  /\b(?:re-?plac|renew|swap|exchang|chang|fit(?:ted)?\s+new|new\s+part)/i.test(action);

// Words of a row of work that say whether it was done. Which they are is common practice, no source.

/** True for "to replace", "needs replacing", "plan: fit modification" and the like at the beginning of an action. */
export const isPlanned = (action: string): boolean =>
  /^\W*(?:plan(?:s|ned|ning)?\b|to[- ]?do\b|to\s+(?:be\s+)?[a-z]+|(?:will|should|must|ha(?:s|ve)\s+to|needs?)\s+[a-z]+|propos(?:e|ed|al)\b|suggest(?:ed)?\b|intend(?:ed)?\b)/i.test(
    action,
  );

/** True for words such as "replaced" and "fitted new", which leave another part in the place, done or planned. */
export const namesReplacing = (action: string): boolean =>
  /\b(?:re-?plac|renew|swap|exchang|chang|fit(?:ted)?\s+new|new\s+part)/i.test(action);

const OLD =
  "(?:(?:it|them|the|its|old|original|first|same|one|ones|part|parts|chip|ic|[a-z]{1,3}\\d{1,4})\\s+)";
/** What else is put back after work, and says nothing of the part. */
const OTHER =
  "(?:heat-?\\s?sinks?|covers?|lids?|shields?|brackets?|clips?|screws?|nuts?|boards?|cards?|fuses?|plugs?|connectors?|cables?|leads?)";
const ELSEWHERE =
  "(?:in(?:to)?|on|to)\\s+(?:the\\s+|its\\s+|a\\s+)?(?:game|machine|cabinet|case|rack|service|use|bag|box|drawer|tube|stock|shelf|owner|customer)";

const PUT_BACK = [
  // "put back", "put the old one back"
  new RegExp(
    `(?<!\\b${OTHER}\\s+(?:(?:is|are|was|were)\\s+)?)\\bput\\s+${OLD}{0,4}back\\b(?!\\s+(?:(?:the\\s+|its\\s+)?${OTHER}\\b|${ELSEWHERE}\\b))`,
    "gi",
  ),
  // "swapped back", "changed it back"
  new RegExp(`\\b(?:swapp?|chang)(?:ed)?\\s+${OLD}{0,4}back\\b`, "gi"),
  // "original refitted", "old one back in"
  /\b(?:old|original|first|same)\s+(?:(?:one|part|chip|ic|[a-z]{1,3}\d{1,4})\s+)?(?:(?:is|was|went)\s+)?(?:back\s+in\b(?!\s+(?:the\s+|its\s+|a\s+)?(?:bag|box|drawer|tube|stock)\b)|re-?(?:fitted|installed|inserted))/gi,
];

/** What comes before makes it undone: "not put back", "to be put back", "until it is put back". */
const UNDONE = /\b(?:(?:not|never|nothing|be)\s+|(?:until|before|if|unless)\s+(?:[a-z0-9]+\s+){0,3})$/i;

/** What the words say besides that a part was put back. */
export const besidesPutBack = (text: string): string =>
  PUT_BACK.reduce((rest, pattern) => rest.replace(pattern, " "), text);

/** True for "tried a known-good one": a part put in to see whether it helps. */
export const namesTrial = (text: string): boolean =>
  /\b(?:try|tried|trial|known[- ]good|test(?:ed)?)\b/i.test(text);

/** True where the words say that the part that stood there before stands there again. */
export const saysPutBack = (text: string): boolean =>
  /back|re-?(?:fit|inst|ins)/i.test(text) &&
  PUT_BACK.some((pattern) =>
    [...text.matchAll(pattern)].some(({ index }) => !UNDONE.test(text.slice(0, index))),
  );

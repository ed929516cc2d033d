/** Keys by command. */
export const OWN_KEYS: Readonly<Record<string, string>>;

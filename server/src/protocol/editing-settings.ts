/** What is written into a log while it is typed. */
export interface EditingSettings {
  /** True where a line break below a row of a readings table starts the next row. */
  readonly nextRow: boolean;
}

export const DEFAULT_TYPING: EditingSettings = { nextRow: true };

/**
 * Reads `tables.nextRow` of a section of settings; whatever it holds, something usable comes back.
 * @param problems takes what could not be used, in words for the log
 */
export function readTyping(section: unknown, problems: Set<string>): EditingSettings {
  const value = member(member(section, "tables"), "nextRow");
  if (value !== undefined && value !== null && typeof value !== "boolean") {
    problems.add(`The setting mendlog.tables.nextRow is ${JSON.stringify(value)}; use true or false.`);
  }
  return { nextRow: value !== false };
}

const member = (value: unknown, key: string): unknown =>
  typeof value === "object" && value !== null && Object.hasOwn(value, key)
    ? (value as Record<string, unknown>)[key]
    : undefined;

/** A day of the calendar as ISO 8601 writes it: 2024-02-29 is one, 2023-02-29 is not. */
export function isDate(text: string): boolean {
  const match = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text);
  if (!match) return false;
  const [year, month, day] = match.slice(1).map(Number) as [number, number, number];
  const date = new Date(0);
  date.setUTCFullYear(year, month - 1, day);
  return date.getUTCFullYear() === year && date.getUTCMonth() === month - 1 && date.getUTCDate() === day;
}

/** By its name in a schema, what a text must be. */
export const FORMATS = { date: isDate } as const;

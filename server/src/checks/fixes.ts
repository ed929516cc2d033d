import type { Finding, Fix } from "./check";

/** The text a finding carries to put in its place, if it carries one. */
export function newTextOf(finding: Finding): string | undefined {
  const data = finding.data as { newText?: unknown } | undefined;
  return typeof data?.newText === "string" ? data.newText : undefined;
}

/** One fix that puts the finding's own suggestion in its place; none where there is no suggestion. */
export function replaceWithData(finding: Finding, title: (newText: string) => string): Fix[] {
  const newText = newTextOf(finding);
  if (newText === undefined) return [];
  return [{ title: title(newText), edits: [{ span: finding.span, newText }], preferred: true }];
}

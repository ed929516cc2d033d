import type { Check, Severity } from "../checks/check";

/** SARIF knows three levels of failure (2.1.0, 3.27.10); information and hint are both its "note". */
export function sarifLevel(severity: Severity): "error" | "warning" | "note" {
  return severity === "error" || severity === "warning" ? severity : "note";
}

/** A check as a reporting descriptor (2.1.0, 3.49). */
export function ruleOf(check: Check) {
  return {
    id: check.code,
    name: check.code.replace(/(?:^|-)([a-z0-9])/g, (_, letter: string) => letter.toUpperCase()),
    shortDescription: { text: `${check.title}.` },
    fullDescription: { text: check.why },
    help: {
      text: `${check.why}\n\n${check.remedy}`,
      markdown: `## ${check.title}\n\n${check.why}\n\n**What to do:** ${check.remedy}\n`,
    },
    defaultConfiguration: { level: sarifLevel(check.severity) },
    properties: { severity: check.severity },
  };
}

import { inWords } from "../text/saying";
import type { Check, CheckSettings, Draft, Finding, Severity } from "./check";

/** An override replaces the check's own severity; a finding it marks as lighter than usual stays lighter. */
export function asFinding(
  check: Pick<Check, "code" | "severity">,
  draft: Draft,
  settings: CheckSettings,
): Finding | undefined {
  const override = settings.severity.get(check.code);
  if (override === "off") return undefined;
  const usual = override ?? check.severity;
  const severity = draft.severity && RANK[draft.severity] > RANK[usual] ? draft.severity : usual;
  return { ...draft, code: check.code, severity, message: inWords(draft) };
}

const RANK: Readonly<Record<Severity, number>> = { error: 0, warning: 1, information: 2, hint: 3 };

import { type Diagnostic, DiagnosticSeverity, DiagnosticTag } from "vscode-languageserver";
import { defined } from "../base/defined";
import type { Severity } from "../checks/check";
import type { FindingTold } from "../workspace/host";
import { type LinedText, linedText, toLspRange } from "./convert";
import type { Session } from "./session";

export const SOURCE = "mendlog";

const SEVERITIES: Readonly<Record<Severity, DiagnosticSeverity>> = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  information: DiagnosticSeverity.Information,
  hint: DiagnosticSeverity.Hint,
};

const TAGS = { unnecessary: DiagnosticTag.Unnecessary, deprecated: DiagnosticTag.Deprecated };

/**
 * A finding as the protocol has it. It carries no data for its fix: a fix is made from the finding as it is when
 * the fix is asked for (see code-actions.ts), because offsets from an older text would edit the wrong place.
 */
export function diagnosticOf(
  finding: FindingTold,
  uri: string,
  text: LinedText,
  session: Session,
): Diagnostic {
  const { lines } = text;
  const { can, docsPage } = session;
  const tags = (finding.tags ?? []).map((tag) => TAGS[tag]).filter((tag) => can.tags.includes(tag));
  const href = can.codeDescription ? docsPage(finding.code) : undefined;
  return defined({
    range: toLspRange(lines, finding.span),
    severity: SEVERITIES[finding.severity],
    code: finding.code,
    source: SOURCE,
    message: finding.message,
    codeDescription: href !== undefined ? { href } : undefined,
    tags: tags.length > 0 ? tags : undefined,
    relatedInformation: can.related && finding.related ? relatedOf(finding, uri, text, session) : undefined,
  });
}

function relatedOf(
  finding: FindingTold,
  own: string,
  text: LinedText,
  { documents }: Session,
): NonNullable<Diagnostic["relatedInformation"]> {
  return (finding.related ?? []).map(({ uri, span, message }) => {
    // The finding's own file need not be open. Another file whose text is not at hand is still worth naming: every
    // place in it becomes its beginning.
    const { lines } = uri === own ? text : (documents.text(uri) ?? NO_TEXT);
    const range = toLspRange(lines, span);
    return { location: { uri: documents.clientUri(uri), range }, message };
  });
}

const NO_TEXT = linedText("");

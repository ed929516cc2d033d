import {
  type CodeAction,
  CodeActionKind,
  type CodeActionParams,
  type Diagnostic,
  type Range,
  type WorkspaceEdit,
} from "vscode-languageserver";
import type { Finding, Fix } from "../checks/check";
import type { TextEdit } from "../text/edits";
import { FIX_ALL, INSERT } from "./capabilities";
import { rangeOf, sameRange } from "./convert";
import { SOURCE } from "./diagnostic";
import type { OpenDocument } from "./documents";
import { refactorsIn } from "./features";
import type { Session } from "./session";

/** Quick fixes of the diagnostics the client shows at a place and, where it is asked for, the fix of all. */
export function codeActions(params: CodeActionParams, session: Session): CodeAction[] {
  const document = session.documents.get(params.textDocument.uri);
  if (!document || !session.can.codeActionLiterals) return [];
  const { diagnostics, only } = params.context;
  const wants = (kind: string) => only?.some((asked) => isWithin(kind, asked));
  return [
    ...(only === undefined || wants(CodeActionKind.QuickFix)
      ? quickFixes(diagnostics, document, session)
      : []),
    ...refactors(params.range, document, session).filter(
      ({ kind }) => only === undefined || (kind !== undefined && wants(kind)),
    ),
    ...(wants(FIX_ALL) ? fixAll(document, session) : []),
  ];
}

const isWithin = (kind: string, asked: string): boolean =>
  asked === "" || kind === asked || kind.startsWith(`${asked}.`);

/**
 * The finding behind a diagnostic is looked for among those of the text as it is now, so that a diagnostic the
 * text has moved away from brings no edit instead of one at the wrong place.
 */
function quickFixes(
  diagnostics: readonly Diagnostic[],
  document: OpenDocument,
  session: Session,
): CodeAction[] {
  const ours = diagnostics.filter(({ source }) => source === SOURCE);
  if (ours.length === 0) return [];
  const findings = session.service.findings(document.uri).map((finding) => ({
    finding,
    range: rangeOf(document.lines, finding.span),
  }));
  return ours.flatMap((diagnostic) => {
    const finding = behind(diagnostic, findings);
    if (!finding) return [];
    return session.service
      .fixes(document.uri, finding)
      .map((fix) => quickFix(fix, diagnostic, document, session));
  });
}

/** Offered for the selection, whether or not there is a diagnostic. */
function refactors(range: Range, document: OpenDocument, session: Session): CodeAction[] {
  const { lines } = document;
  const span = { start: lines.offsetAt(range.start), end: lines.offsetAt(range.end) };
  return refactorsIn(session.service, document.uri, span).flatMap((refactor): CodeAction[] => {
    const { title, edits, disabled } = refactor;
    const kind = refactor.kind === "rewrite" ? CodeActionKind.RefactorRewrite : INSERT;
    if (disabled === undefined) return [{ title, kind, edit: workspaceEdit(edits, document, session) }];
    return session.can.disabledActions ? [{ title, kind, disabled: { reason: disabled } }] : [];
  });
}

function behind(
  { code, message, range }: Diagnostic,
  findings: readonly { readonly finding: Finding; readonly range: Range }[],
): Finding | undefined {
  const here = findings.filter((it) => it.finding.code === code && sameRange(it.range, range));
  return (here.find((it) => it.finding.message === message) ?? here[0])?.finding;
}

function quickFix(fix: Fix, diagnostic: Diagnostic, document: OpenDocument, session: Session): CodeAction {
  return {
    title: fix.title,
    kind: CodeActionKind.QuickFix,
    diagnostics: [diagnostic],
    ...(fix.preferred && session.can.preferredActions && { isPreferred: true }),
    edit: workspaceEdit(fix.edits, document, session),
  };
}

/** The preferred fix of each finding, except where it would touch what an earlier one changes. */
function fixAll(document: OpenDocument, session: Session): CodeAction[] {
  const edits: TextEdit[] = [];
  for (const finding of session.service.findings(document.uri)) {
    const fix = session.service.fixes(document.uri, finding).find(({ preferred }) => preferred);
    if (fix && !fix.edits.some((edit) => edits.some((other) => collide(edit, other))))
      edits.push(...fix.edits);
  }
  if (edits.length === 0) return [];
  const title = "Apply every preferred fix in this file";
  return [{ title, kind: FIX_ALL, edit: workspaceEdit(edits, document, session) }];
}

/** Two edits that only meet collide too: which of two insertions comes first is not ours to say. */
const collide = (a: TextEdit, b: TextEdit): boolean =>
  a.span.start <= b.span.end && b.span.start <= a.span.end;

/** Edits of one document as the client takes them: bound to its version, where it can. */
export function workspaceEdit(
  edits: readonly TextEdit[],
  document: OpenDocument,
  { can }: Pick<Session, "can">,
): WorkspaceEdit {
  const { clientUri: uri, version, lines } = document;
  const wire = edits.map(({ span, newText }) => ({ range: rangeOf(lines, span), newText }));
  return can.versionedEdits
    ? { documentChanges: [{ textDocument: { uri, version }, edits: wire }] }
    : { changes: { [uri]: wire } };
}

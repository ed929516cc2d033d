import {
  type CancellationToken,
  type CodeAction,
  CodeActionKind,
  type CodeActionParams,
  CodeActionTriggerKind,
  type Diagnostic,
  type Range,
} from "vscode-languageserver";
import { defined } from "../base/defined";
import type { Finding, Fix } from "../checks/check";
import { partsListSteps } from "../features/parts-list";
import { collide, type TextEdit } from "../text/edits";
import { FIX_ALL, INSERT } from "./capabilities";
import { PROPOSE_LIMITS, WRITE_BOARD_FILE } from "./command-names";
import { sameRange, spanOf, toLspRange } from "./convert";
import { SOURCE } from "./diagnostic";
import type { OpenDocument } from "./documents";
import { refactorsDiagnose, refactorsIn } from "./features";
import { fixEdit, workspaceEdit } from "./fix-edit";
import type { Session } from "./session";

export { workspaceEdit } from "./fix-edit";

/** Quick fixes of the diagnostics the client shows at a place and, where it is asked for, the fix of all. */
export async function codeActions(
  params: CodeActionParams,
  session: Session,
  token: CancellationToken,
): Promise<CodeAction[]> {
  const { service, documents, can } = session;
  const clientUri = params.textDocument.uri;
  const asked = documents.get(clientUri);
  if (!asked || !can.codeActionLiterals) return [];
  const { diagnostics, only, triggerKind } = params.context;
  const wants = (kind: string) => only?.some((one) => isWithin(kind, one)) ?? false;
  const refactoring = only === undefined || wants(INSERT) || wants(CodeActionKind.RefactorRewrite);
  if (refactoring && refactorsDiagnose(service, asked.uri, spanOf(asked.lines, params.range))) {
    await session.diagnoses.make(asked.uri, token, partsListSteps);
  }
  const document = documents.get(clientUri);
  if (!document) return [];
  const fixes =
    only === undefined || wants(CodeActionKind.QuickFix)
      ? await quickFixes(diagnostics, document, session)
      : [];
  const offered = refactoring ? await refactors(params.range, document, session) : [];
  return [
    ...fixes,
    ...offered.filter(({ kind }) => only === undefined || (kind !== undefined && wants(kind))),
    ...(wants(FIX_ALL) ? fixAll(document, triggerKind === CodeActionTriggerKind.Automatic, session) : []),
  ];
}

const isWithin = (kind: string, asked: string): boolean =>
  asked === "" || kind === asked || kind.startsWith(`${asked}.`);

/**
 * The finding behind a diagnostic is looked for among those of the text as it is now, so that a diagnostic the
 * text has moved away from brings no edit instead of one at the wrong place.
 */
async function quickFixes(
  diagnostics: readonly Diagnostic[],
  document: OpenDocument,
  session: Session,
): Promise<CodeAction[]> {
  const ours = diagnostics.filter(({ source }) => source === SOURCE);
  if (ours.length === 0) return [];
  const findings = session.service.findings(document.uri).map((finding) => ({
    finding,
    range: toLspRange(document.lines, finding.span),
  }));
  const found = ours.flatMap((diagnostic) => {
    const finding = behind(diagnostic, findings);
    if (!finding) return [];
    return session.service
      .fixes(document.uri, finding)
      .map((fix) => quickFix(fix, diagnostic, document, session));
  });
  return (await Promise.all(found)).filter((action) => action !== undefined);
}

/** Offered for the selection, whether or not there is a diagnostic. */
async function refactors(range: Range, document: OpenDocument, session: Session): Promise<CodeAction[]> {
  const found = refactorsIn(session.service, document.uri, spanOf(document.lines, range)).map(
    async (refactor): Promise<CodeAction[]> => {
      const { title, disabled } = refactor;
      const kind = refactor.kind === "rewrite" ? CodeActionKind.RefactorRewrite : INSERT;
      if (refactor.asks === "propose-limits") {
        if (!session.can.applyEdit) return [];
        return [
          { title, kind, command: { title, command: PROPOSE_LIMITS, arguments: [document.clientUri] } },
        ];
      }
      if (disabled !== undefined)
        return session.can.disabledActions ? [{ title, kind, disabled: { reason: disabled } }] : [];
      const edit = await fixEdit(refactor, document, session);
      return edit ? [{ title, kind, edit }] : [];
    },
  );
  return (await Promise.all(found)).flat();
}

function behind(
  { code, message, range }: Diagnostic,
  findings: readonly { readonly finding: Finding; readonly range: Range }[],
): Finding | undefined {
  const here = findings.filter((it) => it.finding.code === code && sameRange(it.range, range));
  return (here.find((it) => it.finding.message === message) ?? here[0])?.finding;
}

async function quickFix(
  fix: Fix,
  diagnostic: Diagnostic,
  document: OpenDocument,
  session: Session,
): Promise<CodeAction | undefined> {
  const { title } = fix;
  if (fix.asks === "write-board-file") {
    const command = { title, command: WRITE_BOARD_FILE, arguments: [document.clientUri] };
    return session.can.applyEdit
      ? { title, kind: CodeActionKind.QuickFix, diagnostics: [diagnostic], command }
      : undefined;
  }
  const edit = await fixEdit(fix, document, session);
  return (
    edit &&
    defined({
      title,
      kind: CodeActionKind.QuickFix,
      diagnostics: [diagnostic],
      isPreferred: fix.preferred && session.can.preferredActions ? true : undefined,
      edit,
    })
  );
}

/**
 * The preferred fix of each finding, except where it would touch what an earlier one changes. Who asks for it sees what
 * changes; of what is asked for by itself, as on saving, nobody may: then only what says the same as before.
 */
function fixAll(document: OpenDocument, unattended: boolean, session: Session): CodeAction[] {
  const edits: TextEdit[] = [];
  for (const finding of session.service.findings(document.uri)) {
    const fix = session.service
      .fixes(document.uri, finding)
      .find(
        (one) => one.preferred && (one.certain || !unattended) && !one.elsewhere && !one.creates && !one.asks,
      );
    if (fix && !fix.edits.some((edit) => edits.some((other) => collide(edit, other))))
      edits.push(...fix.edits);
  }
  if (edits.length === 0) return [];
  const title = unattended ? "Apply the fixes that leave no doubt" : "Apply every preferred fix in this file";
  return [{ title, kind: FIX_ALL, edit: workspaceEdit(edits, document, session) }];
}

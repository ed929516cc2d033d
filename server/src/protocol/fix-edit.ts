// A fix as the client takes it: edits of the file the finding is in, of others, and a file that is made.
import { type CreateFile, type Range, TextDocumentEdit, type WorkspaceEdit } from "vscode-languageserver";
import { defined } from "../base/defined";
import type { Fix } from "../checks/check";
import type { TextEdit } from "../text/edits";
import { linedText, toLspRange } from "./convert";
import type { OpenDocument } from "./documents";
import type { Session } from "./session";

/** Edits of one document as the client takes them: bound to its version, where it can. */
export function workspaceEdit(
  edits: readonly TextEdit[],
  document: OpenDocument,
  { can }: Pick<Session, "can">,
): WorkspaceEdit {
  const { clientUri: uri, version, lines } = document;
  const wire = edits.map(({ span, newText }) => ({ range: toLspRange(lines, span), newText }));
  return can.versionedEdits
    ? { documentChanges: [{ textDocument: { uri, version }, edits: wire }] }
    : { changes: { [uri]: wire } };
}

interface Wired {
  readonly range: Range;
  readonly newText: string;
  readonly annotationId?: string;
}

/**
 * The client shows what would change, and makes it when it is agreed to. It leaves unticked what is to be confirmed, so
 * that agreeing would do nothing, or half: what is to be confirmed is an edit that changes nothing, and all others are ticked.
 */
const SHOWN = "shown";
const NOTHING: Wired = {
  range: { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } },
  newText: "",
  annotationId: SHOWN,
};

/**
 * All of a fix in one edit; undefined where it cannot be made: a file it would make is there already or the client makes
 * none, or a file it would change has been changed since.
 */
export async function fixEdit(
  fix: Pick<Fix, "edits" | "elsewhere" | "creates" | "shown">,
  document: OpenDocument,
  session: Session,
): Promise<WorkspaceEdit | undefined> {
  const { can, documents, service } = session;
  const { edits, elsewhere = [], creates, shown } = fix;
  if (elsewhere.length === 0 && !creates) return workspaceEdit(edits, document, session);
  if (creates) {
    const there = documents.at(creates.uri) !== undefined || (await service.exists(creates.uri));
    if (there || !can.createFiles) return undefined;
  }
  const own = edits.length > 0 ? [{ ...document, edits }] : [];
  const others = elsewhere.map((other) => {
    const open = documents.at(other.uri);
    if (open && open.text !== other.text) return undefined;
    return { ...(open ?? closed(other.uri, other.text, session)), edits: other.edits };
  });
  if (others.includes(undefined)) return undefined;
  const isAsked = shown !== undefined && can.annotatedEdits && can.versionedEdits;
  const changed = [...own, ...others.filter((other) => other !== undefined)].map(
    ({ clientUri, version, lines, edits }) => ({
      textDocument: { uri: clientUri, version },
      edits: edits.map(
        ({ span, newText }): Wired => ({
          range: toLspRange(lines, span),
          newText,
        }),
      ),
    }),
  );
  if (isAsked) changed[0]?.edits.unshift(NOTHING);
  if (!can.versionedEdits)
    return {
      changes: Object.fromEntries(changed.map(({ textDocument, edits }) => [textDocument.uri, edits])),
    };
  // The new file first: where it cannot be made, a client that stops there has changed nothing.
  return defined({
    documentChanges: [...(creates ? made(creates, session) : []), ...changed],
    changeAnnotations: isAsked ? { [SHOWN]: { label: shown, needsConfirmation: true } } : undefined,
  });
}

const closed = (uri: string, text: string, { documents }: Session) => ({
  clientUri: documents.clientUri(uri),
  version: null,
  lines: linedText(text).lines,
});

function made(
  { uri, text }: NonNullable<Fix["creates"]>,
  { documents }: Session,
): (CreateFile | TextDocumentEdit)[] {
  const own = documents.clientUri(uri);
  const start = { line: 0, character: 0 };
  return [
    { kind: "create", uri: own, options: { overwrite: false, ignoreIfExists: false } },
    TextDocumentEdit.create({ uri: own, version: null }, [{ range: { start, end: start }, newText: text }]),
  ];
}

import {
  type CancellationToken,
  LSPErrorCodes,
  type PrepareRenameParams,
  type RenameParams,
  ResponseError,
  type WorkspaceEdit,
} from "vscode-languageserver";
import { defined } from "../base/defined";
import { eachInTurn } from "../base/turns";
import { filesOf, nameRefusal, type RenameEdit, renameEdits, renameRefusal } from "../features/rename";
import type { RenameTarget } from "../features/shared/mentions";
import { answering } from "./answer";
import { linedText, toLspRange } from "./convert";
import type { OpenDocument } from "./documents";
import { subjectAt } from "./features";
import type { Session } from "./session";

/** What a person may look at before it is changed. */
const NAMED = "named";
const IN_WORDS = "in-words";

/** A refusal reaches the person as the message of the error: that is how the protocol has it. */
export function handleRename(session: Session): void {
  const { connection, documents, service } = session;
  const safely = answering(session);

  const subjectOf = ({ textDocument, position }: PrepareRenameParams) => {
    const document = documents.get(textDocument.uri);
    if (!document || (!service.view(document.uri) && !service.knowledgeFile(document.uri))) return undefined;
    const subject = subjectAt(service, document.uri, document.lines.offsetAt(position));
    const files = subject ? filesOf(subject, service.knowledgeFiles()) : [];
    refuse(renameRefusal(subject, files));
    return { document, subject: subject!, files };
  };

  connection.onPrepareRename(
    safely("Asking what can be renamed", null, (params: PrepareRenameParams) => {
      const found = subjectOf(params);
      if (!found) return null;
      const { document, subject } = found;
      const { span } = subject.mention;
      return { range: toLspRange(document.lines, span), placeholder: subject.thing.name };
    }),
  );

  connection.onRenameRequest(
    safely("Renaming", null, async (params: RenameParams, token: CancellationToken) => {
      const found = subjectOf(params);
      if (!found) return null;
      const view = service.view(found.document.uri, found.subject.mention.span.start);
      refuse(nameRefusal(found.subject, params.newName, found.files, view));
      return edit(found.subject, params.newName, session, token);
    }),
  );
}

function refuse(why: string | undefined): void {
  if (why !== undefined) throw new ResponseError(LSPErrorCodes.RequestFailed, why);
}

interface FileEdits {
  readonly uri: string;
  readonly version: number | null;
  readonly edits: readonly { readonly range: ReturnType<typeof toLspRange>; readonly edit: RenameEdit }[];
}

async function edit(
  subject: RenameTarget,
  newName: string,
  session: Session,
  token: CancellationToken,
): Promise<WorkspaceEdit> {
  const { documents, service, can } = session;
  const files: FileEdits[] = [];
  for await (const file of eachInTurn(service.mentionsOf(subject), token)) {
    const document = openWith(documents.at(file.uri), file.text);
    const { lines } = document ?? linedText(file.text);
    const edits = renameEdits(file, newName).map((one) => ({
      range: toLspRange(lines, one.span),
      edit: one,
    }));
    if (edits.length > 0)
      files.push({ uri: documents.clientUri(file.uri), version: document?.version ?? null, edits });
  }
  if (!can.versionedEdits) {
    return {
      changes: Object.fromEntries(files.map(({ uri, edits }) => [uri, edits.map(plainEdit)])),
    };
  }
  const annotated = can.annotatedEdits && files.some(({ edits }) => edits.some((one) => one.edit.loose));
  return defined({
    documentChanges: files.map(({ uri, version, edits }) => ({
      textDocument: { uri, version },
      edits: edits.map((one) =>
        annotated ? { ...plainEdit(one), annotationId: one.edit.loose ? IN_WORDS : NAMED } : plainEdit(one),
      ),
    })),
    changeAnnotations: annotated
      ? {
          [NAMED]: { label: "Where it is named", description: "in tables, headings and board files" },
          [IN_WORDS]: {
            label: "Where words say it",
            description: "in prose, notes and comments: tick what means it",
            needsConfirmation: true,
          },
        }
      : undefined,
  });
}

const plainEdit = ({ range, edit: { newText } }: FileEdits["edits"][number]) => ({ range, newText });

/** A document that was typed in since it was searched would be edited at the wrong places. */
function openWith(document: OpenDocument | undefined, text: string): OpenDocument | undefined {
  if (document && document.text !== text) {
    throw new ResponseError(
      LSPErrorCodes.ContentModified,
      "A file changed while it was being searched: rename again.",
    );
  }
  return document;
}

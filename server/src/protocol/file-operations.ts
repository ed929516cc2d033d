import {
  type CancellationToken,
  type DeleteFilesParams,
  DidDeleteFilesNotification,
  DidRenameFilesNotification,
  type FileOperationOptions,
  FileOperationPatternKind,
  type RenameFilesParams,
  WillRenameFilesRequest,
  type WorkspaceEdit,
} from "vscode-languageserver";
import { eachInTurn } from "../base/turns";
import type { FileMove } from "../features/moves";
import type { TextEdit } from "../text/edits";
import { canonicalUri } from "../workspace/uri";
import { answering, report } from "./answer";
import { linedText, toLspRange } from "./convert";
import type { Session } from "./session";

/** What logs and board files lead to by a path: themselves, pictures, papers and images of memories. */
const FILES =
  "**/*.{md,markdown,yaml,png,jpg,jpeg,gif,webp,svg,pdf,html,htm,txt,csv,bin,rom,img,dat,eprom,prom,dump,raw}";

const filters = [
  {
    scheme: "file",
    pattern: { glob: FILES, matches: FileOperationPatternKind.file, options: { ignoreCase: true } },
  },
  { scheme: "file", pattern: { glob: "**/*", matches: FileOperationPatternKind.folder } },
];

export const FILE_OPERATIONS: FileOperationOptions = {
  willRename: { filters },
  didRename: { filters },
  didDelete: { filters },
};

/** VS Code's own Markdown support does the same for Markdown's links, where people have asked it to. */
const THEIRS = "markdown.updateLinksOnFileMove.enabled";

/**
 * Keeps paths right when files are moved in the editor, and the memory right afterwards: of a folder that is moved or
 * deleted the watchers tell nothing about the files in it.
 * @param rescan looks through the folders again
 */
export function handleFileOperations(session: Session, rescan: () => Promise<void>): void {
  const { connection, documents, service, can } = session;
  const safely = answering(session);

  connection.onRequest(
    WillRenameFilesRequest.type,
    safely("Moving files", null, async ({ files }: RenameFilesParams, token: CancellationToken) => {
      const moves = files.map(
        ({ oldUri, newUri }): FileMove => ({ from: withoutSlash(oldUri), to: withoutSlash(newUri) }),
      );
      const changes: {
        uri: string;
        version: number | null;
        lined: ReturnType<typeof linedText>;
        edits: TextEdit[];
      }[] = [];
      const found = service.moveEdits(moves, !(await theyDoMarkdown()));
      for await (const file of eachInTurn(found, token)) {
        const open = documents.at(file.uri);
        const lined = open?.text === file.text ? open : linedText(file.text);
        changes.push({
          uri: documents.clientUri(file.uri),
          version: open?.version ?? null,
          lined,
          edits: file.edits,
        });
      }
      if (changes.length === 0) return null;
      const wire = changes.map(({ uri, version, lined, edits }) => ({
        textDocument: { uri, version },
        edits: edits.map(({ span, newText }) => ({ range: toLspRange(lined.lines, span), newText })),
      }));
      return (
        can.versionedEdits
          ? { documentChanges: wire }
          : { changes: Object.fromEntries(wire.map(({ textDocument, edits }) => [textDocument.uri, edits])) }
      ) satisfies WorkspaceEdit;
    }),
  );

  const theyDoMarkdown = async (): Promise<boolean> => {
    if (!can.configuration) return false;
    const value: unknown = await connection.workspace.getConfiguration(THEIRS);
    return value === "always" || value === "prompt";
  };

  const again = async (_: RenameFilesParams | DeleteFilesParams): Promise<void> => {
    try {
      await rescan();
    } catch (error) {
      report(connection, "Looking through the folders", error);
    }
  };
  connection.onNotification(DidRenameFilesNotification.type, again);
  connection.onNotification(DidDeleteFilesNotification.type, again);
}

const withoutSlash = (uri: string): string => canonicalUri(uri).replace(/\/$/, "");

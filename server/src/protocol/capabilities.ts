import { CodeActionKind, type ServerCapabilities, TextDocumentSyncKind } from "vscode-languageserver";
import { defined } from "../base/defined";
import type { ClientAbilities } from "./client-abilities";
import { COMMANDS } from "./command-names";
import { FILE_OPERATIONS } from "./file-operations";
import { SEMANTIC_TOKENS } from "./semantic-tokens";
import { SIGNATURE } from "./signature";

/** Applies every preferred fix of a file at once. */
export const FIX_ALL = `${CodeActionKind.SourceFixAll}.mendlog`;

/** What may be written into a log without anything being wrong; the protocol names no kind for it. */
export const INSERT = `${CodeActionKind.Refactor}.insert`;

/** What the server offers this client. */
export function capabilitiesFor(can: ClientAbilities): ServerCapabilities {
  return defined({
    positionEncoding: "utf-16",
    textDocumentSync: { openClose: true, change: TextDocumentSyncKind.Incremental, save: true },
    completionProvider: {
      // Where a cell, a field or a list begins, the digits of a reading or a part number, and the point between a
      // part and its pin; letters are the client's own triggers.
      triggerCharacters: ["|", " ", ":", "#", "[", ",", ".", ..."0123456789"],
      completionItem: { labelDetailsSupport: can.labelDetails },
      resolveProvider: can.resolveCompletion.includes("documentation"),
    },
    hoverProvider: true,
    definitionProvider: true,
    referencesProvider: true,
    renameProvider: can.prepareRename ? { prepareProvider: true } : true,
    documentLinkProvider: {},
    signatureHelpProvider: SIGNATURE,
    documentSymbolProvider: true,
    workspaceSymbolProvider: { resolveProvider: can.resolveSymbols },
    foldingRangeProvider: true,
    codeActionProvider: can.codeActionLiterals
      ? { codeActionKinds: [CodeActionKind.QuickFix, INSERT, CodeActionKind.RefactorRewrite, FIX_ALL] }
      : // What such a client takes in place of actions, commands alone, cannot hold an edit.
        undefined,
    // Else told log by log: see formatting.ts.
    documentFormattingProvider: !can.registerFormatting ? true : undefined,
    documentRangeFormattingProvider: !can.registerFormatting
      ? can.formatRanges
        ? { rangesSupport: true }
        : true
      : undefined,
    // A line break below a row starts the next one; a pipe typed into that row takes it back.
    documentOnTypeFormattingProvider: { firstTriggerCharacter: "\n", moreTriggerCharacter: ["|"] },
    codeLensProvider: { resolveProvider: true },
    documentHighlightProvider: true,
    selectionRangeProvider: true,
    semanticTokensProvider: can.semanticTokens ? SEMANTIC_TOKENS : undefined,
    inlayHintProvider: can.inlayHints ? { resolveProvider: true } : undefined,
    executeCommandProvider: !can.ownCommands ? { commands: [...COMMANDS] } : undefined,
    diagnosticProvider: can.pullDiagnostics
      ? { identifier: "mendlog", interFileDependencies: true, workspaceDiagnostics: true }
      : undefined,
    workspace: defined({
      workspaceFolders: { supported: true, changeNotifications: true },
      fileOperations: can.fileOperations ? FILE_OPERATIONS : undefined,
    }),
  });
}

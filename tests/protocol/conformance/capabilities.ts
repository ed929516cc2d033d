// What a capability of the server promises, as the specification has it: the requests that it may be asked, or nothing but how.

/** Only says how something is done that another capability is about. */
const HOW = "how" as const;

/** By the path in the server's capabilities. A path that is not here fails the test: nobody has said what it promises. */
export const PROMISES: Readonly<Record<string, readonly string[] | typeof HOW>> = {
  positionEncoding: HOW,
  textDocumentSync: HOW,
  "textDocumentSync.openClose": ["textDocument/didOpen", "textDocument/didClose"],
  "textDocumentSync.change": ["textDocument/didChange"],
  "textDocumentSync.save": ["textDocument/didSave"],
  completionProvider: ["textDocument/completion"],
  "completionProvider.triggerCharacters": HOW,
  "completionProvider.completionItem": HOW,
  "completionProvider.completionItem.labelDetailsSupport": HOW,
  "completionProvider.resolveProvider": ["completionItem/resolve"],
  hoverProvider: ["textDocument/hover"],
  definitionProvider: ["textDocument/definition"],
  referencesProvider: ["textDocument/references"],
  renameProvider: ["textDocument/rename"],
  "renameProvider.prepareProvider": ["textDocument/prepareRename"],
  documentLinkProvider: ["textDocument/documentLink"],
  signatureHelpProvider: ["textDocument/signatureHelp"],
  "signatureHelpProvider.triggerCharacters": HOW,
  "signatureHelpProvider.retriggerCharacters": HOW,
  documentSymbolProvider: ["textDocument/documentSymbol"],
  workspaceSymbolProvider: ["workspace/symbol"],
  "workspaceSymbolProvider.resolveProvider": ["workspaceSymbol/resolve"],
  foldingRangeProvider: ["textDocument/foldingRange"],
  codeActionProvider: ["textDocument/codeAction"],
  "codeActionProvider.codeActionKinds": HOW,
  "codeActionProvider.resolveProvider": ["codeAction/resolve"],
  documentFormattingProvider: ["textDocument/formatting"],
  documentRangeFormattingProvider: ["textDocument/rangeFormatting"],
  "documentRangeFormattingProvider.rangesSupport": ["textDocument/rangesFormatting"],
  documentOnTypeFormattingProvider: ["textDocument/onTypeFormatting"],
  "documentOnTypeFormattingProvider.firstTriggerCharacter": HOW,
  "documentOnTypeFormattingProvider.moreTriggerCharacter": HOW,
  codeLensProvider: ["textDocument/codeLens"],
  "codeLensProvider.resolveProvider": ["codeLens/resolve"],
  documentHighlightProvider: ["textDocument/documentHighlight"],
  selectionRangeProvider: ["textDocument/selectionRange"],
  semanticTokensProvider: HOW,
  "semanticTokensProvider.legend": HOW,
  "semanticTokensProvider.legend.tokenTypes": HOW,
  "semanticTokensProvider.legend.tokenModifiers": HOW,
  "semanticTokensProvider.full": ["textDocument/semanticTokens/full"],
  "semanticTokensProvider.full.delta": ["textDocument/semanticTokens/full/delta"],
  "semanticTokensProvider.range": ["textDocument/semanticTokens/range"],
  inlayHintProvider: ["textDocument/inlayHint"],
  "inlayHintProvider.resolveProvider": ["inlayHint/resolve"],
  executeCommandProvider: ["workspace/executeCommand"],
  "executeCommandProvider.commands": HOW,
  diagnosticProvider: ["textDocument/diagnostic"],
  "diagnosticProvider.identifier": HOW,
  "diagnosticProvider.interFileDependencies": HOW,
  "diagnosticProvider.workspaceDiagnostics": ["workspace/diagnostic"],
  workspace: HOW,
  "workspace.workspaceFolders": HOW,
  "workspace.workspaceFolders.supported": HOW,
  "workspace.workspaceFolders.changeNotifications": ["workspace/didChangeWorkspaceFolders"],
  "workspace.fileOperations": HOW,
  "workspace.fileOperations.willRename": ["workspace/willRenameFiles"],
  "workspace.fileOperations.willRename.filters": HOW,
  "workspace.fileOperations.didRename": ["workspace/didRenameFiles"],
  "workspace.fileOperations.didRename.filters": HOW,
  "workspace.fileOperations.didDelete": ["workspace/didDeleteFiles"],
  "workspace.fileOperations.didDelete.filters": HOW,
};

/** Every path at which something is promised: a value of false promises nothing. */
export function promised(capabilities: object, above = ""): string[] {
  return Object.entries(capabilities).flatMap(([name, value]) => {
    if (value === false || value === undefined || value === null) return [];
    const path = above === "" ? name : `${above}.${name}`;
    return typeof value === "object" && !Array.isArray(value) ? [path, ...promised(value, path)] : [path];
  });
}

import { type ClientCapabilities, CompletionItemKind, MarkupKind, SymbolKind } from "vscode-languageserver";

/** What the client said it can take, asked once; everything not said counts as absent. */
export interface ClientAbilities {
  readonly pullDiagnostics: boolean;
  readonly refreshDiagnostics: boolean;
  readonly refreshLenses: boolean;
  readonly refreshHints: boolean;
  readonly refreshTokens: boolean;
  readonly inlayHints: boolean;
  /** What a client lets be filled in when a hint is looked at; the rest it must be given at once. */
  readonly resolvesHintTooltips: boolean;
  readonly semanticTokens: boolean;
  readonly applyEdit: boolean;
  readonly related: boolean;
  readonly tags: readonly number[];
  readonly codeDescription: boolean;
  readonly configuration: boolean;
  readonly watchFiles: boolean;
  readonly watchConfiguration: boolean;
  readonly folders: boolean;
  readonly progress: boolean;
  readonly versionedEdits: boolean;
  /** Edits can be marked, and those that need it are shown to the person before they are made. */
  readonly annotatedEdits: boolean;
  /** An edit may make a file, and is not made where it is there already. */
  readonly createFiles: boolean;
  readonly prepareRename: boolean;
  /** The place of a name in the workspace may be given when it is gone to. */
  readonly resolveSymbols: boolean;
  readonly linkTooltips: boolean;
  readonly signatureMarkdown: boolean;
  /** A parameter may be given as a stretch of the label, else as its words. */
  readonly parameterStretches: boolean;
  /** It can be told that no parameter is the one being written. */
  readonly noActiveParameter: boolean;
  readonly fileOperations: boolean;
  /** Which parts of a completion may be given when it is looked at. */
  readonly resolveCompletion: readonly string[];
  readonly codeActionLiterals: boolean;
  readonly preferredActions: boolean;
  /** Takes actions that cannot be done, with the reason. */
  readonly disabledActions: boolean;
  /** Takes formatters for single documents, told while the session runs. */
  readonly registerFormatting: boolean;
  /** Asks for several stretches at once. */
  readonly formatRanges: boolean;
  readonly snippets: boolean;
  readonly labelDetails: boolean;
  readonly completionMarkdown: boolean;
  readonly completionKinds: ReadonlySet<number>;
  /** In the list of names in the workspace. */
  readonly symbolKinds: ReadonlySet<number>;
  readonly hoverMarkdown: boolean;
  /** No capability tells whether a client draws the images in Markdown or shows their source: ours says so itself. */
  readonly pictures: boolean;
  /** Ours goes on to the next row when a reading was taken from the list. */
  readonly nextRow: boolean;
  /** It opens the list of suggestions again after one was taken that has to be followed by another. */
  readonly suggestAgain: boolean;
  /** It fills in the variables of snippets, the day among them, which the protocol leaves open. */
  readonly snippetVariables: boolean;
  /** It has a command of its own that shows a list of places; nor is there a capability for that. */
  readonly showPlaces: boolean;
  /** Ours keeps the server's commands itself, so that each can say what it needs before any server runs. */
  readonly ownCommands: boolean;
  readonly definitionLinks: boolean;
  readonly symbolTree: boolean;
  readonly foldLinesOnly: boolean;
  /** Folds shown at most; undefined where the client set no limit. */
  readonly foldLimit: number | undefined;
}

/** @param options what the client sent as `initializationOptions`; anything may stand there */
export function clientAbilities(
  { textDocument, workspace, window }: ClientCapabilities,
  options?: unknown,
): ClientAbilities {
  const item = textDocument?.completion?.completionItem;
  const signature = textDocument?.signatureHelp?.signatureInformation;
  const published = textDocument?.publishDiagnostics;
  const pulled = textDocument?.diagnostic;
  return {
    pullDiagnostics: pulled !== undefined,
    refreshDiagnostics: workspace?.diagnostics?.refreshSupport ?? false,
    refreshLenses: workspace?.codeLens?.refreshSupport ?? false,
    refreshHints: workspace?.inlayHint?.refreshSupport ?? false,
    refreshTokens: workspace?.semanticTokens?.refreshSupport ?? false,
    inlayHints: textDocument?.inlayHint !== undefined,
    resolvesHintTooltips: textDocument?.inlayHint?.resolveSupport?.properties.includes("tooltip") ?? false,
    semanticTokens: textDocument?.semanticTokens?.formats.includes("relative") ?? false,
    applyEdit: workspace?.applyEdit ?? false,
    related: pulled?.relatedInformation ?? published?.relatedInformation ?? false,
    tags: pulled?.tagSupport?.valueSet ?? published?.tagSupport?.valueSet ?? [],
    codeDescription: pulled?.codeDescriptionSupport ?? published?.codeDescriptionSupport ?? false,
    configuration: workspace?.configuration ?? false,
    watchFiles: workspace?.didChangeWatchedFiles?.dynamicRegistration ?? false,
    watchConfiguration: workspace?.didChangeConfiguration?.dynamicRegistration ?? false,
    folders: workspace?.workspaceFolders ?? false,
    progress: window?.workDoneProgress ?? false,
    versionedEdits: workspace?.workspaceEdit?.documentChanges ?? false,
    annotatedEdits:
      (workspace?.workspaceEdit?.documentChanges ?? false) &&
      workspace?.workspaceEdit?.changeAnnotationSupport !== undefined,
    createFiles:
      (workspace?.workspaceEdit?.documentChanges ?? false) &&
      (workspace?.workspaceEdit?.resourceOperations?.includes("create") ?? false),
    prepareRename: textDocument?.rename?.prepareSupport ?? false,
    resolveSymbols: workspace?.symbol?.resolveSupport?.properties.includes("location.range") ?? false,
    linkTooltips: textDocument?.documentLink?.tooltipSupport ?? false,
    signatureMarkdown: prefersMarkdown(signature?.documentationFormat),
    parameterStretches: signature?.parameterInformation?.labelOffsetSupport ?? false,
    noActiveParameter: signature?.noActiveParameterSupport ?? false,
    fileOperations: workspace?.fileOperations?.willRename ?? false,
    resolveCompletion: item?.resolveSupport?.properties ?? [],
    codeActionLiterals: textDocument?.codeAction?.codeActionLiteralSupport !== undefined,
    preferredActions: textDocument?.codeAction?.isPreferredSupport ?? false,
    disabledActions: textDocument?.codeAction?.disabledSupport ?? false,
    registerFormatting:
      (textDocument?.formatting?.dynamicRegistration ?? false) &&
      (textDocument?.rangeFormatting?.dynamicRegistration ?? false),
    formatRanges: textDocument?.rangeFormatting?.rangesSupport ?? false,
    snippets: item?.snippetSupport ?? false,
    labelDetails: item?.labelDetailsSupport ?? false,
    completionMarkdown: prefersMarkdown(item?.documentationFormat),
    completionKinds: new Set(
      textDocument?.completion?.completionItemKind?.valueSet ?? FIRST_COMPLETION_KINDS,
    ),
    symbolKinds: new Set(workspace?.symbol?.symbolKind?.valueSet ?? FIRST_SYMBOL_KINDS),
    hoverMarkdown: prefersMarkdown(textDocument?.hover?.contentFormat),
    pictures: saysTrue(options, "pictures"),
    nextRow: saysTrue(options, "nextRow"),
    suggestAgain: saysTrue(options, "suggestAgain"),
    snippetVariables: saysTrue(options, "snippetVariables"),
    showPlaces: saysTrue(options, "showPlaces"),
    ownCommands: saysTrue(options, "ownCommands"),
    definitionLinks: textDocument?.definition?.linkSupport ?? false,
    symbolTree: textDocument?.documentSymbol?.hierarchicalDocumentSymbolSupport ?? false,
    foldLinesOnly: textDocument?.foldingRange?.lineFoldingOnly ?? false,
    foldLimit: textDocument?.foldingRange?.rangeLimit,
  };
}

/** The formats stand in the order in which the client would have them. */
const prefersMarkdown = (formats: readonly MarkupKind[] | undefined): boolean =>
  formats?.[0] === MarkupKind.Markdown;

/** The kinds of the protocol's first version: what a client takes that names none. */
const upTo = (last: number): number[] => Array.from({ length: last }, (_, n) => n + 1);
const FIRST_COMPLETION_KINDS = upTo(CompletionItemKind.Reference);
const FIRST_SYMBOL_KINDS = upTo(SymbolKind.Array);

const saysTrue = (options: unknown, key: string): boolean =>
  typeof options === "object" && options !== null && (options as Record<string, unknown>)[key] === true;

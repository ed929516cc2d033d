import type { CompletionParams, TextDocumentPositionParams } from "vscode-languageserver";
import { nextTurn } from "../base/turns";
import { answering } from "./answer";
import { handleBoardFile } from "./board-file";
import { handleCapture } from "./capture";
import { codeActions } from "./code-actions";
import { handleCodeLens } from "./code-lens";
import { handleCommands } from "./commands";
import { completionList, LaterDocumentation } from "./completion";
import { handleDocumentHighlight } from "./document-highlight";
import type { OpenDocument } from "./documents";
import {
  completionsAt,
  definitionAt,
  foldsIn,
  hoverAt,
  hoverDiagnoses,
  namesImage,
  romImagesAt,
  symbolsIn,
} from "./features";
import { handleFinding } from "./finding";
import { handleForAssistants } from "./for-assistants";
import { handleFormatting } from "./formatting";
import { handleGuide } from "./guide";
import { handleImportBoard } from "./import-board";
import { handleInlayHints } from "./inlay-hints";
import { handleInsertTable } from "./insert-table";
import { handleNewLog } from "./new-log";
import { toLspFolds, toLspSymbols } from "./outline";
import { toLspDefinition, toLspHover } from "./places";
import { handlePreview } from "./preview";
import { handleSelectionRange } from "./selection-range";
import { handleSemanticTokens } from "./semantic-tokens";
import type { Session } from "./session";
import { handleShopNumbers } from "./shop-numbers";
import { handleSuspects } from "./suspects";
import { handleTheme } from "./theme";
import { handleTyping } from "./typing";

/** Everything a client asks about one document, except its diagnostics. A document that is not open gets null. */
export function handleRequests(session: Session): void {
  const { connection, service, documents, can } = session;
  const safely = answering(session);
  const document = (uri: string): OpenDocument | undefined => documents.get(uri);
  const at = ({ textDocument, position }: TextDocumentPositionParams) => {
    const found = document(textDocument.uri);
    return found && { document: found, offset: found.lines.offsetAt(position) };
  };

  const later = new LaterDocumentation(can);
  connection.onCompletion(
    safely("Completion", null, async (params: CompletionParams) => {
      const asked = at(params);
      // The files are looked for only where one is to be named; the log may be typed in meanwhile.
      const paths =
        asked && namesImage(service, asked.document.uri, asked.offset)
          ? await service.imagePathsFor(asked.document.uri)
          : undefined;
      const place = paths ? at(params) : asked;
      if (!place) return null;
      const typed = params.context?.triggerCharacter;
      const items = paths
        ? romImagesAt(service, place.document.uri, place.offset, paths)
        : completionsAt(service, place.document.uri, place.offset, typed);
      const able = { ...can, nextRow: can.nextRow && session.preferences.typing.nextRow };
      // A list that is in the way of the key that leaves the cell is shown only where there is something to choose.
      const open = typed !== undefined && able.nextRow ? items.filter(({ byItself }) => !byItself) : items;
      return completionList(open, place.document, able, later);
    }),
  );
  connection.onCompletionResolve((item, token) =>
    safely("A completion", item, () => later.resolve(item))(item, token),
  );

  connection.onHover(
    safely("Hover", null, async (params: TextDocumentPositionParams, token) => {
      // Over a symptom a hover is a diagnosis: what came in meanwhile is heard first.
      await nextTurn(token);
      const asked = at(params);
      if (asked && hoverDiagnoses(service, asked.document.uri, asked.offset)) {
        await session.diagnoses.make(asked.document.uri, token);
      }
      const place = at(params);
      const hover = place && hoverAt(service, place.document.uri, place.offset);
      return hover ? toLspHover(hover, place.document, session, place.document.uri) : null;
    }),
  );

  connection.onDefinition(
    safely("Definition", null, async (params: TextDocumentPositionParams) => {
      const place = at(params);
      const definition = place && definitionAt(service, place.document.uri, place.offset);
      return definition ? await toLspDefinition(definition, place.document, session) : null;
    }),
  );

  connection.onDocumentSymbol(
    safely("The outline", null, ({ textDocument }) => {
      const found = document(textDocument.uri);
      return found ? toLspSymbols(symbolsIn(service, found.uri), found, can) : null;
    }),
  );

  connection.onFoldingRanges(
    safely("Folding", null, ({ textDocument }) => {
      const found = document(textDocument.uri);
      return found ? toLspFolds(foldsIn(service, found.uri), found, can) : null;
    }),
  );

  handleFinding(session);
  handleCapture(session);
  handleCodeLens(session);
  handleSemanticTokens(session);
  handleInlayHints(session);
  handleDocumentHighlight(session);
  handleSelectionRange(session);
  handleCommands(session);
  handleFormatting(session);
  handlePreview(session);
  handleGuide(session);
  handleSuspects(session);
  handleShopNumbers(session);
  handleForAssistants(session);
  handleTheme(session);
  handleNewLog(session);
  handleImportBoard(session);
  handleBoardFile(session);
  handleTyping(session);
  handleInsertTable(session);

  connection.onCodeAction(
    safely("Quick fixes", null, (params, token) => codeActions(params, session, token)),
  );
}

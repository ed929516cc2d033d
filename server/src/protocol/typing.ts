import type { TextEdit } from "vscode-languageserver";
import {
  advance,
  digitsBelow,
  enterAt,
  fillBelow,
  isStartedRow,
  leaveRow,
  lineAbove,
  lineSpanAt,
  nextCell,
  pasteCells,
  type StartedRow,
  startedBy,
  startRow,
  type TypingStep,
  takeBack,
  writeCell,
} from "../features/typing";
import type { LogView } from "../features/view";
import { applyEdits } from "../text/edits";
import { lineIndex } from "../text/line-index";
import { answering } from "./answer";
import { toLspRange } from "./convert";
import type { OwnRequest } from "./custom-requests/request";
import {
  type AtPosition,
  ENTER_AT,
  type EnterAnswer,
  LEAVE_ROW,
  NEXT_CELL,
  PASTE_CELLS,
  type PasteAnswer,
  type PlacedEdit,
  START_ROW,
  TAKE_BACK,
  type Typed,
  WRITE_CELL,
} from "./custom-requests/typing";
import type { OpenDocument } from "./documents";
import type { Session } from "./session";

interface At {
  readonly view: LogView;
  readonly document: OpenDocument;
  readonly offset: number;
  /** True where the row of the cursor, or the one above it, was only just written from here. */
  readonly isStarted: boolean;
  readonly isBelowStarted: boolean;
}

/** The keys of a readings table, for our own client and, as formatting while typing, for any other. */
export function handleTyping(session: Session): void {
  const { connection, documents, service } = session;
  const safely = answering(session);
  /** The last row that was started in a document: an empty one ends the table, one typed by hand is taken back. */
  const started = new Map<string, StartedRow>();
  documents.closing.on(({ uri }) => started.delete(uri));

  const at = ({ uri, position }: AtPosition): At | undefined => {
    const document = documents.get(uri);
    const offset = document?.lines.offsetAt(position) ?? 0;
    const view = document && service.view(document.uri, offset);
    if (!view) return undefined;
    const { text } = document;
    const line = lineSpanAt(text, offset);
    const above = lineAbove(text, line);
    const row = started.get(document.uri);
    return {
      view,
      document,
      offset,
      isStarted: isStartedRow(row, text, line),
      isBelowStarted: above !== undefined && isStartedRow(row, text, above),
    };
  };

  const taken = ({ document }: At, step: TypingStep | undefined): TypingStep | undefined => {
    const row = step && startedBy(step, document.text);
    if (row) started.set(document.uri, row);
    return step;
  };

  const answer = <P extends AtPosition>(
    name: string,
    { method }: OwnRequest<P, Typed>,
    step: (place: At, params: P) => TypingStep | undefined,
  ) => {
    connection.onRequest(
      method,
      safely(name, null, (params: P) => {
        const place = at(params);
        const made = place && taken(place, step(place, params));
        return made ? wireStep(made, place.document) : null;
      }),
    );
  };

  answer("The next cell", NEXT_CELL, ({ view, offset, isStarted }, { direction, behind = 0 }) =>
    direction === "advance"
      ? advance(view, offset)
      : nextCell(view, offset, direction, isStarted, behind === 0),
  );
  answer("The next row", START_ROW, ({ view, document, offset, isBelowStarted }, { from }) =>
    from ? fillBelow(view, offset, document.lines.offsetAt(from)) : startRow(view, offset, isBelowStarted),
  );
  answer("Writing a cell", WRITE_CELL, ({ view, offset }, { text, then, stays }) =>
    writeCell(view, offset, text, stays ? "stay" : (then ?? "row")),
  );
  answer("Taking a row back", TAKE_BACK, ({ document, offset }) =>
    takeBack(started.get(document.uri), document.text, offset),
  );
  connection.onRequest<EnterAnswer | null, void>(
    ENTER_AT.method,
    safely("What Enter does", null, (params: AtPosition): EnterAnswer | null => {
      const place = at(params);
      if (!place) return null;
      const { view, offset } = place;
      const digits = digitsBelow(view, offset);
      return enterAt(view, offset) ?? (digits ? { does: "break", measured: false, digits } : null);
    }),
  );
  connection.onRequest<readonly PlacedEdit[] | null, void>(
    LEAVE_ROW.method,
    safely("A row that was left", null, (params: AtPosition): readonly PlacedEdit[] | null => {
      const place = session.preferences.typing.nextRow ? at(params) : undefined;
      if (!place) return null;
      const { edits } = wireStep({ edits: leaveRow(place.view, place.offset), cursor: 0 }, place.document);
      return edits;
    }),
  );

  connection.onRequest<PasteAnswer | null, void>(
    PASTE_CELLS.method,
    safely("Pasting values", null, (params: AtPosition & { readonly text: string }): PasteAnswer | null => {
      const place = at(params);
      const pasted = place && pasteCells(place.view, place.offset, params.text);
      if (!place || !pasted) return null;
      if (pasted.ok) return { ...wireStep(pasted.step, place.document), replaced: pasted.replaced };
      const { ok, ...problem } = pasted;
      return problem;
    }),
  );

  connection.onDocumentOnTypeFormatting(
    safely("The next row", null, ({ textDocument, position, ch }): TextEdit[] | null => {
      const place = session.preferences.typing.nextRow ? at({ uri: textDocument.uri, position }) : undefined;
      if (!place) return null;
      const { view, offset, document, isBelowStarted } = place;
      const step =
        ch === "|"
          ? takeBack(started.get(document.uri), document.text, offset)
          : taken(place, startRow(view, offset, isBelowStarted));
      return step ? wireStep(step, document).edits.map((edit) => ({ ...edit })) : null;
    }),
  );
}

function wireStep({ edits, cursor }: TypingStep, { text, lines }: OpenDocument): Typed {
  const after = edits.length === 0 ? lines : lineIndex(applyEdits(text, edits));
  return {
    edits: edits.map(({ span, newText }) => ({ range: toLspRange(lines, span), newText })),
    cursor: after.positionAt(cursor),
  };
}

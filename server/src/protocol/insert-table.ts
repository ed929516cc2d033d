import { deviceOffers, insertionOf, tableOffers } from "../features/insert-table";
import { answering } from "./answer";
import { toLspRange } from "./convert";
import {
  INSERT_TABLE,
  type OffersAsked,
  type PlaceOfTable,
  TABLE_OFFERS,
  type WireInsertion,
  type WireTableOffers,
} from "./custom-requests/insert-table";
import type { Session } from "./session";

/** The tables of a log's board and of the library's chips, and one of them to be put in. A document that is no log gets null. */
export function handleInsertTable(session: Session): void {
  const { connection, documents, service, ready } = session;
  const safely = answering(session);
  const fills = () =>
    session.can.nextRow && session.can.snippetVariables && session.preferences.typing.nextRow;
  connection.onRequest(
    TABLE_OFFERS.method,
    safely(
      "The list of tables",
      null,
      async ({ uri, position }: OffersAsked): Promise<WireTableOffers | null> => {
        await ready;
        const document = documents.get(uri);
        const view = document && service.view(document.uri, position && document.lines.offsetAt(position));
        if (!view) return null;
        const offers = [...tableOffers(view), ...deviceOffers(view)];
        return {
          offers: offers.map(({ id, kind, label, description }) => ({ id, kind, label, description })),
        };
      },
    ),
  );
  connection.onRequest<WireInsertion | { readonly reason: string } | null, unknown>(
    INSERT_TABLE.method,
    safely(
      "A new table",
      null,
      ({ uri, id, position }: PlaceOfTable): WireInsertion | { readonly reason: string } | null => {
        const document = documents.get(uri);
        const at = document?.lines.offsetAt(position) ?? 0;
        const view = document && service.view(document.uri, at);
        if (!document || !view) return null;
        const made = insertionOf(view, id, at);
        if (!made.ok) return { reason: made.reason };
        return {
          version: document.version,
          range: toLspRange(document.lines, made.span),
          snippet: (fills() ? made.filled : undefined) ?? made.snippet,
          byDigits: made.byDigits,
        };
      },
    ),
  );
}

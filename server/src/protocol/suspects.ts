import { anyOf } from "../base/cancellation";
import { inTurns, nextTurn } from "../base/turns";
import { type LinkedSentence, type NextReadingPlace, suspectList } from "../features/suspects";
import type { Target } from "../features/types";
import { boardsOf } from "../features/view";
import { answering } from "./answer";
import type { OfDocument } from "./custom-requests/request";
import {
  type PlacedText,
  type PlaceInFile,
  type ReadingItem,
  SUSPECTS,
  type Suspects,
} from "./custom-requests/suspects";
import type { OpenDocument } from "./documents";
import type { Session } from "./session";

const EMPTY = { suspects: [], others: [], unproven: [], toProve: 0, notes: [] };

/** Answers who is suspected. What has come in meanwhile, an edit or a cancellation, is heard before the work is begun. */
export function handleSuspects(session: Session): void {
  const { connection, service, documents, ready } = session;
  const safely = answering(session);
  connection.onRequest(
    SUSPECTS.method,
    safely("The suspects", null, async ({ uri }: OfDocument, token): Promise<Suspects | null> => {
      await ready;
      await nextTurn(token);
      const document = documents.get(uri);
      if (!document) return null;
      const over = anyOf(token, documents.superseded(document));
      await inTurns(service.prepare(document.uri, document.text), over);
      const view = service.view(document.uri);
      if (!view) return null;
      const { version } = document;
      if (!boardsOf(view).some(({ ctx }) => ctx.board)) {
        const nothing = "No board file is known for this log, so there is nothing to suspect.";
        return { version, nothing, ...EMPTY };
      }
      await session.diagnoses.make(document.uri, over);
      const found = suspectList(view);
      if (!found) return null;
      const place = placer(document, session);
      return {
        version,
        ...found,
        suspects: found.suspects.map(({ target, ...suspect }) => ({
          ...suspect,
          for: suspect.for.map(place.said),
          notTaken: suspect.notTaken.map(place.said),
          ...place.of(undefined, target),
        })),
        ...(found.next ? { next: place.reading(found.next) } : {}),
        others: found.others.map(place.reading),
      };
    }),
  );
}

/** Offsets in the log and places in other files as the wire has them. */
function placer({ clientUri, lines }: OpenDocument, { documents }: Session) {
  const here = (at: number): PlaceInFile => ({ uri: clientUri, ...lines.positionAt(at) });
  const there = ({ uri, span }: Target): PlaceInFile => ({
    uri: documents.clientUri(uri),
    ...(documents.text(uri)?.lines.positionAt(span.start) ?? { line: 0, character: 0 }),
  });
  const of = (at: number | undefined, target?: Target): { readonly place?: PlaceInFile } =>
    at !== undefined ? { place: here(at) } : target ? { place: there(target) } : {};
  return {
    of,
    said: ({ text, at }: LinkedSentence): PlacedText => ({ text, ...of(at) }),
    reading: ({ at, target, ...reading }: NextReadingPlace): ReadingItem => ({
      ...reading,
      ...of(at, target),
    }),
  };
}

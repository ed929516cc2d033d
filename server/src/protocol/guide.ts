import { anyOf } from "../base/cancellation";
import { defined } from "../base/defined";
import { inTurns, nextTurn } from "../base/turns";
import { type GuideCell, guideStep } from "../features/guide";
import { applyEdits } from "../text/edits";
import { type LinePosition, lineIndex } from "../text/line-index";
import { answering } from "./answer";
import { toLspRange } from "./convert";
import { GUIDE, type Guide } from "./custom-requests/guide";
import type { AtPosition } from "./custom-requests/typing";
import type { Session } from "./session";

/** What to do next. Edits that come in meanwhile are heard before the work is begun, and make the answer one of the past. */
export function handleGuide(session: Session): void {
  const { connection, service, documents, ready } = session;
  const safely = answering(session);
  connection.onRequest(
    GUIDE.method,
    safely("The next reading", null, async ({ uri, position }: AtPosition, token): Promise<Guide | null> => {
      await ready;
      await nextTurn(token);
      const document = documents.get(uri);
      if (!document) return null;
      const over = anyOf(token, documents.superseded(document));
      await inTurns(service.prepare(document.uri, document.text), over);
      if (service.view(document.uri, document.lines.offsetAt(position))?.ctx.board)
        await session.diagnoses.make(document.uri, over);
      const { lines, text, version } = document;
      const offset = lines.offsetAt(position);
      const view = service.view(document.uri, offset);
      if (!view) return null;
      const found = guideStep(view, service.findings(document.uri), offset);
      if (!found) return null;
      const { cell, picture, ...step } = found;
      return defined({
        version,
        ...step,
        cell: cell && {
          edits: cell.edits.map(({ span, newText }) => ({ range: toLspRange(lines, span), newText })),
          cursor: cursorAfter(text, cell),
        },
        picture: picture && { svg: picture.svg, alt: picture.alt },
      });
    }),
  );
}

const cursorAfter = (text: string, { edits, cursor }: GuideCell): LinePosition =>
  lineIndex(applyEdits(text, edits)).positionAt(cursor);

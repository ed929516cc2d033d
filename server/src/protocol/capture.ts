import { capturedText, questionAt, verdictAt } from "../features/capture";
import type { LogView } from "../features/view";
import { answering } from "./answer";
import { toLspRange } from "./convert";
import {
  type CaptureRefused,
  METER_QUESTION,
  METER_READING,
  type MeterAnswer,
  type MeterQuestion,
  type ShownVerdict,
  VERDICT,
} from "./custom-requests/capture";
import type { OwnRequest } from "./custom-requests/request";
import type { AtPosition } from "./custom-requests/typing";
import type { OpenDocument } from "./documents";
import type { Session } from "./session";

/** What our own client asks while it reads a meter; the meter itself is the client's. */
export function handleCapture(session: Session): void {
  const { connection, documents, service, ready } = session;
  const safely = answering(session);
  const answer = <P extends AtPosition, R>(
    name: string,
    { method }: OwnRequest<P, R>,
    of: (view: LogView, offset: number, document: OpenDocument, params: P) => R | null,
  ) => {
    connection.onRequest(
      method,
      safely<P, unknown>(name, null, async (params): Promise<R | null> => {
        // Before the board is read a verdict would be that there is none.
        await ready;
        const document = documents.get(params.uri);
        const offset = document?.lines.offsetAt(params.position);
        const view = document && service.view(document.uri, offset);
        return view && offset !== undefined ? of(view, offset, document, params) : null;
      }),
    );
  };

  answer<AtPosition, MeterQuestion | CaptureRefused>(
    "What to ask the meter",
    METER_QUESTION,
    (view, offset) => {
      const asked = questionAt(view, offset);
      if (!asked.ok) return asked;
      const { node, words } = asked.question;
      // The short form of a SCPI keyword is its capitals (SCPI-1999 volume 1, 6.2.1; from memory).
      return { ok: true, node: node.replace(/[a-z]/g, ""), words };
    },
  );

  answer("The meter's reading", METER_READING, (view, offset, _, { answer: sent, digits }: MeterAnswer) => {
    const asked = questionAt(view, offset);
    return asked.ok ? capturedText(sent, asked.question, digits) : asked;
  });

  answer<AtPosition, ShownVerdict>("The verdict", VERDICT, (view, offset, { lines }) => {
    const shown = verdictAt(view, offset);
    if (!shown) return null;
    const { span, ...words } = shown;
    return { range: toLspRange(lines, span), ...words };
  });
}

import { anyOf } from "../base/cancellation";
import { defined } from "../base/defined";
import { eachInTurn, inTurns, nextTurn } from "../base/turns";
import { previewOf } from "../features/preview";
import { inlined } from "../features/shared/picture";
import { boardsOf, type LogView } from "../features/view";
import { photographs } from "../log/photographs";
import { answering } from "./answer";
import { PREVIEW, type Preview, type PreviewTable } from "./custom-requests/preview";
import type { OfDocument } from "./custom-requests/request";
import type { Session } from "./session";

/** Of a log about several boards one after the other; the reader of the answer goes by lines. */
function* previewOfAll(view: LogView) {
  for (const one of boardsOf(view)) yield* previewOf(one);
}

/** Answers what a rendered log is marked with. Others get their turn between two tables. */
export function handlePreview(session: Session): void {
  const { connection, service, documents, ready } = session;
  const safely = answering(session);
  connection.onRequest(
    PREVIEW.method,
    safely("The preview", null, async ({ uri }: OfDocument, token): Promise<Preview | null> => {
      await ready;
      await nextTurn(token);
      const document = documents.get(uri);
      if (!document) return null;
      const { lines, version } = document;
      // An edit that comes in between makes another document; this answer is then of no use to anybody.
      const over = anyOf(token, documents.superseded(document));
      await inTurns(service.prepare(document.uri, document.text), over);
      const view = service.view(document.uri);
      if (!view) return null;
      const tables: PreviewTable[] = [];
      for await (const { heading, start, marks, pictures } of eachInTurn(previewOfAll(view), over)) {
        const line = lines.lineAt(start);
        tables.push(
          defined({
            heading: heading === undefined ? undefined : lines.lineAt(heading),
            line,
            marks: marks.map(({ at, ...mark }) => ({ line: lines.lineAt(at), ...mark })),
            pictures: pictures.map(({ svg }, i) => ({ svg: inlined(svg, `mendlog-${line}-${i}-`) })),
          }),
        );
      }
      const findings = service
        .findings(document.uri)
        .filter(({ severity }) => severity !== "hint")
        .map(({ span, severity, message }) => ({ line: lines.lineAt(span.start), severity, message }));
      const pairs = photographs(view.doc).pairs.map(({ before, after }) => ({
        before: lines.lineAt(before.span.start),
        after: lines.lineAt(after.span.start),
      }));
      return defined({ version, tables, findings, pairs: pairs.length > 0 ? pairs : undefined });
    }),
  );
}

import { anyOf } from "../base/cancellation";
import { defined } from "../base/defined";
import { eachInTurn, inTurns, nextTurn } from "../base/turns";
import { previewOf } from "../features/preview";
import { inlined } from "../features/shared/picture";
import { answering } from "./answer";
import { PREVIEW, type Preview, type PreviewTable } from "./own/preview";
import type { OfDocument } from "./own/request";
import type { Session } from "./session";

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
      for await (const { heading, start, marks, pictures } of eachInTurn(previewOf(view), over)) {
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
      return { version, tables, findings };
    }),
  );
}

import type { CancellationToken, Location, ReferenceParams } from "vscode-languageserver";
import { eachInTurn } from "../base/turns";
import { answering } from "./answer";
import { linedText, toLspRange } from "./convert";
import { subjectAt } from "./features";
import type { Session } from "./session";

/** Where a thing is named, file by file: a client that takes partial answers sees the first while others are read. */
export function handleReferences(session: Session): void {
  const { connection, documents, service } = session;
  const safely = answering(session);

  connection.onReferences((params: ReferenceParams, token, _progress, partial) =>
    safely("References", null, async (_: ReferenceParams, cancel: CancellationToken) => {
      const document = documents.get(params.textDocument.uri);
      const offset = document?.lines.offsetAt(params.position);
      const subject = document && offset !== undefined && subjectAt(service, document.uri, offset);
      if (!subject) return null;
      const found: Location[] = [];
      for await (const file of eachInTurn(service.mentionsOf(subject), cancel)) {
        const { lines } = documents.at(file.uri) ?? linedText(file.text);
        const places = file.mentions
          .filter(({ declares }) => params.context.includeDeclaration || !declares)
          .map(({ span }) => ({ uri: documents.clientUri(file.uri), range: toLspRange(lines, span) }));
        if (partial) partial.report(places);
        else found.push(...places);
      }
      return found;
    })(params, token),
  );
}

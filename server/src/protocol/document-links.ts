import type { CancellationToken, DocumentLink, DocumentLinkParams } from "vscode-languageserver";
import { stopIfCancelled } from "../base/cancellation";
import { defined } from "../base/defined";
import type { Link } from "../features/links";
import { resolvePath } from "../features/shared/paths/relative";
import { answering } from "./answer";
import { toLspRange } from "./convert";
import type { OpenDocument } from "./documents";
import { linksIn } from "./features";
import type { Session } from "./session";

/** Files looked for at the same time. */
const AT_ONCE = 4;

/** Paths that lead nowhere, or out of the workspace, are no links. */
export function handleDocumentLinks(session: Session): void {
  const { connection, documents, service, can, ready } = session;
  const safely = answering(session);

  const targetOf = async ({ to }: Link, document: OpenDocument): Promise<string | undefined> => {
    if (to.kind === "web") return to.url;
    if (to.kind === "file") return documents.clientUri(to.uri);
    const uri = resolvePath(document.uri, to.path);
    return uri !== undefined && (await service.exists(uri)) ? uri : undefined;
  };

  connection.onDocumentLinks(
    safely("Links", null, async ({ textDocument }: DocumentLinkParams, token: CancellationToken) => {
      // Editors do not ask again until the text changes, so the earlier jobs must be known the first time.
      await ready;
      const logs = await service.jobLogs();
      stopIfCancelled(token);
      const document = documents.get(textDocument.uri);
      if (!document) return null;
      const links = linksIn(service, document.uri, logs);
      const targets: (string | undefined)[] = [];
      while (targets.length < links.length) {
        const some = links.slice(targets.length, targets.length + AT_ONCE);
        targets.push(...(await Promise.all(some.map((link) => targetOf(link, document)))));
        stopIfCancelled(token);
      }
      return links.flatMap(({ span, tooltip }, i): DocumentLink[] => {
        const target = targets[i];
        if (target === undefined) return [];
        return [
          defined({
            range: toLspRange(document.lines, span),
            target,
            tooltip: can.linkTooltips ? tooltip : undefined,
          }),
        ];
      });
    }),
  );
}

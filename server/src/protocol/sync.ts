import { knowledgeKind } from "../workspace/host";
import { report } from "./answer";
import type { Diagnostics } from "./diagnostics";
import type { OpenDocument } from "./documents";
import { Formatters } from "./formatters";
import type { Session } from "./session";

/** Keeps the service's texts those of the editor. */
export function handleSync(session: Session, diagnostics: Diagnostics): void {
  const { connection, documents, service, remembering } = session;
  const formatters = new Formatters(session);
  const guarded =
    <P>(name: string, handle: (params: P) => void | Promise<void>) =>
    async (params: P): Promise<void> => {
      try {
        await handle(params);
      } catch (error) {
        report(connection, name, error);
      }
    };
  const changed = (document: OpenDocument | undefined): void => {
    if (!document) return;
    remembering.edited();
    formatters.look(document);
    diagnostics.edited(document);
    if (knowledgeKind(document.uri)) diagnostics.everythingChanged();
  };

  connection.onDidOpenTextDocument(
    guarded("Opening a document", (params) => changed(documents.open(params))),
  );
  connection.onDidChangeTextDocument(
    guarded("Changing a document", (params) => changed(documents.change(params))),
  );
  connection.onDidCloseTextDocument(
    guarded("Closing a document", async (params) => {
      const document = await documents.close(params);
      if (!document) return;
      diagnostics.closed(document);
      formatters.forget(document);
      // What was typed into it and not saved counts no longer.
      if (knowledgeKind(document.uri)) diagnostics.everythingChanged();
      remembering.start();
    }),
  );
  connection.onDidSaveTextDocument(
    guarded("Saving a document", async ({ textDocument }) => {
      const document = documents.get(textDocument.uri);
      if (!document) return;
      // What is remembered of a log is what was saved.
      await service.fileChanged(document.uri);
      // Image files of names that are not watched are looked at again.
      if (service.imagesOf(document.uri)) diagnostics.everythingChanged();
      remembering.start();
    }),
  );
}

import { knowledgeKind } from "../workspace/host";
import { report } from "./answer";
import type { OpenDocument } from "./documents";
import { Formatters } from "./formatters";
import type { Session } from "./session";

/** Keeps the service's texts those of the editor. */
export function handleSync(session: Session): void {
  const { connection, documents, service, remembering, typingRest, events } = session;
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
    typingRest.edited();
    formatters.look(document);
    events.edited.fire(document);
    if (knowledgeKind(document.uri)) events.everythingChanged.fire();
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
      events.closed.fire(document);
      formatters.forget(document);
      // What was typed into it and not saved counts no longer.
      if (knowledgeKind(document.uri)) events.everythingChanged.fire();
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
      if (service.imagesOf(document.uri)) events.everythingChanged.fire();
      remembering.start();
    }),
  );
}

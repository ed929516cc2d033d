import { handleDocumentLinks } from "./document-links";
import { handleReferences } from "./references";
import { handleRename } from "./rename";
import type { Session } from "./session";
import { handleSignature } from "./signature";
import { handleWorkspaceSymbols } from "./workspace-symbols";

/** What is asked about names and places across files. */
export function handleFinding(session: Session): void {
  handleReferences(session);
  handleRename(session);
  handleWorkspaceSymbols(session);
  handleDocumentLinks(session);
  handleSignature(session);
}

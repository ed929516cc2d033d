import { handleReferences } from "./references";
import { handleRename } from "./rename";
import type { Session } from "./session";

/** What is asked about names and places across files. */
export function handleFinding(session: Session): void {
  handleReferences(session);
  handleRename(session);
}

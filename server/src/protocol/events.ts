import type { OpenDocument } from "./documents";
import { type Emitter, emitter } from "./emitter";

/** What happens in a session. */
export interface Events {
  /** A document was opened or edited. */
  readonly edited: Emitter<OpenDocument>;
  /** A document was closed: what is on disk counts again. */
  readonly closed: Emitter<OpenDocument>;
  /** The file of this uri changed on disk. */
  readonly fileChanged: Emitter<string>;
  /** Other folders are open. */
  readonly foldersChanged: Emitter<void>;
  /** What is remembered of the jobs is not what it was; the findings are. */
  readonly remembered: Emitter<void>;
  /** Settings, folders, knowledge files or earlier jobs changed: any file may be judged differently now. */
  readonly everythingChanged: Emitter<void>;
}

export const sessionEvents = (): Events => ({
  edited: emitter(),
  closed: emitter(),
  fileChanged: emitter(),
  foldersChanged: emitter(),
  remembered: emitter(),
  everythingChanged: emitter(),
});

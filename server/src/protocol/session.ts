import type { CancellationToken, Connection } from "vscode-languageserver";
import type { Service } from "../service";
import type { ClientAbilities } from "./client-abilities";
import type { Diagnoses } from "./diagnoses";
import type { Documents } from "./documents";
import type { Events } from "./events";
import type { Folders } from "./folders";
import type { LogIndexer } from "./log-indexer";
import type { Preferences } from "./preferences";
import type { Refreshes } from "./refresh";
import type { TypingRest } from "./typing-rest";

/** What the handlers of one connection share. */
export interface Session {
  readonly connection: Connection;
  readonly service: Service;
  readonly documents: Documents;
  readonly can: ClientAbilities;
  readonly events: Events;
  readonly folders: Folders;
  readonly preferences: Preferences;
  readonly diagnoses: Diagnoses;
  readonly remembering: LogIndexer;
  readonly refreshes: Refreshes;
  readonly typingRest: TypingRest;
  /** Resolves when the knowledge files are read, or when waiting for them any longer would be felt. */
  readonly ready: Promise<void>;
  /** Cancelled when the client shuts the session down: nothing is worked out or told any more. */
  readonly ended: CancellationToken;
  /** Where a check is explained, undefined where there is no such page. */
  readonly docsPage: (code: string) => string | undefined;
}

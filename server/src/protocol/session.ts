import type { Connection } from "vscode-languageserver";
import type { Theme } from "../features/shared/picture";
import type { Service } from "../service";
import type { Abilities } from "./abilities";
import type { Documents } from "./documents";
import type { Remembering } from "./remembering";
import type { Shown } from "./shown";
import type { TypingSettings } from "./typing-settings";

/** What the handlers of one connection share. */
export interface Session {
  readonly connection: Connection;
  readonly service: Service;
  readonly documents: Documents;
  readonly can: Abilities;
  /** Resolves when the knowledge files are read, or when waiting for them any longer would be felt. */
  readonly ready: Promise<void>;
  /** The folders the client has open: by the uri the core knows, as the client wrote it. */
  readonly folders: Map<string, string>;
  /** Hears when folders were opened or closed. */
  readonly onFolders: (listener: () => void) => void;
  readonly foldersChanged: () => void;
  /** Resolves when the folders are read and no change of them is under way: until then files and knowledge do not fit together. */
  settled: Promise<void>;
  readonly remembering: Remembering;
  /** Of the editor, for pictures that know nothing of what is around them. */
  theme: Theme;
  /** What is shown beside the text of a log, as the settings of its folder stand. */
  shown: (uri: string) => Shown;
  /** What the person wants written while typing. */
  typing: TypingSettings;
  /** Where a check is explained, undefined where there is no such page. */
  readonly docsPage: (code: string) => string | undefined;
}

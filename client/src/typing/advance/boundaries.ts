// One step to undo for each reading, also where its keys came faster than they were heard of and went to its cell in several
// edits: undo goes back to the text as it stood when the reading was begun.
import { commands, type TextDocument, window } from "vscode";
import { hearsOfChange } from "../../took-edit";

/** True while there is a reading to go back behind. */
const READINGS = "mendlog.readingsBehind";
/** Readings that are kept in mind. */
const MOST = 100;

/** The text when a reading was over, and the changes since the one before it. */
interface Boundary {
  readonly text: string;
  readonly changes: number;
}

export interface Boundaries {
  /** A reading is begun in a text that was this. */
  begun(document: TextDocument, text: string): void;
  /** Something of it was changed. */
  changed(): void;
  /** It is over, in the text as it is. */
  reached(document: TextDocument): void;
  /** The cursor went back to the last one. */
  returned(): void;
  clear(): void;
  /** Undoes the last reading, or what was typed of the one that is begun. */
  undo(document: TextDocument): Promise<void>;
}

export function followBoundaries(): Boundaries {
  let own: TextDocument | undefined;
  let reached: readonly Boundary[] = [];
  let changes = 0;
  let told = false;
  const tell = () => {
    const now = reached.length > 0;
    if (now === told) return;
    told = now;
    void commands.executeCommand("setContext", READINGS, now);
  };
  const clear = () => {
    own = undefined;
    reached = [];
    changes = 0;
    tell();
  };
  return {
    begun: (document, text) => {
      if (document !== own || reached.at(-1)?.text !== text) reached = [{ text, changes: 0 }];
      own = document;
      changes = 1;
      tell();
    },
    changed: () => {
      changes += 1;
    },
    reached: (document) => {
      if (document !== own) return;
      reached = [...reached.slice(-MOST), { text: document.getText(), changes: changes + 1 }];
      changes = 0;
    },
    returned: () => {
      changes += reached.at(-1)?.changes ?? 0;
      if (reached.length > 1) reached = reached.slice(0, -1);
    },
    clear,
    undo: async (document) => {
      let most = changes;
      if (document === own)
        while (reached.at(-1)?.text === document.getText()) {
          most += reached.at(-1)?.changes ?? 0;
          reached = reached.slice(0, -1);
        }
      const to = document === own ? reached.at(-1)?.text : undefined;
      for (let undone = 0; undone < Math.max(1, most); undone += 1) {
        const { version } = document;
        if (window.activeTextEditor?.document !== document) break;
        await commands.executeCommand("undo");
        if (to === undefined) break;
        // What was typed and taken out again by one step leaves nothing to be heard of.
        await hearsOfChange(document, version);
        if (document.getText() === to) break;
      }
      changes = 0;
      if (to === undefined || document.getText() !== to) clear();
    },
  };
}

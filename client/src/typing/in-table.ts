import { commands, Disposable, EventEmitter, type TextDocument, window, workspace } from "vscode";
import {
  ENTER_AT,
  type EnterAnswer,
  type EnterDoes,
} from "../../../server/src/protocol/custom-requests/typing";
import { holdsLog } from "../in-log";
import type { Mendlog } from "../mendlog";
import { isAdvancing } from "./advance";

/** What Enter does where the cursor is, by the server's word: set in a readings table and right below it only. */
const IN_TABLE = "mendlog.inTable";
/** True in a cell for what is measured: a value taken from a list is all there is to be said there. */
const IN_READING = "mendlog.inReading";
/** True in a cell that a reading leads on from by itself: its keys are done in turn with what is typed. */
const ADVANCES = "mendlog.advances";

/** A table is about to be inserted by another feature: true where readings lead on from its cells by themselves. */
export const tableBegins = new EventEmitter<boolean>();

export interface Following {
  dispose(): void;
  /** True in a cell that a reading leads on from by itself, as far as that was told. */
  readonly advances: boolean;
  /** Looks again where the cursor is. */
  look(): void;
}

/**
 * Keeps the context key of the table's keys in step with the cursor. The server is asked only on lines of a log that
 * may be rows, and not again before it has answered.
 */
export function followTable(mendlog: Mendlog): Following {
  let told: EnterDoes | undefined;
  let measured = false;
  let advances = false;
  let asking = false;
  let again = false;
  let looked = 0;

  const tellAdvances = (leadsOn: boolean) => {
    if (leadsOn === advances) return;
    advances = leadsOn;
    void commands.executeCommand("setContext", ADVANCES, leadsOn);
  };
  const tell = (answer?: EnterAnswer | null, document?: TextDocument) => {
    const now = answer?.does === "break" ? undefined : answer?.does;
    const isMeasured = answer?.measured === true;
    tellAdvances(answer?.digits !== undefined && document !== undefined && isAdvancing(document));
    if (isMeasured !== measured) {
      measured = isMeasured;
      void commands.executeCommand("setContext", IN_READING, isMeasured);
    }
    if (now === told) return;
    told = now;
    void commands.executeCommand("setContext", IN_TABLE, now);
  };
  const look = async (): Promise<void> => {
    // Whatever is being answered is of an earlier place: it must not be told of this one, not even where nothing is asked.
    again = false;
    looked += 1;
    const own = looked;
    const editor = window.activeTextEditor;
    const at = editor?.selection.active;
    if (!editor || !at || !mendlog.started || !holdsLog(editor.document)) return tell();
    const { document } = editor;
    if (!mayBeRow(document, at.line) && !mayBeginTable(document, at.line)) return tell();
    again = asking;
    if (asking) return;
    asking = true;
    try {
      const position = { line: at.line, character: at.character };
      const now = await mendlog.request(ENTER_AT, { uri: document.uri.toString(), position });
      if (looked === own) tell(now, document);
    } finally {
      asking = false;
      if (again) void look();
    }
  };
  const changed = () => void look();
  changed();
  const following = Disposable.from(
    window.onDidChangeActiveTextEditor(changed),
    window.onDidChangeTextEditorSelection(({ textEditor }) => {
      if (textEditor === window.activeTextEditor) changed();
    }),
    workspace.onDidChangeTextDocument(({ document }) => {
      if (document === window.activeTextEditor?.document) changed();
    }),
    mendlog.onDidStart(changed),
    tableBegins.event((leadsOn) => {
      // An answer on its way is of what was there before.
      looked += 1;
      tellAdvances(leadsOn);
    }),
  );
  return {
    dispose: () => following.dispose(),
    get advances() {
      return advances;
    },
    look: changed,
  };
}

/** A line on which a table may be begun whose keys have to be known before it is there. */
function mayBeginTable(document: TextDocument, line: number): boolean {
  return line < document.lineCount && /^\s*[\w-]*$/.test(document.lineAt(line).text) && isAdvancing(document);
}

/** A line with a pipe, and below it one that is empty or holds a number: a row that is only being made. */
function mayBeRow(document: TextDocument, line: number): boolean {
  // The cursor is told of later than the text: what an undo took away may have been its line.
  if (line >= document.lineCount) return false;
  const text = document.lineAt(line).text;
  if (text.includes("|")) return true;
  if (!/^\s*(?:$|[~≈+−-]?[.,]?\d\S*$)/.test(text) || line === 0) return false;
  return /\||^\s*[~≈+−-]?[.,]?\d\S*$/.test(document.lineAt(line - 1).text);
}

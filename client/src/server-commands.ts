// The commands that the server carries out. They are kept here and not left to the protocol's library, which knows them only
// while the server runs: by a key of one's own they can be asked for before, and are to say what they need.
import { commands, Disposable, l10n, Uri, window, workspace } from "vscode";
import {
  PROPOSE_LIMITS,
  TAKE_REFERENCE,
  WRITE_BILL,
  WRITE_PARTS_LIST,
  WRITE_REPORT,
  WRITE_SHEET,
  WRITE_SUSPECTS,
} from "../../server/src/protocol/command-names";
import { holdsLog } from "./in-log";
import type { Feature } from "./mendlog";
import { writeReport } from "./write-report";

export const serverCommands: Feature = (mendlog) =>
  Disposable.from(
    commands.registerCommand(WRITE_SUSPECTS, async (of: unknown) => {
      const log = logMeant(of);
      if (log !== undefined) await mendlog.run(WRITE_SUSPECTS, log);
      else
        void window.showWarningMessage(
          l10n.t("Open a repair log to write down its suspects, then try again."),
        );
    }),
    commands.registerCommand(WRITE_PARTS_LIST, async (of: unknown) => {
      const log = logMeant(of);
      if (log !== undefined) await mendlog.run(WRITE_PARTS_LIST, log);
      else void window.showWarningMessage(l10n.t("Open a repair log to list its parts, then try again."));
    }),
    commands.registerCommand(WRITE_REPORT, async (of: unknown) => {
      const log = logMeant(of);
      if (log !== undefined) await writeReport(log, (format) => mendlog.run(WRITE_REPORT, log, format));
      else void window.showWarningMessage(l10n.t("Open a repair log to write its report, then try again."));
    }),
    commands.registerCommand(WRITE_BILL, async (of: unknown) => {
      const log = logMeant(of);
      const words = { title: l10n.t("Write the bill"), done: l10n.t("The bill is written."), ending: "bill" };
      if (log !== undefined) await writeReport(log, (format) => mendlog.run(WRITE_BILL, log, format), words);
      else void window.showWarningMessage(l10n.t("Open a repair log to write its bill, then try again."));
    }),
    commands.registerCommand(WRITE_SHEET, async (of: unknown) => {
      const log = logMeant(of) ?? boardInFront();
      const words = {
        title: l10n.t("Write a bench sheet"),
        done: l10n.t("The bench sheet is written."),
        ending: "sheet",
      };
      if (log !== undefined) await writeReport(log, (format) => mendlog.run(WRITE_SHEET, log, format), words);
      else
        void window.showWarningMessage(
          l10n.t("Open a repair log or a board file to print its tables, then try again."),
        );
    }),
    commands.registerCommand(TAKE_REFERENCE, async (of: unknown) => {
      const log = logMeant(of);
      if (log !== undefined) await mendlog.run(TAKE_REFERENCE, log);
      else
        void window.showWarningMessage(
          l10n.t("Open the repair log of the board that works, then try again."),
        );
    }),
    commands.registerCommand(PROPOSE_LIMITS, async (of: unknown) => {
      const log = logMeant(of);
      if (log === undefined) {
        void window.showWarningMessage(
          l10n.t("Open a repair log to use its readings as limits, then try again."),
        );
        return;
      }
      // It was changed where nobody may see it, and is to be looked through before it is saved.
      const file = await mendlog.run(PROPOSE_LIMITS, log);
      if (typeof file === "string") await window.showTextDocument(Uri.parse(file, true), { preview: false });
    }),
  );

/**
 * A lens names its log. From the palette a command comes without one, from the head of a view with something else: it is
 * the one being looked at.
 */
function logMeant(named: unknown): string | undefined {
  const uri = typeof named === "string" ? named : window.activeTextEditor?.document.uri.toString();
  const open = workspace.textDocuments.find((document) => document.uri.toString() === uri);
  return open && holdsLog(open) ? uri : undefined;
}

/** A bench sheet may also be of a board, by its file. */
function boardInFront(): string | undefined {
  const uri = window.activeTextEditor?.document.uri;
  return uri && /[^/]\.board\.yaml$/.test(uri.path) ? uri.toString() : undefined;
}

import { commands, Disposable, l10n, ProgressLocation, Uri, window } from "vscode";
import { defined } from "../../../server/src/base/defined";
import type { ImportParams } from "../../../server/src/protocol/custom-requests/import-board";
import { type BoardImported, IMPORT_BOARD } from "../../../server/src/protocol/custom-requests/import-board";
import type { Feature, Mendlog } from "../mendlog";
import { fileNameOf, type ImportFile, pickFiles, readFiles } from "./read";
import { applyPlacedEdits, openNew, pickTarget } from "./target";

/** The command that imports netlists, board layouts and parts lists, from the palette and from files in the explorer. */
export const importBoardCommand: Feature = (mendlog) =>
  Disposable.from(
    commands.registerCommand("mendlog.importBoard", (clicked: unknown, chosen: unknown) =>
      start(mendlog, urisIn(chosen) ?? urisIn([clicked])),
    ),
  );

const urisIn = (given: unknown): readonly Uri[] | undefined =>
  Array.isArray(given) && given.length > 0 && given.every((one) => one instanceof Uri) ? given : undefined;

async function start(mendlog: Mendlog, given: readonly Uri[] | undefined): Promise<void> {
  await mendlog.start();
  const uris = given ?? (await pickFiles());
  if (!uris || uris.length === 0) return;
  const files = await readFiles(uris);
  if (!files) return;
  const target = await pickTarget();
  if (target === undefined) return;
  const existing = target === "new" ? undefined : { text: target.getText(), version: target.version };
  const made = await ask(mendlog, files, existing?.text);
  if (made === "cancelled") return;
  if (!made) {
    void window.showErrorMessage(
      l10n.t("The checker did not answer, so nothing was imported. Its messages say why."),
    );
    return;
  }
  if (!made.ok) {
    for (const reason of made.reasons) mendlog.log.error(reason);
    void window.showErrorMessage(made.reasons.join(" "));
    return;
  }
  if (target === "new") await openNew(made.id, made.text);
  else if (!(await applyPlacedEdits(target, existing?.version ?? -1, made.edits))) return;
  tell(mendlog, made, fileNameOf(uris[0]!), target !== "new" && made.edits.length === 0);
}

type Made = Extract<BoardImported, { readonly ok: true }>;

async function ask(
  mendlog: Mendlog,
  files: readonly ImportFile[],
  existing: string | undefined,
): Promise<BoardImported | "cancelled" | null> {
  return window.withProgress(
    {
      location: ProgressLocation.Notification,
      title: l10n.t("Importing {0}", files.map(({ name }) => name).join(", ")),
      cancellable: true,
    },
    async (_, token) => {
      const params = defined<ImportParams>({ files, existing });
      const made = await mendlog.request(IMPORT_BOARD, params, token);
      return token.isCancellationRequested ? "cancelled" : made;
    },
  );
}

function tell(mendlog: Mendlog, made: Made, name: string, unchanged: boolean): void {
  mendlog.log.info(`${name}\n${made.report}`);
  const show = l10n.t("Show the report");
  const message = !made.complete
    ? l10n.t(
        "{0} was not read completely. Parts: {1}, nets: {2}. The report says what is missing.",
        name,
        made.parts,
        made.nets,
      )
    : unchanged
      ? l10n.t("All of {0} is in the board file already.", name)
      : l10n.t(
          "{0} is imported and not saved yet. Parts: {1}, nets: {2}, numbers that the library does not know: {3}.",
          name,
          made.parts,
          made.nets,
          made.unmatched,
        );
  const told = made.complete
    ? window.showInformationMessage(message, show)
    : window.showWarningMessage(message, show);
  void told.then((picked) => (picked === show ? mendlog.log.show() : undefined));
}

import { FileSystemError, l10n, type Uri, window, workspace } from "vscode";
import { defined } from "../../../server/src/base/defined";
import { decodeImported } from "../../../server/src/knowledge/import/decode";
import { MOST_IMPORTED } from "../../../server/src/knowledge/import/limits";

/** Endings that such files usually have; any other may be picked all the same. */
const ENDINGS = ["kicad_pcb", "net", "d356", "356", "ipc", "csv", "tsv", "txt"];

export interface ImportFile {
  readonly name: string;
  readonly text: string;
}

/** Asks which files are to be imported; undefined where none was picked. */
export async function pickFiles(): Promise<readonly Uri[] | undefined> {
  const folder = workspace.workspaceFolders?.[0]?.uri;
  return window.showOpenDialog(
    defined({
      canSelectMany: true,
      defaultUri: folder,
      filters: { [l10n.t("Netlists, layouts and parts lists")]: ENDINGS, [l10n.t("All files")]: ["*"] },
      openLabel: l10n.t("Import"),
      title: l10n.t("Import a netlist, a board layout or a parts list"),
    }),
  );
}

/** The files' texts; undefined where one could not be read, which the person was told then. */
export async function readFiles(uris: readonly Uri[]): Promise<readonly ImportFile[] | undefined> {
  const files: ImportFile[] = [];
  for (const uri of uris) {
    const name = fileNameOf(uri);
    const read = await textOf(uri);
    if (typeof read === "string") {
      void window.showErrorMessage(l10n.t("{0} was not imported: {1}", name, read));
      return undefined;
    }
    files.push({ name, text: read.text });
  }
  return files;
}

/** The text, or why there is none. */
async function textOf(uri: Uri): Promise<{ readonly text: string } | string> {
  try {
    const { size } = await workspace.fs.stat(uri);
    if (size > MOST_IMPORTED)
      return l10n.t("it is larger than {0} MiB. Export the one board alone.", MOST_IMPORTED / 1024 / 1024);
    const decoded = decodeImported(await workspace.fs.readFile(uri));
    return decoded.ok ? decoded : l10n.t("it holds binary data, not text.");
  } catch (error) {
    return error instanceof FileSystemError || error instanceof Error ? error.message : String(error);
  }
}

export const fileNameOf = (uri: Uri): string => uri.path.slice(uri.path.lastIndexOf("/") + 1);

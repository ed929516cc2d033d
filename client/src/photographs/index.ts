// A picture that is pasted or dropped into a log is saved beside it, under the job's number, and linked. Files are only
// written into the folder of the log, and only where that lies in the workspace.
import {
  type CancellationToken,
  type DataTransfer,
  type DataTransferFile,
  Disposable,
  DocumentDropEdit,
  DocumentDropOrPasteEditKind,
  DocumentPasteEdit,
  FileType,
  l10n,
  languages,
  type Position,
  SnippetString,
  type TextDocument,
  Uri,
  WorkspaceEdit,
  window,
  workspace,
} from "vscode";
import { holdsLog } from "../in-log";
import type { Feature } from "../mendlog";
import {
  endingOf,
  freeName,
  linkSnippet,
  MOST_PHOTOGRAPH_BYTES,
  PICTURE_TYPES,
  stemOf,
  subjectAbove,
} from "./name";

const FOLDER = "photos";
const KIND = DocumentDropOrPasteEditKind.Empty.append("markdown", "link", "image", "mendlog");
const LOGS = { language: "markdown" };

/** Takes pictures that are pasted or dropped into a log. */
export const photographPasting: Feature = () =>
  Disposable.from(
    languages.registerDocumentPasteEditProvider(
      LOGS,
      {
        async provideDocumentPasteEdits(document, ranges, data, _context, token) {
          const put = await putPictures(document, ranges[0]?.start, data, token);
          if (!put) return undefined;
          const edit = new DocumentPasteEdit(put.link, l10n.t("Save the photograph beside the log"), KIND);
          edit.additionalEdit = put.files;
          return [edit];
        },
      },
      { providedPasteEditKinds: [KIND], pasteMimeTypes: PICTURE_TYPES },
    ),
    languages.registerDocumentDropEditProvider(
      LOGS,
      {
        async provideDocumentDropEdits(document, position, data, token) {
          const put = await putPictures(document, position, data, token);
          if (!put) return undefined;
          const edit = new DocumentDropEdit(put.link, l10n.t("Save the photograph beside the log"), KIND);
          edit.additionalEdit = put.files;
          return edit;
        },
      },
      { providedDropEditKinds: [KIND], dropMimeTypes: PICTURE_TYPES },
    ),
  );

interface Put {
  readonly link: SnippetString;
  readonly files: WorkspaceEdit;
}

/** Undefined where there is no picture, or the document is no log that lies in the workspace. */
async function putPictures(
  document: TextDocument,
  at: Position | undefined,
  data: DataTransfer,
  token: CancellationToken,
): Promise<Put | undefined> {
  if (!at || !holdsLog(document) || document.isUntitled || !workspace.getWorkspaceFolder(document.uri))
    return undefined;
  const pictures = [...data].flatMap(([type, item]) => {
    const ending = endingOf(type);
    const file = item.asFile();
    return ending && file ? [{ ending, file }] : [];
  });
  if (pictures.length === 0) return undefined;
  const folder = Uri.joinPath(document.uri, "..", FOLDER);
  const taken = await namesIn(folder);
  if (token.isCancellationRequested || !taken) return undefined;
  const stem = stemOf(document.getText(), document.uri.path.split("/").at(-1) ?? "");
  const lines = document
    .getText()
    .split(/\r?\n/)
    .slice(0, at.line + 1);
  const subject = subjectAbove(lines);
  const files = new WorkspaceEdit();
  const links: string[] = [];
  for (const { ending, file } of pictures) {
    const bytes = await bytesOf(file);
    if (token.isCancellationRequested) return undefined;
    if (!bytes) continue;
    const name = freeName(stem, subject, ending, taken);
    taken.add(name.toLowerCase());
    // Nothing that is there is ever written over.
    files.createFile(Uri.joinPath(folder, name), { contents: bytes, overwrite: false });
    links.push(linkSnippet(`${FOLDER}/${name}`, subject).replace("${1:", `\${${links.length + 1}:`));
  }
  return links.length === 0 ? undefined : { link: new SnippetString(links.join("\n\n")), files };
}

async function bytesOf(file: DataTransferFile): Promise<Uint8Array | undefined> {
  const bytes = await file.data();
  if (bytes.length <= MOST_PHOTOGRAPH_BYTES) return bytes;
  void window.showWarningMessage(
    l10n.t(
      "{0} has {1} MB; up to 50 MB are saved beside a log.",
      file.name,
      Math.round(bytes.length / 1024 / 1024),
    ),
  );
  return undefined;
}

/** In lower case, as some disks tell no other apart; undefined where the folder is something else, or a link out. */
async function namesIn(folder: Uri): Promise<Set<string> | undefined> {
  try {
    const { type } = await workspace.fs.stat(folder);
    if (type !== FileType.Directory) return undefined;
    return new Set((await workspace.fs.readDirectory(folder)).map(([name]) => name.toLowerCase()));
  } catch {
    // There is none yet; it is made with the first photograph.
    return new Set();
  }
}

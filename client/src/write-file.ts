import { FileType, l10n, Uri, workspace } from "vscode";
import { isLog } from "../../server/src/log/sniff";
import { knowledgeKind } from "../../server/src/workspace/host";

/**
 * The one way by which the extension writes a file of its own making: beside its place first and then put into it, so
 * that no fault leaves half of it; never through a link, and never over a log or a file that logs are judged by.
 * @param over whether a file that is there may be written over: the person was asked
 * @returns nothing, or a sentence that says why nothing was written
 */
export async function writeFile(target: Uri, text: string, over: boolean): Promise<string | undefined> {
  const name = target.path.slice(target.path.lastIndexOf("/") + 1);
  const why = await refusal(target, name, over);
  if (why !== undefined) return why;
  const beside = Uri.joinPath(target, "..", `.${name}.${Date.now().toString(36)}.tmp`);
  try {
    await workspace.fs.writeFile(beside, new TextEncoder().encode(text));
    await workspace.fs.rename(beside, target, { overwrite: over });
    return undefined;
  } catch (error) {
    await Promise.resolve(workspace.fs.delete(beside)).catch(() => {});
    // The editor hands on what the disk said with the name of its class before it.
    const said = (error instanceof Error ? error.message : String(error)).replace(/^(?:Error: )+/, "");
    return l10n.t("{0} was not written: {1}", name, said);
  }
}

async function refusal(target: Uri, name: string, over: boolean): Promise<string | undefined> {
  const there = await statOf(target);
  if (!there) return undefined;
  if (there.type & FileType.SymbolicLink)
    return l10n.t("{0} is a link, so nothing is written through it. Choose the file itself.", name);
  if (!over) return l10n.t("{0} is there already and stays as it is.", name);
  const text = await workspace.fs.readFile(target).then(
    (bytes) => new TextDecoder().decode(bytes),
    () => "",
  );
  return knowledgeKind(target.path) === undefined && !isLog(text)
    ? undefined
    : l10n.t(
        "{0} is a log, a board file or another file that logs are judged by, so it is not overwritten.",
        name,
      );
}

/** Undefined where nothing is there; a link that leads nowhere is there. */
async function statOf(target: Uri) {
  try {
    return await workspace.fs.stat(target);
  } catch {
    return undefined;
  }
}

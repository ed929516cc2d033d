import { env, l10n, Uri, window, workspace } from "vscode";
import { isLog } from "../../server/src/log/sniff";
import { knowledgeKind } from "../../server/src/workspace/host";

/** By the name of each, what its files end in. */
const formats = () => ({ [l10n.t("Web page")]: ["html"], Markdown: ["md"], [l10n.t("Data")]: ["json"] });

/**
 * Asks where the owner's report is to be put, has the server write its text, and saves it. The editor's dialog asks
 * before something is written over; a log or a knowledge file never is.
 * @param log the uri of a log that is open
 * @param ask gives the text in the format named, or nothing where the server has said why there is none
 */
export async function writeReport(log: string, ask: (format: string) => unknown): Promise<void> {
  const from = Uri.parse(log, true);
  // Named apart from the log, so that a Markdown report does not offer itself to be written over its own log.
  const beside = from.with({ path: from.path.replace(/(?:\.(?:md|markdown))?$/i, "-report.html") });
  const named = from.scheme === "untitled" ? {} : { defaultUri: beside };
  const target = await window.showSaveDialog({
    ...named,
    filters: formats(),
    title: l10n.t("Write the owner's report"),
  });
  if (!target || !(await mayWrite(target))) return;
  const format = /\.(html|md|json)$/i.exec(target.path)?.[1]?.toLowerCase() ?? "html";
  const text = await ask(format);
  if (typeof text !== "string") return;
  try {
    await workspace.fs.writeFile(target, new TextEncoder().encode(text));
  } catch (error) {
    const why = error instanceof Error ? error.message : String(error);
    void window.showErrorMessage(l10n.t("The owner's report was not written: {0}", why));
    return;
  }
  const open = l10n.t("Open");
  if ((await window.showInformationMessage(l10n.t("The owner's report is written."), open)) !== open) return;
  if (format === "html") await env.openExternal(target);
  else await window.showTextDocument(target);
}

/** The dialog has asked whether what is there may be written over; what reports are made from never is. */
async function mayWrite(target: Uri): Promise<boolean> {
  let there: Uint8Array;
  try {
    there = await workspace.fs.readFile(target);
  } catch {
    return true;
  }
  if (knowledgeKind(target.path) === undefined && !isLog(new TextDecoder().decode(there))) return true;
  const name = target.path.slice(target.path.lastIndexOf("/") + 1);
  void window.showErrorMessage(
    l10n.t(
      "{0} is a log, a board file or another file that logs are judged by: the report is not written over it.",
      name,
    ),
  );
  return false;
}

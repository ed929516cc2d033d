import { env, FileType, Uri, window, workspace } from "vscode";
import { isLog } from "../../server/src/log/sniff";
import { knowledgeKind } from "../../server/src/workspace/host";

const FORMATS = { "Web page": ["html"], Markdown: ["md"], Data: ["json"] };
const OVER = "Write Over It";
const OPEN = "Open";

/**
 * Asks where the owner's report is to be put, has the server write its text, and saves it. Nothing that is there is
 * written over unasked, and a log or a knowledge file never.
 * @param ask gives the text in the format named, or nothing where the server has said why there is none
 */
export async function writeReport(log: unknown, ask: (format: string) => unknown): Promise<void> {
  if (typeof log !== "string") return;
  const from = Uri.parse(log, true);
  // Named apart from the log, so that a Markdown report does not offer itself to be written over its own log.
  const beside = from.with({ path: from.path.replace(/(?:\.(?:md|markdown))?$/i, "-report.html") });
  const named = from.scheme === "untitled" ? {} : { defaultUri: beside };
  const target = await window.showSaveDialog({
    ...named,
    filters: FORMATS,
    title: "Write the owner's report",
  });
  if (!target || !(await mayWrite(target))) return;
  const format = /\.(html|md|json)$/i.exec(target.path)?.[1]?.toLowerCase() ?? "html";
  const text = await ask(format);
  if (typeof text !== "string") return;
  try {
    await workspace.fs.writeFile(target, new TextEncoder().encode(text));
  } catch (error) {
    void window.showErrorMessage(
      `The owner's report was not written: ${error instanceof Error ? error.message : String(error)}`,
    );
    return;
  }
  if ((await window.showInformationMessage("The owner's report is written.", OPEN)) !== OPEN) return;
  if (format === "html") await env.openExternal(target);
  else await window.showTextDocument(target);
}

async function mayWrite(target: Uri): Promise<boolean> {
  let there: Uint8Array;
  try {
    if ((await workspace.fs.stat(target)).type & FileType.Directory) return false;
    there = await workspace.fs.readFile(target);
  } catch {
    return true;
  }
  const isSource = knowledgeKind(target.path) !== undefined || isLog(new TextDecoder().decode(there));
  const name = target.path.slice(target.path.lastIndexOf("/") + 1);
  if (isSource) {
    void window.showErrorMessage(`${name} is a log or a knowledge file: the report is not written over it.`);
    return false;
  }
  const answer = await window.showWarningMessage(
    `${name} is there already.`,
    { modal: true, detail: "The owner's report takes its place." },
    OVER,
  );
  return answer === OVER;
}

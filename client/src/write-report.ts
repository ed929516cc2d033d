import { env, l10n, Uri, window } from "vscode";
import { writeFile } from "./write-file";

/** By the name of each, what its files end in. */
const formats = () => ({ [l10n.t("Web page")]: ["html"], Markdown: ["md"], [l10n.t("Data")]: ["json"] });

/** What is written, in words, and what its file is called by behind the log's own name. */
export interface PaperWords {
  readonly title: string;
  readonly done: string;
  readonly ending: string;
}

/**
 * Asks where the owner's report is to be put, has the server write its text, and saves it. The editor's dialog asks
 * before something is written over; a log or a knowledge file never is.
 * @param log the uri of a log that is open
 * @param ask gives the text in the format named, or nothing where the server has said why there is none
 */
export async function writeReport(
  log: string,
  ask: (format: string) => unknown,
  words: PaperWords = {
    title: l10n.t("Write the owner's report"),
    done: l10n.t("The owner's report is written."),
    ending: "report",
  },
): Promise<void> {
  const from = Uri.parse(log, true);
  // Named apart from the log, so that a Markdown report does not offer itself to be written over its own log.
  const beside = from.with({
    path: from.path.replace(/(?:\.(?:md|markdown|board\.yaml))?$/i, `-${words.ending}.html`),
  });
  const named = from.scheme === "untitled" ? {} : { defaultUri: beside };
  const target = await window.showSaveDialog({
    ...named,
    filters: formats(),
    title: words.title,
  });
  if (!target) return;
  const format = /\.(html|md|json)$/i.exec(target.path)?.[1]?.toLowerCase() ?? "html";
  const text = await ask(format);
  if (typeof text !== "string") return;
  const why = await writeFile(target, text, true);
  if (why !== undefined) {
    void window.showErrorMessage(why);
    return;
  }
  const open = l10n.t("Open");
  if ((await window.showInformationMessage(words.done, open)) !== open) return;
  if (format === "html") await env.openExternal(target);
  else await window.showTextDocument(target);
}

// The tools that an assistant in the editor may use: it answers from the log instead of guessing. They only read.
import {
  type CancellationToken,
  Disposable,
  LanguageModelTextPart,
  LanguageModelToolResult,
  lm,
  type TextDocument,
  Uri,
  window,
  workspace,
} from "vscode";
import {
  TOOL_JUDGE,
  TOOL_NEXT,
  TOOL_READINGS,
} from "../../../server/src/protocol/custom-requests/for-assistants";
import type { OfDocument, OwnRequest } from "../../../server/src/protocol/custom-requests/request";
import { holdsLog } from "../in-log";
import type { Feature, Mendlog } from "../mendlog";

/** Which log: a path within the workspace; the one in front where it is not given. */
interface OfLog {
  readonly log?: unknown;
}

/** The tools, each of which is one request to the server; none where the editor has no such interface. */
export const assistants: Feature = (mendlog) =>
  // Some editors that run this have nothing of the kind.
  typeof lm === "undefined" || typeof lm.registerTool !== "function"
    ? new Disposable(() => {})
    : Disposable.from(
        tool(mendlog, "mendlog_readings", TOOL_READINGS),
        tool(mendlog, "mendlog_judge", TOOL_JUDGE),
        tool(mendlog, "mendlog_next", TOOL_NEXT),
      );

function tool<P extends OfDocument, R>(
  mendlog: Mendlog,
  name: string,
  request: OwnRequest<P, R>,
): Disposable {
  return lm.registerTool<OfLog & Omit<P, "uri">>(name, {
    invoke: async ({ input }, token) => {
      const { log, ...asked } = input;
      const document = await logNamed(log);
      const answer = document ? await answerTo(mendlog, document, request, asked, token) : NO_LOG;
      return new LanguageModelToolResult([new LanguageModelTextPart(JSON.stringify(answer))]);
    },
  });
}

async function answerTo<P extends OfDocument, R>(
  mendlog: Mendlog,
  document: TextDocument,
  request: OwnRequest<P, R>,
  asked: object,
  token: CancellationToken,
) {
  await mendlog.start();
  const log = workspace.asRelativePath(document.uri);
  const answer = await mendlog.request(request, { ...asked, uri: document.uri.toString() } as P, token);
  return answer ? { log, ...answer } : { log, error: NOTHING };
}

/** For the model, which reads English whatever the editor's language. */
const NO_LOG = {
  error: "There is no such repair log. Name one of the workspace by its path, or open it in the editor.",
};
const NOTHING = "There is no answer: the log cannot be read, or no board file is known for it.";

/** Only files of the workspace, and only those that are repair logs. */
async function logNamed(path: unknown): Promise<TextDocument | undefined> {
  if (typeof path !== "string" || path.trim() === "") {
    const shown = [window.activeTextEditor, ...window.visibleTextEditors];
    return shown.find((editor) => editor && holdsLog(editor.document))?.document;
  }
  for (const { uri } of workspace.workspaceFolders ?? []) {
    const named = Uri.joinPath(uri, path.trim());
    if (!named.path.startsWith(`${uri.path.replace(/\/$/, "")}/`)) continue;
    try {
      const document = await workspace.openTextDocument(named);
      if (holdsLog(document)) return document;
    } catch {
      // There is none of that name in this folder.
    }
  }
  return undefined;
}

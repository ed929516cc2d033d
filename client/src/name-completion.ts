// Names complete while they are typed, in logs and nowhere else. A letter that brings up a list is a matter of the whole
// language to the editor: where other Markdown stays as it is, each log has to ask for itself.
import {
  CompletionTriggerKind,
  Disposable,
  type DocumentFilter,
  languages,
  RelativePattern,
  type TextDocument,
  Uri,
  workspace,
} from "vscode";
import { holdsLog } from "./in-log";
import type { Feature } from "./mendlog";

const LETTERS = [..."ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz"];
/** Places where a name may belong: a row, a heading, a bracket, the front matter. The server knows it exactly. */
const MAYBE = /\||^#|\[[A-Za-z]*$|^[\w-]*$|^[\w-]+:/;

export const nameCompletion: Feature = (mendlog) => {
  const own = new Map<string, Disposable>();
  const follow = (document: TextDocument) => {
    const uri = document.uri.toString();
    if (own.has(uri) || !holdsLog(document)) return;
    own.set(
      uri,
      languages.registerCompletionItemProvider(
        filterOf(document),
        {
          provideCompletionItems: (asked, position, token, context) => {
            const { triggerKind, triggerCharacter = "" } = context;
            // Whoever asks by a key, or has lists come up by themselves, gets the library's own answer.
            if (triggerKind !== CompletionTriggerKind.TriggerCharacter || !LETTERS.includes(triggerCharacter))
              return undefined;
            if (!holdsLog(asked) || listsComeUp(asked)) return undefined;
            const before = asked.lineAt(position.line).text.slice(0, position.character);
            return MAYBE.test(before) ? mendlog.completions(asked, position, context, token) : undefined;
          },
          resolveCompletionItem: (item, token) => mendlog.resolveCompletion(item, token),
        },
        ...LETTERS,
      ),
    );
  };
  const forget = (document: TextDocument) => {
    own.get(document.uri.toString())?.dispose();
    own.delete(document.uri.toString());
  };
  for (const document of workspace.textDocuments) follow(document);
  return Disposable.from(
    workspace.onDidOpenTextDocument(follow),
    workspace.onDidCloseTextDocument(forget),
    // A file may become a log while it is being typed.
    workspace.onDidChangeTextDocument(({ document }) => follow(document)),
    new Disposable(() => {
      for (const one of own.values()) one.dispose();
    }),
  );
};

const listsComeUp = (document: TextDocument): boolean => {
  const quick = workspace.getConfiguration("editor", document).get<unknown>("quickSuggestions");
  const other = typeof quick === "object" && quick !== null ? (quick as { other?: unknown }).other : quick;
  return other === true || other === "on" || other === "inline";
};

/** This very document. Its name is matched by a pattern, in which some signs would mean others. */
function filterOf({ uri, languageId }: TextDocument): DocumentFilter {
  const { scheme, path } = uri;
  const at = path.lastIndexOf("/");
  const name = path.slice(at + 1).replace(/[[\]{}*?!,\\]/g, "?");
  return {
    language: languageId,
    scheme,
    pattern: at < 0 ? name : new RelativePattern(Uri.joinPath(uri, ".."), name),
  };
}

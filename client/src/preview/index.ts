// Marks logs in the editor's own Markdown preview.
import type MarkdownIt from "markdown-it";
import {
  CancellationTokenSource,
  commands,
  Disposable,
  l10n,
  languages,
  TabInputCustom,
  TabInputWebview,
  type TextDocument,
  window,
  workspace,
} from "vscode";
import { PREVIEW } from "../../../server/src/protocol/custom-requests/preview";
import { SUSPECTS } from "../../../server/src/protocol/custom-requests/suspects";
import { knowledgeKind } from "../../../server/src/workspace/host";
import { holdsLog } from "../in-log";
import type { Feature, Mendlog } from "../mendlog";
import { shareWords } from "../share";
import { carried } from "./carry";
import { previewPlugin } from "./plugin";
import type { PreviewContent, PreviewSource, PreviewWords } from "./source";

/** An answer and the text that it is about. */
interface Known {
  readonly text: string;
  readonly shown: PreviewContent;
}

/** Documents whose last answer is kept. */
const KEPT = 8;
/** Milliseconds in which several reasons to ask again are one. */
const SOON = 250;
/** Milliseconds without a new text or answer before the preview is drawn again: the editor loads its whole page again. */
const QUIET = 400;

/** By the document's uri, the one rendered last at the end. */
const known = new Map<string, Known>();
/** What the preview was last given, by the document's uri. */
const rendered = new Map<string, PreviewContent | undefined>();
let redrawing: NodeJS.Timeout | undefined;
const asking = new Map<string, { readonly text: string; readonly stop: () => void }>();
let mendlog: Mendlog | undefined;

/** What the editor's preview calls with its parser before it renders anything. */
export function extendMarkdownIt(md: MarkdownIt): MarkdownIt {
  return md.use(previewPlugin, source);
}

/** Line ends as the parser has them when it looks for blocks. */
const plain = (text: string): string => text.replace(/\r\n?/g, "\n").replace(/\0/g, "\ufffd");

const documentOf = (uri: string | undefined, text: string): TextDocument | undefined =>
  workspace.textDocuments.find((document) =>
    uri === undefined
      ? document.languageId === "markdown" && plain(document.getText()) === text
      : document.uri.toString() === uri,
  );

const source: PreviewSource = {
  shown(uri, text) {
    const key = uri ?? documentOf(uri, text)?.uri.toString();
    if (key === undefined) return undefined;
    const last = known.get(key);
    const shown = last && shownOf(last, text);
    rendered.set(key, shown);
    if (last?.text !== text) void ask(key, text);
    // The editor draws while somebody types; drawing again can wait until they pause.
    if (redrawing) redrawSoon();
    return shown;
  },
  get words() {
    words ??= makeWords();
    return words;
  },
};

/** Asks about the document as it stands; an answer about any other text than `text` is dropped. */
async function ask(uri: string, text: string, again = false): Promise<void> {
  const server = mendlog;
  const before = asking.get(uri);
  if (!server || (before?.text === text && !again)) return;
  before?.stop();
  const cancel = new CancellationTokenSource();
  const own = { text, stop: () => cancel.cancel() };
  asking.set(uri, own);
  try {
    await server.start();
    const document = documentOf(uri, text);
    if (!document || plain(document.getText()) !== text) return;
    const { version } = document;
    const preview = await server.request(PREVIEW, { uri }, cancel.token);
    if (preview?.version !== version || cancel.token.isCancellationRequested) return;
    keep(uri, text, (shown) => ({ ...shown, preview }));
    const suspects = await server.request(SUSPECTS, { uri }, cancel.token);
    if (suspects?.version !== version || cancel.token.isCancellationRequested) return;
    keep(uri, text, (shown) => ({ ...shown, preview, suspects }));
  } finally {
    if (asking.get(uri) === own) asking.delete(uri);
    cancel.dispose();
  }
}

/** What is known, as far as it holds for this text. */
function shownOf({ text: before, shown }: Known, text: string): PreviewContent | undefined {
  const preview = carried(shown.preview, before, text);
  return preview && { ...shown, preview };
}

/** Keeps what has come, and has it shown. */
function keep(uri: string, text: string, merge: (shown: PreviewContent | undefined) => PreviewContent): void {
  const shown = merge(known.get(uri)?.shown);
  known.delete(uri);
  known.set(uri, { text, shown });
  for (const oldest of [...known.keys()].slice(0, -KEPT)) {
    known.delete(oldest);
    rendered.delete(oldest);
  }
  redrawSoon();
}

/** Has the preview drawn again where it does not show what is known by then. */
function redrawSoon(): void {
  clearTimeout(redrawing);
  redrawing = setTimeout(() => {
    redrawing = undefined;
    const stale = [...known].some(
      ([uri, { shown }]) => rendered.has(uri) && !sameShown(rendered.get(uri), shown),
    );
    if (stale && previewOpen()) void commands.executeCommand("markdown.preview.refresh");
  }, QUIET);
}

/** The version says which text an answer is about, not what is shown. */
const sameShown = (a: PreviewContent | undefined, b: PreviewContent): boolean =>
  a === b || (a !== undefined && comparable(a) === comparable(b));

const comparable = ({ preview, suspects }: PreviewContent): string =>
  JSON.stringify([{ ...preview, version: 0 }, suspects && { ...suspects, version: 0 }]);

const isPreview = (input: unknown): boolean =>
  (input instanceof TabInputWebview || input instanceof TabInputCustom) &&
  /markdown\.preview/.test(input.viewType);

const previewOpen = (): boolean =>
  window.tabGroups.all.some(({ tabs }) => tabs.some(({ input }) => isPreview(input)));

/** What a log is judged by has changed while its text has not. */
function askAgain(): void {
  if (known.size === 0 || !previewOpen()) return;
  for (const document of workspace.textDocuments) {
    const uri = document.uri.toString();
    if (known.has(uri) && holdsLog(document)) void ask(uri, plain(document.getText()), true);
  }
}

/** Keeps what the preview shows of logs up to date, a little while after the last change. */
export const preview: Feature = (own) => {
  mendlog = own;
  let waiting: NodeJS.Timeout | undefined;
  const soon = () => {
    clearTimeout(waiting);
    waiting = setTimeout(askAgain, SOON);
  };
  return Disposable.from(
    own.onDidStart(soon),
    workspace.onDidChangeTextDocument(({ document }) => {
      if (knowledgeKind(document.uri.path) !== undefined) soon();
    }),
    // Other files, other jobs and settings show in the findings.
    languages.onDidChangeDiagnostics(({ uris }) => {
      if (uris.some((uri) => known.has(uri.toString()))) soon();
    }),
    workspace.onDidCloseTextDocument(({ uri }) => {
      if (previewOpen()) return;
      known.delete(uri.toString());
      rendered.delete(uri.toString());
    }),
    new Disposable(() => {
      clearTimeout(waiting);
      clearTimeout(redrawing);
      for (const { stop } of asking.values()) stop();
      known.clear();
      rendered.clear();
      mendlog = undefined;
    }),
  );
};

let words: PreviewWords | undefined;

const makeWords = (): PreviewWords => ({
  findings: (count) => (count === 1 ? l10n.t("1 finding") : l10n.t("{0} findings", count)),
  line: (line) => l10n.t("Line {0}", line),
  severity: {
    error: l10n.t("error"),
    warning: l10n.t("warning"),
    information: l10n.t("information"),
    hint: l10n.t("hint"),
  },
  suspects: l10n.t("Suspects, where to look first:"),
  share: shareWords,
  nextReading: l10n.t("Next reading:"),
  minutes: (minutes) =>
    minutes < 1 ? l10n.t("about {0} s", Math.round(60 * minutes)) : l10n.t("about {0} min", minutes),
  pictures: l10n.t("Drawn from the table above"),
});

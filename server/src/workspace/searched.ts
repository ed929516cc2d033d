import type { Knowledge } from "../judge/context";
import type { Library } from "../knowledge/library";
import type { LogDocument } from "../log/document";
import { summarise } from "../log/summary";
import { type TextRegion, textRegionsOf } from "../log/text-regions";
import { type Host, isMarkdown } from "./host";
import type { LogIndex } from "./log-index";
import type { LogViews } from "./log-views";
import type { Viewed } from "./open-logs";

/** All that is asked of the workspace by who looks through every file of it. */
export interface Searched {
  openLogs(): readonly Viewed[];
  /** Markdown files that are not being edited. */
  closedMarkdown(): Promise<readonly string[]>;
  /** Those of them that may be logs of this board, of any where none is given. */
  closedLogs(board: string | undefined): Promise<readonly string[]>;
  read(uri: string): Promise<string | undefined>;
  /** A log had to be parsed: it need not be again. */
  remember(doc: LogDocument): void;
  /** Where words stand in this text, if that is remembered. */
  stretches(uri: string, text: string, library: Library): readonly TextRegion[] | undefined;
}

/** The workspace of one service, to be looked through file by file. */
export function searched(host: Host, views: LogViews, index: LogIndex, knowledge: () => Knowledge): Searched {
  const closedMarkdown = async () =>
    (await host.list()).filter((uri) => isMarkdown(uri) && !views.open.has(uri));
  return {
    openLogs: () => views.all(),
    closedMarkdown,
    closedLogs: async (board) => (await closedMarkdown()).filter((uri) => index.mayBeOf(uri, board)),
    read: (uri) => host.read(uri),
    remember: (doc) => index.put(doc.uri, doc.text, knowledge().library, summarise(doc), textRegionsOf(doc)),
    stretches: (uri, text, library) => index.stretches(uri, text, library),
  };
}

import {
  type CancellationToken,
  type InlayHint,
  InlayHintKind,
  type InlayHintParams,
} from "vscode-languageserver";
import { defined } from "../base/defined";
import { nextTurn } from "../base/turns";
import { hintsOf, hintTooltip } from "../features/inlay-hints";
import type { Hint } from "../features/inlay-hints/hint";
import { boardAt, boardsOf } from "../features/view";
import type { Markdown } from "../text/markdown";
import { answering } from "./answer";
import { contentOf } from "./content";
import { spanOf } from "./convert";
import type { Session } from "./session";

/** What a hint needs to be found again when it is looked at. */
interface HintData {
  /** As the client wrote it. */
  readonly uri: string;
  readonly version: number;
  readonly kind: Hint["kind"];
  readonly at: number;
}

export function handleInlayHints(session: Session): void {
  const { connection, documents, service, can, ready } = session;
  if (!can.inlayHints) return;
  const { inlayHint } = connection.languages;
  const safely = answering(session);
  const tooltip = (value: Markdown) => contentOf(value, true);

  inlayHint.on(
    safely("Inlay hints", null, async ({ textDocument, range }: InlayHintParams, token) => {
      await ready;
      await nextTurn(token);
      const document = documents.get(textDocument.uri);
      const view = document && service.view(document.uri);
      if (!view) return null;
      const within = spanOf(document.lines, range);
      const wanted = session.preferences.shown(document.uri).hints;
      const hints = boardsOf(view).flatMap((one) => hintsOf(one, within, wanted));
      return hints.map((hint): InlayHint => {
        const told = can.resolvesHintTooltips ? undefined : hintTooltip(boardAt(view, hint.at), hint);
        const { kind, at, label } = hint;
        return defined({
          position: document.lines.positionAt(at),
          label,
          paddingLeft: true,
          kind: kind === "pin" ? InlayHintKind.Type : undefined,
          tooltip: told !== undefined ? tooltip(told) : undefined,
          data: { uri: textDocument.uri, version: document.version, kind, at } satisfies HintData,
        });
      });
    }),
  );

  inlayHint.resolve((hint: InlayHint, token: CancellationToken) =>
    safely("An inlay hint", hint, async (): Promise<InlayHint> => {
      await nextTurn(token);
      const data = hint.data as HintData | undefined;
      const document = data && documents.get(data.uri);
      // Of a text that has changed since, the place may be another reading's.
      const view =
        document && document.version === data.version ? service.view(document.uri, data.at) : undefined;
      const told = view && data && hintTooltip(view, data);
      return told === undefined ? hint : { ...hint, tooltip: tooltip(told) };
    })(hint, token),
  );
}

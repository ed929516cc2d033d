import { anyOf } from "../base/cancellation";
import { inTurns, nextTurn } from "../base/turns";
import {
  assistantNextReading,
  assistantReadings,
  judgeTyped,
  type TypedReading,
} from "../features/for-assistants";
import { boardsOf } from "../features/view";
import { TOOL_JUDGE, TOOL_NEXT, TOOL_READINGS } from "./custom-requests/for-assistants";
import { onOwn } from "./own-request";
import type { Session } from "./session";

/** Answers what the tools of an assistant ask. What they send is a model's writing, and may be anything. */
export function handleForAssistants(session: Session): void {
  const { documents, service, ready } = session;
  const viewOf = async (uri: string) => {
    // Before the board is read every verdict would be that there is none.
    await ready;
    const document = documents.get(uri);
    const view = document && service.view(document.uri);
    return view ? { document, view } : undefined;
  };

  onOwn(session, TOOL_READINGS, "An assistant's readings", async ({ uri, ref, from }) => {
    const found = await viewOf(uri);
    if (!found) return null;
    const { readings, ...rest } = assistantReadings(found.view, {
      ...(typeof ref === "string" ? { ref } : {}),
      ...(typeof from === "number" ? { from } : {}),
    });
    const { lines } = found.document;
    return {
      ...rest,
      readings: readings.map(({ at, ...reading }) => ({ ...reading, line: lines.positionAt(at).line + 1 })),
    };
  });

  onOwn(session, TOOL_JUDGE, "An assistant's verdicts", async ({ uri, procedure, board, readings }) => {
    const found = await viewOf(uri);
    return found
      ? judgeTyped(
          found.view,
          text(procedure) ?? "",
          text(board),
          (Array.isArray(readings) ? readings : []).map(typed),
        )
      : null;
  });

  onOwn(session, TOOL_NEXT, "An assistant's next reading", async ({ uri }, token) => {
    await ready;
    await nextTurn(token);
    const document = documents.get(uri);
    if (!document) return null;
    const over = anyOf(token, documents.superseded(document));
    await inTurns(service.prepare(document.uri, document.text), over);
    const now = service.view(document.uri);
    if (!now || !boardsOf(now).some(({ ctx }) => ctx.board)) return null;
    await session.diagnoses.make(document.uri, over);
    const view = service.view(document.uri);
    return (view && assistantNextReading(view)) ?? null;
  });
}

const text = (value: unknown): string | undefined =>
  typeof value === "string" ? value : typeof value === "number" ? String(value) : undefined;

function typed(sent: unknown): TypedReading {
  const fields = typeof sent === "object" && sent !== null ? (sent as Record<string, unknown>) : {};
  const named = (["ref", "pin", "rail", "net"] as const).flatMap((role) => {
    const own = text(fields[role]);
    return own === undefined ? [] : [[role, own] as const];
  });
  return { ...Object.fromEntries(named), value: text(fields.value) ?? "" };
}

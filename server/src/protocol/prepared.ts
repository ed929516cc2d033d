// Reading a log is the slow part of any answer about it: it is done in turns beforehand, so that keys in other logs are
// heard meanwhile, and long sections are read by another thread where there is one.
import type { CancellationToken } from "../base/cancellation";
import { memo } from "../base/memo";
import { inTurns } from "../base/turns";
import type { Service } from "../service";
import type { Documents, OpenDocument } from "./documents";

/** Milliseconds of reading that nobody feels. */
const AT_ONCE = 8;
/** A log that is typed in meanwhile is begun again so often; then the answer has waited long enough. */
const TRIES = 3;

export interface PreparedFrom {
  readonly service: Service;
  readonly documents: Documents;
}

/** Whether a document as it stands was read. */
const state = memo((_: OpenDocument) => ({ isRead: false }));

/**
 * Undefined where the log that a request is about can be read at once, and is then; else what resolves when it was.
 * @param params of any request
 * @throws Cancelled where nobody waits for it any longer
 */
export function prepared(
  params: unknown,
  { service, documents }: PreparedFrom,
  token: CancellationToken,
): Promise<void> | undefined {
  const uri = documentIn(params);
  const document = uri === undefined ? undefined : documents.get(uri);
  if (uri === undefined || !document || state(document).isRead) return undefined;
  const steps = service.prepare(document.uri, document.text);
  const until = performance.now() + AT_ONCE;
  for (;;) {
    const step = steps.next();
    if (step.done) {
      state(document).isRead = true;
      return undefined;
    }
    if (step.value instanceof Promise || performance.now() > until) break;
  }
  steps.return();
  return inTime(uri, service, documents, token);
}

async function inTime(
  uri: string,
  service: Service,
  documents: Documents,
  token: CancellationToken,
): Promise<void> {
  for (let left = TRIES; left > 0; left--) {
    const document = documents.get(uri);
    if (!document || state(document).isRead) return;
    await inTurns(service.prepare(document.uri, document.text), token);
    state(document).isRead = true;
  }
}

/** The client's uri of the document that a request names. */
function documentIn(params: unknown): string | undefined {
  const { textDocument } = (params ?? {}) as { readonly textDocument?: { readonly uri?: unknown } };
  return typeof textDocument?.uri === "string" ? textDocument.uri : undefined;
}

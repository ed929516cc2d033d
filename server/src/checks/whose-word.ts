// A finding that rests on what a part is says who said so, where that is not the board file.
import type { LogContext } from "../judge/context";
import { originOfPart } from "../judge/stated/origin";
import type { LogDocument } from "../log/document";
import type { Finding } from "./check";

/** The finding as it stands in the document, with whose word the part's number is; spans are of the document. */
export function withWhoseWord(finding: Finding, doc: LogDocument, ctx: LogContext): Finding {
  const { restsOn, ...rest } = finding;
  const part = restsOn === undefined ? undefined : ctx.board?.value.parts.get(restsOn);
  const origin = restsOn === undefined ? undefined : originOfPart(restsOn, doc, ctx);
  if (!origin || !part?.device) return rest;
  const whose = `${part.ref} is a ${part.device}, ${origin.words}.`;
  return {
    ...rest,
    more: [rest.more, whose].filter(Boolean).join(" "),
    related: [
      ...(rest.related ?? []),
      {
        uri: origin.uri,
        span: origin.span ?? { start: 0, end: 0 },
        message: `${part.ref} is a ${part.device} by these words`,
      },
    ],
  };
}

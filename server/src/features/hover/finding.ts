// What a finding rests on: its message says what to do, and whose word it is, the arithmetic and the net stand here.

import type { LogContext } from "../../judge/context";
import type { Net } from "../../knowledge/types";
import { code, joined, type Markdown, markdown, md } from "../../text/markdown";
import type { Span } from "../../text/span";
import { touches } from "../../text/span";
import { fewOf, netMembers } from "../shared/describe";

/** The parts of a finding that its message leaves out; spans of the file. */
export interface FindingAside {
  readonly code: string;
  readonly span: Span;
  readonly formula?: string | undefined;
  readonly more?: string | undefined;
  readonly source?: string | undefined;
  readonly net?: Net | undefined;
}

/**
 * What is beside the findings at a place, each part once; undefined where there is nothing.
 * @param told the finding's code whose parts stand there already
 */
export function besideFindings(
  findings: Iterable<FindingAside>,
  offset: number,
  told: string | undefined,
  ctx: LogContext,
): { readonly span: Span; readonly markdown: Markdown } | undefined {
  const lines = new Set<Markdown>();
  let span: Span | undefined;
  for (const found of findings) {
    if (!touches(found.span, offset) || found.code === told) continue;
    const own = linesOf(found, ctx);
    if (own.length > 0) span ??= found.span;
    for (const line of own) lines.add(line);
  }
  return span && { span, markdown: joined([...lines], "\n\n") };
}

const linesOf = ({ formula, more, source, net }: FindingAside, ctx: LogContext): Markdown[] => [
  ...(formula ? [code(formula)] : []),
  ...(more ? [md(more)] : []),
  ...(net ? [markdown`Net **${md(net.name)}**: ${fewOf(netMembers(net, ctx))}`] : []),
  ...(source ? [markdown`Source: ${md(source)}`] : []),
];

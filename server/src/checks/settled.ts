// Findings of before a repair that a later reading has answered stay to be seen, as a hint that says so.

import type { LogContext } from "../judge/context";
import type { LogDocument } from "../log/document";
import { type Answers, type SettledBy, settledIn } from "../review/timeline/settled";
import { type Finding, withOtherWords } from "./check";
import { checkOf } from "./registry";

/** The findings with those that are settled made light; the same list where none is. */
export function lightenSettled(
  doc: LogDocument,
  ctx: LogContext,
  found: readonly Finding[],
): readonly Finding[] {
  const answers = settledIn(doc, ctx);
  if (!answers) return found;
  return found.map((finding) => {
    const by = answerTo(finding, answers);
    return by ? lightened(finding, by, doc.uri) : finding;
  });
}

/** The later reading that answers a finding in the way its check names, if there is one. */
function answerTo(finding: Finding, answers: Answers): SettledBy | undefined {
  switch (checkOf(finding.code)?.settledBy) {
    case "later-reading":
      return answers.at(finding.span.start);
    case "later-reading-of-each-pin":
      return allOf(pinsOf(finding), answers);
    case undefined:
      return undefined;
  }
}

const pinsOf = ({ data }: Finding): readonly string[] =>
  (data as { pins?: string[] } | undefined)?.pins ?? [];

/** That of the last of them, where there is one for every pin. */
const allOf = (pins: readonly string[], answers: Answers): SettledBy | undefined =>
  pins.every((pin) => answers.ofPin(pin)) ? answers.ofPin(pins.at(-1) ?? "") : undefined;

const lightened = (finding: Finding, { reading, span }: SettledBy, uri: string): Finding => ({
  ...withOtherWords(finding, {
    cause: `Settled: ${reading.value.typed} after the repair.`,
    step: undefined,
    more: beside(finding),
  }),
  severity: "hint",
  related: [
    { uri, span, message: `within limits after the repair: ${reading.value.typed}` },
    ...(finding.related ?? []),
  ],
});

/** What it said of the cause and the next step is history, to be read where it is asked for. */
const beside = ({ cause, step, more }: Finding): string | undefined =>
  [cause, step, more].filter(Boolean).join(" ") || undefined;

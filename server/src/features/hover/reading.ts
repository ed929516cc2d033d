import type { LogContext } from "../../analysis/context";
import type { Judgement, Verdict } from "../../analysis/judge";
import { windowText } from "../../analysis/judge/compare";
import { expectedText } from "../../analysis/judge/expected-text";
import { sayUncertainty } from "../../analysis/judge/say";
import { code, fewOf, md, netMembers } from "../describe";

/** Never a colour alone: each verdict has its mark and its words. */
const MARKS: Readonly<Record<Verdict, string>> = {
  impossible: "✗ Cannot be a reading",
  "out-of-limits": "▲ Out of limits",
  suspect: "△ Suspect",
  "within-limits": "○ Within limits",
  unjudged: "– Not judged",
  "not-measured": "– Not measured",
};

/** The verdict with its arithmetic, its reference and what stands on the same net. */
export function judgementMarkdown(judgement: Judgement, ctx: LogContext): string {
  const { verdict, sentence, formula, reference, uncertainty, place, reading } = judgement;
  const ahead = verdict === "not-measured" ? expectedText(reading, ctx) : undefined;
  const facts = [
    formula === undefined ? undefined : code(formula),
    reference ? `Limits: ${windowText(reference)}, ${md(reference.of.replace(/,$/, ""))}` : undefined,
    reference ? `Source: ${md(reference.source)}` : undefined,
    reference && uncertainty
      ? `Uncertainty: ± ${sayUncertainty(uncertainty, reference.unit)} (${md(ctx.meter?.title ?? "last digit typed; no meter named")})`
      : undefined,
  ].filter(Boolean);
  const net = place?.net;
  return [
    `**${MARKS[verdict]}**`,
    md(ahead ?? sentence),
    ...(facts.length > 0 ? [facts.map((fact) => `- ${fact}`).join("\n")] : []),
    ...(net ? [`Net **${md(net.name)}**: ${fewOf(netMembers(net, ctx))}`] : []),
  ].join("\n\n");
}

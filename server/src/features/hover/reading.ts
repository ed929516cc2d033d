import { conformanceProbability } from "../../compute/measurement/conformity";
import type { Verdict } from "../../compute/verdict";
import type { Judgement, Reference } from "../../judge";
import { extentOf, referenceName, windowText } from "../../judge/compare";
import type { LogContext } from "../../judge/context";
import { expectedText } from "../../judge/expected-text";
import { VERDICT_MARKS } from "../../pictures/marks";
import { sayUncertainty } from "../../quantity/format-value";
import { code, joined, type Markdown, markdown, md } from "../../text/markdown";
import { inWords } from "../../text/saying";
import { fewOf, netMembers } from "../shared/describe";

/** Never a colour alone: each verdict has its mark and its words. */
const markOf = (verdict: Verdict): Markdown => {
  const { glyph, words } = VERDICT_MARKS[verdict];
  return markdown`${md(glyph)} ${md(words)}`;
};

/** k = 2 on one side: common practice after JCGM 106. */
const SURE = 0.975;

const NO_SPECIFICATION: ReadonlySet<Reference["kind"]> = new Set([
  "family",
  "physics",
  "reference-job",
  "shops",
]);

/**
 * How likely the true value lies within the limits, for limits that are a specification and not a usual range
 * (JCGM 106: normal, u = U / 2).
 */
function conformance({ reading, reference, uncertainty }: Judgement): string | undefined {
  const extent = extentOf(reading.value);
  if (!extent || !reference || !uncertainty || NO_SPECIFICATION.has(reference.kind)) return undefined;
  if (extent.low !== extent.high || !Number.isFinite(extent.low)) return undefined;
  const result = conformanceProbability(extent.low, uncertainty / 2, reference);
  if (!result.ok) return undefined;
  const { within, outside } = result.value;
  return within >= 0.5
    ? `${within >= SURE ? "Within the limits, even allowing for meter error" : "Probably within the limits"}: ${percent(within, outside)} (JCGM 106)`
    : `${outside >= SURE ? "Outside the limits, even allowing for meter error" : "Probably outside the limits"}: ${percent(outside, within)} (JCGM 106)`;
}

/** Never 100 %: what is left is said as "over". */
const percent = (most: number, rest: number): string =>
  rest < 0.001 ? "over 99.9 %" : `${(100 * most).toFixed(1)} %`;

/** Verdicts that come with a finding. */
const FINDINGS: readonly Verdict[] = ["impossible", "out-of-limits", "suspect"];

/** The verdict with its arithmetic, its reference and what stands on the same net. */
export function judgementMarkdown(judgement: Judgement, ctx: LogContext): Markdown {
  const { verdict, says, formula, reference, uncertainty, place, reading } = judgement;
  const ahead = verdict === "not-measured" ? expectedText(reading, ctx) : undefined;
  const words = ahead === undefined ? inWords(says) : `Not measured yet. ${ahead}`;
  const source = says.source ?? reference?.source;
  const likely = conformance(judgement);
  const facts = [
    formula === undefined ? undefined : code(formula),
    reference ? markdown`Limits: ${md(windowText(reference))}, ${md(referenceName(reference))}` : undefined,
    source === undefined ? undefined : markdown`Source: ${md(source)}`,
    reference && uncertainty
      ? markdown`Uncertainty: ± ${md(sayUncertainty(uncertainty, reference.unit))}, k = 2 (${md(ctx.meter?.title ?? "last digit typed; no meter named")})`
      : undefined,
    likely === undefined ? undefined : md(likely),
  ].filter((fact) => fact !== undefined);
  const net = place?.net;
  const told = md(words);
  const beside = says.more === undefined || says.more === "" ? [] : [md(says.more)];
  // Editors show the finding itself above, and a hover has few lines before it must be scrolled: the same sentence
  // comes last there, for editors and settings that show no finding.
  const found = FINDINGS.includes(verdict) && facts.length > 0;
  return joined(
    [
      markdown`**${markOf(verdict)}**`,
      ...(found ? [] : [told]),
      ...(facts.length > 0
        ? [
            joined(
              facts.map((fact) => markdown`- ${fact}`),
              "\n",
            ),
          ]
        : []),
      ...(net ? [markdown`Net **${md(net.name)}**: ${fewOf(netMembers(net, ctx))}`] : []),
      ...(found ? [told] : []),
      ...beside,
    ],
    "\n\n",
  );
}

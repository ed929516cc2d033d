// What the owner must look at before the board is powered in the machine.

import { crossingsToClear } from "../../compute/matrix/crossings";
import { shapeOf } from "../../compute/matrix/shape";
import { judgeBlock } from "../../judge";
import { tablesOf } from "../../log/document";
import { failedLines } from "../../review/matrix/failed-lines";
import { defeatedInputs } from "../../review/parts/defeated";
import { provingReview } from "../../review/proving";
import { inWords } from "../../text/saying";
import { limitsText, readingText } from "./limits";
import type { ReportSource } from "./model";
import { partDescription } from "./places";
import { fewStatements } from "./words";

/** The most urgent first. Text of the shop file comes last: it is the same for every job. */
export function beforePower(source: ReportSource): readonly string[] {
  return [
    ...new Set([
      ...defeated(source),
      ...failedItems(source),
      ...switches(source),
      ...coils(source),
      ...unproven(source),
      ...ofShop(source),
    ]),
  ];
}

/** What protects people comes before what works. */
const defeated = ({ doc, ctx }: ReportSource): string[] =>
  defeatedInputs(doc, ctx).map(
    ({ names, by }) =>
      `Out of action since this work: ${names.join(", ")}${by ? ` (modification "${by.title}")` : ""}. The machine no longer reacts to it, and nobody who opens the cabinet can see that. Have it put back. Local codes may forbid running the machine like this.`,
  );

function failedItems({ doc, ctx }: ReportSource): string[] {
  return provingReview(doc, ctx)
    .items.filter(({ state }) => state === "failed")
    .map(
      ({ item, reason, said }) =>
        `Do not rely on this: "${item.title}" failed when it was last tried (${reason ?? fewStatements(said.map(({ text }) => text))}). Ask the shop before the board is powered.`,
    );
}

/** Switches where the failed rows and columns cross. */
function switches({ doc, ctx }: ReportSource): string[] {
  return [...(ctx.board?.value.matrices.values() ?? [])].flatMap((matrix) => {
    const evidence = failedLines(doc, ctx, matrix);
    const numbers = (kind: "row" | "column"): number[] =>
      evidence.filter(({ line }) => line.kind === kind).map(({ line }) => line.number);
    const crossings = crossingsToClear(shapeOf(matrix), { rows: numbers("row"), columns: numbers("column") });
    return crossings.ok && crossings.cells.length > 0
      ? [`${matrix.title}: ${inWords(crossings.says)} ${crossings.caution}`]
      : [];
  });
}

/** Coils are in the machine: one that would destroy its driver does so again. */
function coils(source: ReportSource): string[] {
  const bad: string[] = [];
  for (const { block, table } of tablesOf(source.doc)) {
    if (!table.kind.inMachine) continue;
    const judgements = judgeBlock(block, source.ctx);
    for (const reading of table.readings) {
      const judgement = judgements.get(reading);
      if (judgement?.verdict !== "out-of-limits") continue;
      const { item, ref, pin } = reading.subject;
      const place = ref ? `${partDescription(ref.text, source)}${pin ? ` pin ${pin.text}` : ""}` : undefined;
      const name = item ? `${item.text}${place ? `, at ${place}` : ""}` : (place ?? "a coil");
      const limits = limitsText(judgement);
      bad.push(
        `A coil in the machine reads ${readingText(reading)}${limits === undefined ? "" : `, outside ${limits}`}: ${name}. Have it looked at before the board drives it, with the mains off and the supplies discharged; local codes and licensed practice apply.`,
      );
    }
  }
  return bad;
}

/** What the log gives a reason for stands by itself; the rest is one thing to do. */
function unproven({ doc, ctx }: ReportSource): string[] {
  const items = provingReview(doc, ctx).items.filter(({ state }) => state === "unproven");
  const bare = items.filter(({ reason }) => reason === undefined).map(({ item }) => `"${item.title}"`);
  return [
    ...items.flatMap(({ item, reason }) =>
      reason === undefined
        ? []
        : [
            `"${item.title}" was not proven here (${reason}): watch it when the board runs for the first time.`,
          ],
    ),
    ...(bare.length === 0
      ? []
      : [
          `Not proven here: ${bare.join(", ")}. Watch ${bare.length === 1 ? "it" : "each"} when the board runs for the first time.`,
        ]),
  ];
}

/** Keys of the shop file's report section that are said before power. */
export const BEFORE_POWER = /^before/i;

const ofShop = ({ ctx }: ReportSource): string[] =>
  [...(ctx.shop?.value.report ?? [])].filter(([key]) => BEFORE_POWER.test(key)).map(([, text]) => text);

// The owner's report of one job. Nothing in it says of a part more than was measured.
import { defined } from "../../base/defined";
import { provingReview } from "../../review/proving";
import { BEFORE_POWER, beforePower } from "./before-power";
import { chartsIn } from "./charts";
import { foundIn } from "./found";
import { ownerHtml } from "./html";
import { inlineImages, type ReadImage } from "./images";
import { ownerJson } from "./json";
import { ownerMarkdown } from "./markdown";
import type { Fact, OwnerReport, ProvingLine, ReportSource } from "./model";
import { imagesIn, notesIn } from "./prose";
import { quoteIn } from "./quote";
import { fewStatements } from "./words";
import { doneIn, fittedIn } from "./work";

export { ownerHtml } from "./html";
export { inlineImages, type ReadImage } from "./images";
export { ownerJson } from "./json";
export { ownerMarkdown } from "./markdown";
export type { OwnerReport, ReportSource } from "./model";

export const REPORT_FORMATS = ["html", "md", "json"] as const;
export type ReportFormat = (typeof REPORT_FORMATS)[number];

const WRITERS: Readonly<Record<ReportFormat, (report: OwnerReport) => string>> = {
  html: ownerHtml,
  md: ownerMarkdown,
  json: ownerJson,
};

/** The whole way from a log to a report's text. Pictures are read for the page only: the others name them. */
export async function writeOwnerReport(
  source: ReportSource,
  format: ReportFormat,
  read: ReadImage,
): Promise<string> {
  const report = ownerReport(source);
  return WRITERS[format](format === "html" ? await inlineImages(report, read) : report);
}

/** Pictures come without their bytes: see `inlineImages`. */
export function ownerReport(source: ReportSource): OwnerReport {
  const { front, ctx } = source;
  const shop = ctx.shop?.value;
  return defined({
    format: 1,
    title: titleOf(source),
    shop: shop?.name,
    ...draftOf(source),
    facts: [...factsOf(source), ...provenFact(source)],
    symptoms: (front.symptoms ?? []).map((id) => ctx.board?.value.symptoms.get(id)?.title ?? id),
    found: foundIn(source),
    done: doneIn(source),
    fitted: fittedIn(source),
    ...quoteIn(source),
    charts: chartsIn(source),
    chartsNote:
      "A reading can show that something is faulty. Readings with the power off cannot show that a part is sound: within limits means only that they found nothing against it.",
    proving: provingLines(source),
    beforePower: beforePower(source),
    cautions: [...new Set([...GENERAL, ...(ctx.board?.value.cautions ?? [])])],
    notes: notesIn(source),
    images: imagesIn(source),
    closing: closingOf(source),
  });
}

/** Said on every report: the reader may never have opened such a machine. */
const GENERAL = [
  "The machine carries mains voltage and keeps charge in its capacitors after it is switched off. Isolate it before the board is plugged in or out; mains work is for those licensed to do it where you are, by local codes.",
];

const titleOf = ({ front, ctx }: ReportSource): string => {
  const board = namedBoard(ctx)?.title ?? front.board ?? "Control board";
  return `Repair report: ${board}${front.serial === undefined ? "" : ` ${front.serial}`}`;
};

function draftOf({ front }: ReportSource): { draft?: string } {
  if (front.stage === "returned") return {};
  const at = front.stage === undefined ? "The log names no stage" : `The job stands at "${front.stage}"`;
  return { draft: `${at}: this is a draft, and the board is not to be powered on the strength of it.` };
}

function factsOf({ front, ctx }: ReportSource): readonly Fact[] {
  const board = namedBoard(ctx);
  const revision =
    front.revision === undefined
      ? undefined
      : [front.revision, board?.revisions.get(front.revision)].filter(Boolean).join(", ");
  const all: [string, string | undefined][] = [
    ["Job", front.job],
    ["Owner", front.owner],
    ["Board", board ? [board.title, board.maker].filter(Boolean).join(", ") : front.board],
    ["Revision", revision],
    ["Serial number", front.serial],
    ["Received", front.received],
    ["Returned", front.returned],
    ["Comes back from job", front.comebackOf],
    [
      "Program",
      front.romSet === undefined ? undefined : (board?.romSets.get(front.romSet)?.title ?? front.romSet),
    ],
    ["Measured with", ctx.meter?.title],
  ];
  return all.flatMap(([label, text]) => (text === undefined || text === "" ? [] : [{ label, text }]));
}

/** How much of the board's list is proven, in one line at the top. */
function provenFact({ doc, ctx }: ReportSource): readonly Fact[] {
  const { items } = provingReview(doc, ctx);
  if (items.length === 0) return [];
  const count = (wanted: ProvingLine["state"]): number =>
    items.filter(({ state }) => state === wanted).length;
  const rest = [
    ...(count("failed") > 0 ? [`${count("failed")} failed`] : []),
    ...(count("unproven") > 0 ? [`${count("unproven")} not proven`] : []),
  ];
  return [{ label: "Proven", text: [`${count("proven")} of ${items.length} items`, ...rest].join("; ") }];
}

function provingLines({ doc, ctx }: ReportSource): readonly ProvingLine[] {
  const { items, beside } = provingReview(doc, ctx);
  return [
    ...items.map(({ item, state, said, coverage, reason }): ProvingLine => {
      const counted =
        coverage?.total === undefined || state !== "unproven"
          ? []
          : [`${coverage.done} of ${coverage.total} ${coverage.what}`];
      const words =
        state === "unproven"
          ? [...counted, ...(reason === undefined ? [] : [reason])]
          : [
              ...said.map(({ text }) => text),
              ...(state === "failed" && reason !== undefined ? [reason] : []),
            ];
      return { item: item.title, state, said: fewStatements(words) || "nothing in the log shows it" };
    }),
    ...beside.map(
      ({ item, result, note }): ProvingLine => ({
        item,
        state: "recorded",
        said: [`the log says "${result}"`, ...(note === undefined ? [] : [note])].join("; "),
      }),
    ),
  ];
}

/** The warranty first, then whatever else the shop file has to say. */
function closingOf({ ctx }: ReportSource): readonly Fact[] {
  const texts = [...(ctx.shop?.value.report ?? [])].filter(([key]) => !BEFORE_POWER.test(key));
  const isWarranty = ([key]: readonly [string, string]): number => (/^warranty$/i.test(key) ? 0 : 1);
  return texts
    .sort((a, b) => isWarranty(a) - isWarranty(b))
    .map(([key, text]) => ({ label: sayKey(key), text }));
}

const sayKey = (key: string): string => {
  const words = key.replace(/[-_]+/g, " ").trim();
  return words.charAt(0).toUpperCase() + words.slice(1);
};

/** A board that no log names is one the owner knows better by its job. */
const namedBoard = ({ board }: ReportSource["ctx"]) => (board?.value.id === "" ? undefined : board?.value);

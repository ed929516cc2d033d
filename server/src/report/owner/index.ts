// The owner's report of one job. Nothing in it says of a part more than was measured.
import { defined } from "../../base/defined";
import { warrantyUntil } from "../../review/comeback/warranty";
import { provingReview } from "../../review/proving";
import type { PrintedPage } from "../../text/printable";
import { BEFORE_POWER, beforePower } from "./before-power";
import { chartsIn } from "./charts";
import type { ReportFormat } from "./formats";
import { foundIn } from "./found";
import { ownerHtml } from "./html";
import { inlineImages, type ReadImage } from "./images";
import { ownerJson } from "./json";
import { ownerMarkdown } from "./markdown";
import type { Fact, OwnerReport, ProvingLine, ReportSource } from "./model";
import { imagesIn, notesIn } from "./prose";
import { quoteIn } from "./quote";
import { reportOfSet } from "./set";
import { fewStatements } from "./words";
import { doneIn, fittedIn } from "./work";

export { REPORT_FORMATS, type ReportFormat } from "./formats";
export { ownerHtml } from "./html";
export { inlineImages, type ReadImage } from "./images";
export { ownerJson } from "./json";
export { ownerMarkdown } from "./markdown";
export type { OwnerReport, ReportSource } from "./model";

const WRITERS: Readonly<Record<ReportFormat, (report: OwnerReport) => PrintedPage>> = {
  html: ownerHtml,
  md: ownerMarkdown,
  json: ownerJson,
};

/** The whole way from a log to a report's text. Pictures are read for the page only: the others name them. */
export async function writeOwnerReport(
  source: ReportSource,
  format: ReportFormat,
  read: ReadImage,
  personal = format !== "json",
): Promise<PrintedPage> {
  // Data goes to other programs and other people: who the owner is stays out of it.
  const report = ownerReport(source, personal);
  return WRITERS[format](format === "html" ? await inlineImages(report, read) : report);
}

/**
 * Pictures come without their bytes: see `inlineImages`.
 * @param personal whether the owner's name is in it
 */
export function ownerReport(source: ReportSource, personal = true): OwnerReport {
  const all = [source, ...(source.others ?? [])].map((one) => [one, reportOfOne(one, personal)] as const);
  return reportOfSet(all) ?? reportOfOne(source, personal);
}

function reportOfOne(source: ReportSource, personal: boolean): OwnerReport {
  const { front, ctx } = source;
  const shop = ctx.shop?.value;
  return defined({
    format: 1,
    title: titleOf(source),
    shop: shop?.name,
    ...draftOf(source),
    facts: [...factsOf(source, personal), ...provenFact(source)],
    complaint: front.complaint,
    symptoms: (front.symptoms ?? []).map((id) => ctx.board?.value.symptoms.get(id)?.title ?? id),
    found: foundIn(source),
    done: doneIn(source),
    fitted: fittedIn(source),
    ...quoteIn(source),
    charts: chartsIn(source),
    chartsNote:
      "A reading can show that something is faulty. Readings with the power off cannot show that a part is sound: within limits means not disproved, no more.",
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
  "The machine carries mains voltage and keeps charge in its capacitors after it is switched off. Isolate it before you plug the board in or out. Mains work is for licensed people only; local codes apply.",
];

const titleOf = ({ front, ctx }: ReportSource): string => {
  const board = namedBoard(ctx)?.title ?? front.board ?? "Control board";
  return `Repair report: ${board}${front.serial === undefined ? "" : ` ${front.serial}`}`;
};

function draftOf({ front }: ReportSource): { draft?: string } {
  if (front.stage === "returned") return {};
  const at = front.stage === undefined ? "The log names no stage" : `The job is at "${front.stage}"`;
  return { draft: `${at}: this is a draft. Do not power the board because of it.` };
}

function factsOf({ front, ctx }: ReportSource, personal: boolean): readonly Fact[] {
  const board = namedBoard(ctx);
  const revision =
    front.revision === undefined
      ? undefined
      : [front.revision, board?.revisions.get(front.revision)].filter(Boolean).join(", ");
  const all: [string, string | undefined][] = [
    ["Job", front.job],
    ["Owner", personal ? front.owner : undefined],
    ["Board", board ? [board.title, board.maker].filter(Boolean).join(", ") : front.board],
    ["Revision", revision],
    ["Serial number", front.serial],
    ["Received", front.received],
    ["Returned", front.returned],
    ["Comeback of job", front.comebackOf],
    ["Warranty until", warrantyUntil(front, ctx.shop?.value)],
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

// One report of a job of several boards: each log is told by itself, and what is said of a place says of which board.

import { defined } from "../../base/defined";
import { boardTitle } from "../../judge/context";
import type { OwnerReport, ReportSource } from "./model";

/** "Regatta driver 00477": what the owner knows a board by. */
export const boardWords = ({ front, ctx }: ReportSource): string =>
  [boardTitle(ctx, front) || "Control board", front.serial].filter(Boolean).join(" ");

/** What a line calls it by: the short name that a log about several boards gives it, else all of its words. */
export const shortWords = (source: ReportSource): string => source.doc.ofSet?.name ?? boardWords(source);

/** All boards of the job in one. Of texts that are the same for each there is one. */
export function reportOfSet(all: readonly (readonly [ReportSource, OwnerReport])[]): OwnerReport | undefined {
  const first = all[0]?.[1];
  if (!first || all.length === 1) return first;
  const named = all.map(([source, report]) => {
    const name = shortWords(source);
    const words = boardWords(source);
    // Said once, where the report says which boards it is of.
    return { name, words, told: name === words ? words : `${name}: ${words}`, report };
  });
  const each = <T>(of: (report: OwnerReport, name: string) => readonly T[]): T[] =>
    named.flatMap(({ name, report }) => of(report, name));
  const drafts = named.filter(({ report }) => report.draft !== undefined);
  const isShared = (text: string): boolean =>
    named.every(({ report }) => report.beforePower.includes(text) || report.cautions.includes(text));
  const isOfAll = (text: string): boolean => named.every(({ report }) => report.symptoms.includes(text));
  return defined<OwnerReport>({
    ...first,
    title: `Repair report: ${named.map(({ words }) => words).join(", ")}`,
    draft:
      drafts.length === 0
        ? undefined
        : drafts.length === named.length && drafts.every(({ report }) => report.draft === first.draft)
          ? first.draft
          : drafts.map(({ name, report }) => `${name}: ${report.draft}`).join(" "),
    facts: [
      ...first.facts.map((fact) =>
        fact.label === "Board" && named[0]!.name !== named[0]!.words
          ? { ...fact, text: `${named[0]!.name}: ${fact.text}` }
          : fact,
      ),
      ...named.slice(1).map(({ told, report }) => {
        const proven = report.facts.find(({ label }) => label === "Proven")?.text;
        return { label: "With it", text: [told, proven && `proven: ${proven}`].filter(Boolean).join(", ") };
      }),
    ],
    // What no board's file lists is said of the set, once.
    symptoms: [
      ...each((report, name) =>
        report.symptoms.filter((text) => !isOfAll(text)).map((text) => `${name}: ${text}`),
      ),
      ...first.symptoms.filter(isOfAll),
    ],
    found: each((report, name) => report.found.map((one) => ({ ...one, where: `${name}: ${one.where}` }))),
    done: each((report, name) => report.done.map((one) => ({ ...one, where: `${name}: ${one.where}` }))),
    fitted: each((report, name) => report.fitted.map((one) => ({ ...one, where: `${name}: ${one.where}` }))),
    // What the set costs is on its bill.
    quote: undefined,
    charts: each((report, name) => report.charts.map((one) => ({ ...one, title: `${name}: ${one.title}` }))),
    proving: each((report, name) => report.proving.map((one) => ({ ...one, item: `${name}: ${one.item}` }))),
    beforePower: [
      ...each((report, name) =>
        report.beforePower.filter((text) => !isShared(text)).map((text) => `${name}: ${text}`),
      ),
      ...first.beforePower.filter(isShared),
    ],
    cautions: [...new Set(each((report) => report.cautions))],
    notes: each((report) => report.notes),
    images: each((report) => report.images),
  });
}

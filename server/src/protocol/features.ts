// Which feature answers for which kind of file. A document that is neither a log nor a knowledge file gets nothing,
// and nothing is read for it.
import { type Lens, type LensTitle, lensesOf, lensTitle } from "../features/code-lens";
import { completeDigits, completeLetters, completeLog } from "../features/completion";
import { completeImages, imageCellAt } from "../features/completion/images";
import { definitionInLog } from "../features/definition";
import { type Highlight, highlightsAt } from "../features/document-highlight";
import { foldingRanges } from "../features/folding";
import { formatTables } from "../features/format";
import { hoverLog, wantsDiagnosis } from "../features/hover";
import {
  completeKnowledge,
  completeNumbered,
  defineKnowledge,
  foldsOfKnowledge,
  highlightsInKnowledge,
  hoverKnowledge,
  type KnowledgeFile,
  selectionsInKnowledge,
  symbolsOfKnowledge,
  tokensInKnowledge,
} from "../features/knowledge";
import { type Link, linksOfKnowledge, linksOfLog } from "../features/links";
import { wantsPartsList, writePartsList } from "../features/parts-list";
import { refactorsAt } from "../features/refactor";
import { selectionsAt } from "../features/selection-range";
import { type Token, tokensOf } from "../features/semantic-tokens";
import { type SuspectsSection, writeSuspects } from "../features/shared/diagnosis";
import { type RenameTarget, subjectInKnowledge, subjectInLog } from "../features/shared/mentions";
import { type Signature, signatureAt } from "../features/signature";
import { symbolsOf } from "../features/symbols";
import type { Completion, Definition, DocumentSymbol, Fold, Hover, Refactor } from "../features/types";
import { boardsOf, type LogView } from "../features/view";
import type { JobLog } from "../log/peek";
import type { Service } from "../service";
import type { TextEdit } from "../text/edits";
import type { Span } from "../text/span";

/** What can be asked at a place or of a whole file, by the kind of file. */
function answer<R>(
  service: Service,
  uri: string,
  ofLog: (view: LogView) => R,
  ofKnowledge: (file: KnowledgeFile) => R,
  /** The place that is asked about; without one it is the whole file. */
  at?: number,
): R | undefined {
  const file = service.knowledgeFile(uri);
  if (file) return ofKnowledge(file);
  const view = service.view(uri, at);
  return view && ofLog(view);
}

const isLetter = (typed: string | undefined): boolean => typed !== undefined && /^\p{L}$/u.test(typed);

const isDigit = (typed: string | undefined): boolean => typed !== undefined && /^\d$/.test(typed);

/**
 * @param typed the character that brought the question up, where it was one. In a log digits only ask for readings, letters for
 * names, and a point for nothing; in a board file both ask for what has a number
 */
export const completionsAt = (
  service: Service,
  uri: string,
  offset: number,
  typed?: string,
): readonly Completion[] =>
  answer(
    service,
    uri,
    (view) =>
      typed === "."
        ? []
        : isDigit(typed)
          ? completeDigits(view, offset)
          : isLetter(typed)
            ? completeLetters(view, offset)
            : completeLog(view, offset),
    (file) =>
      typed === "." || isDigit(typed) ? completeNumbered(file, offset) : completeKnowledge(file, offset),
    offset,
  ) ?? [];

/** True in a cell that names an image file. */
export function namesImage(service: Service, uri: string, offset: number): boolean {
  const view = service.view(uri, offset);
  return view !== undefined && imageCellAt(view, offset) !== undefined;
}

export function romImagesAt(
  service: Service,
  uri: string,
  offset: number,
  paths: readonly string[],
): readonly Completion[] {
  const view = service.view(uri, offset);
  return view ? completeImages(view, offset, paths) : [];
}

export const hoverAt = (service: Service, uri: string, offset: number): Hover | undefined =>
  answer(
    service,
    uri,
    (view) => hoverLog(view, offset, service.findings(uri)),
    (file) => hoverKnowledge(file, offset),
    offset,
  );

/** True where a hover tells what a diagnosis found, which is to be made in steps beforehand. */
export function hoverDiagnoses(service: Service, uri: string, offset: number): boolean {
  const view = service.view(uri, offset);
  return view !== undefined && wantsDiagnosis(view, offset);
}

export const definitionAt = (service: Service, uri: string, offset: number): Definition | undefined =>
  answer(
    service,
    uri,
    (view) => definitionInLog(view, offset),
    (file) => defineKnowledge(file, offset),
    offset,
  );

export const linksIn = (service: Service, uri: string, logs: ReadonlyMap<string, JobLog>): readonly Link[] =>
  answer(service, uri, (view) => linksOfLog(view, logs), linksOfKnowledge) ?? [];

/** Knowledge files have hovers on their keys; only logs are typed cell by cell. */
export function signatureIn(service: Service, uri: string, offset: number): Signature | undefined {
  const view = service.view(uri, offset);
  return view && signatureAt(view, offset);
}

/** The thing named at a place, whose other mentions may be asked for. */
export const subjectAt = (service: Service, uri: string, offset: number): RenameTarget | undefined =>
  answer(
    service,
    uri,
    (view) => subjectInLog(view, offset),
    (file) => subjectInKnowledge(file, offset),
    offset,
  );

/** Only logs have anything to be inserted so far. */
export const refactorsIn = (service: Service, uri: string, selected: Span): readonly Refactor[] =>
  answer<readonly Refactor[]>(
    service,
    uri,
    (view) => refactorsAt(view, selected),
    () => [],
    selected.start,
  ) ?? [];

/** True where some of them rest on a diagnosis, which is to be made in steps beforehand. */
export function refactorsDiagnose(service: Service, uri: string, selected: Span): boolean {
  const view = service.view(uri, selected.start);
  return view !== undefined && wantsPartsList(view, selected);
}

export const symbolsIn = (service: Service, uri: string): readonly DocumentSymbol[] =>
  answer(service, uri, symbolsOf, symbolsOfKnowledge) ?? [];

export const foldsIn = (service: Service, uri: string): readonly Fold[] =>
  answer(service, uri, foldingRanges, foldsOfKnowledge) ?? [];

export const selectionsIn = (service: Service, uri: string, offset: number): readonly Span[] | undefined =>
  answer(
    service,
    uri,
    (view) => selectionsAt(view, offset),
    (file) => selectionsInKnowledge(file, offset),
    offset,
  );

export const highlightsIn = (
  service: Service,
  uri: string,
  offset: number,
): readonly Highlight[] | undefined =>
  answer(
    service,
    uri,
    (view) => highlightsAt(view, offset),
    (file) => highlightsInKnowledge(file, offset),
    offset,
  );

/** @param within only those that touch this stretch */
export const tokensIn = (service: Service, uri: string, within?: Span): readonly Token[] | undefined =>
  answer<readonly Token[]>(
    service,
    uri,
    (view) => (view.set ? inOrder(view.set.flatMap((one) => tokensOf(one, within))) : tokensOf(view, within)),
    (file) =>
      tokensInKnowledge(file).filter(
        ({ span }) => !within || (span.start < within.end && span.end > within.start),
      ),
  );

export function lensesIn(service: Service, uri: string): readonly Lens[] {
  const view = service.view(uri);
  if (!view) return [];
  return view.set ? inOrder(view.set.flatMap(lensesOf), ({ of }) => of) : lensesOf(view);
}

/** What the boards of a set give, by place; what each of them gives for the front matter counts once. */
function inOrder<T extends { readonly span: Span }>(
  all: readonly T[],
  kind: (one: T) => string = () => "",
): T[] {
  const seen = new Set<string>();
  return [...all]
    .sort((a, b) => a.span.start - b.span.start)
    .filter((one) => {
      const key = `${one.span.start} ${kind(one)}`;
      return !seen.has(key) && seen.add(key);
    });
}

export function lensTitleIn(service: Service, uri: string, lens: Lens): LensTitle | undefined {
  const view = service.view(uri, lens.span.start);
  return view && lensTitle(view, lens);
}

/** Only the tables of logs are put in line: undefined for any other document, which others format. */
export function formattingOf(service: Service, uri: string, within?: Span): readonly TextEdit[] | undefined {
  const view = service.knowledgeFile(uri) ? undefined : service.view(uri);
  return view && formatTables(view, within);
}

/** The edits that write the suspects into a log, a section a board, or why there are none; undefined for what is no log. */
export const suspectsEdit = (service: Service, uri: string): WrittenAll | undefined =>
  writtenFor(service.view(uri), writeSuspects);

/** The same for the list of parts. */
export const partsListEdit = (service: Service, uri: string): WrittenAll | undefined =>
  writtenFor(service.view(uri), writePartsList);

type WrittenAll =
  | { readonly ok: true; readonly edits: readonly TextEdit[] }
  | { readonly ok: false; readonly reason: string };

function writtenFor(
  view: LogView | undefined,
  write: (view: LogView) => SuspectsSection,
): WrittenAll | undefined {
  if (!view) return undefined;
  const all = boardsOf(view).map(write);
  const edits = all.flatMap((one) => (one.ok && one.edit ? [one.edit] : []));
  const refused = all.find((one) => !one.ok);
  return edits.length === 0 && refused && !refused.ok ? refused : { ok: true, edits };
}

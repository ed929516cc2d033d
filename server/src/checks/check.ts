// What a check is. One file a check, beside this one: its documentation, its examples and its fix stand with it.

import type { Judgement } from "../judge";
import type { Knowledge, Known, LogContext } from "../judge/context";
import type { FrontMatter } from "../knowledge/load-front-matter";
import type { Problem } from "../knowledge/loaded";
import type { Net } from "../knowledge/types";
import type { LogDocument } from "../log/document";
import type { LogBlock, Reading } from "../log/model";
import type { RelatedJobs } from "../review/comeback";
import type { TextEdit } from "../text/edits";
import { inWords, type Saying } from "../text/saying";
import type { Span } from "../text/span";
import type { CheckCode } from "./codes";
import type { BadExample } from "./example";

export type { CheckCode } from "./codes";

/** How much a finding weighs, by the words of the protocol, the gravest first. */
export type Severity = "error" | "warning" | "information" | "hint";

export interface RelatedPlace {
  readonly uri: string;
  readonly span: Span;
  readonly message: string;
}

/**
 * What a check says of one place. Spans are of the block for block checks, of the file for all others. Its parts stay apart;
 * `message` is what they make together, without what is only beside them.
 */
export interface Finding extends Saying {
  readonly code: CheckCode;
  readonly severity: Severity;
  readonly span: Span;
  readonly message: string;
  /** The comparison with its numbers: "1.42 V > 0.7 V + 0.01 V". */
  readonly formula?: string | undefined;
  /** The net that the place is on. */
  readonly net?: Net | undefined;
  readonly related?: readonly RelatedPlace[];
  readonly tags?: readonly ("unnecessary" | "deprecated")[];
  /** What the check's fix needs to know; plain data. */
  readonly data?: unknown;
  /** Designator of the part whose number it rests on: where that is a log's word, the finding says whose and where. */
  readonly restsOn?: string;
}

/** A finding as a check writes it; the registry adds the code, the severity and the words. */
export type Draft = Omit<Finding, "code" | "severity" | "message"> & { readonly severity?: Severity };

/** The finding with other parts, and the message that they make. */
export function withOtherWords(finding: Finding, parts: Partial<Saying>): Finding {
  const now = { ...finding, ...parts };
  return { ...now, message: inWords(now) };
}

/** Edits of another file than the finding's; spans of `text`, which it has as they are made. */
export interface OtherEdits {
  readonly uri: string;
  readonly text: string;
  readonly edits: readonly TextEdit[];
}

export interface NewFile {
  readonly uri: string;
  readonly text: string;
}

/** One way to mend what a finding complains of, offered beside it; nothing is changed until somebody takes it. */
export interface Fix {
  readonly title: string;
  /** Edits in the file the finding is in, spans of the file. */
  readonly edits: readonly TextEdit[];
  /** Made together with them: of the board file, say. Such a fix is never made while nobody looks. */
  readonly elsewhere?: readonly OtherEdits[];
  /** A file that is not there yet; where there is one by then, nothing is done. */
  readonly creates?: NewFile;
  /** Done by asking for it in place of edits: a board file written from all logs of the finding's board. */
  readonly asks?: "write-board-file";
  /** Shown before it is made, where the client can: what it does, in words. */
  readonly shown?: string;
  readonly preferred?: boolean;
  /**
   * Only how it is written changes, not what is said: may be made while nobody looks, as on saving. Never a guess at what
   * was measured, or at which part, board or job was meant.
   */
  readonly certain?: boolean;
}

/** A number that a check lets people choose. */
export interface CheckOption {
  /** camelCase; it stands in settings beside the check's code. */
  readonly name: string;
  /** What it is, with its unit and where the default comes from; one sentence or two. */
  readonly description: string;
  readonly default: number;
  readonly least: number;
  readonly most: number;
}

/** The value of each of a check's options, as chosen or by default. */
export type ChosenOption = (option: CheckOption) => number;

export interface BlockInput {
  readonly option: ChosenOption;
  readonly block: LogBlock;
  readonly ctx: LogContext;
  readonly judgements: ReadonlyMap<Reading, Judgement>;
}

export interface LogInput {
  readonly option: ChosenOption;
  readonly doc: LogDocument;
  readonly ctx: LogContext;
  /** Of other boards too: a finding may rest on no more of it than `judgedBy` of the service stands for. */
  readonly knowledge: Knowledge;
  /** The front-matter fields that could be read. */
  readonly front: Partial<FrontMatter>;
  /** What the workspace's other logs say of this board; absent until they were read. */
  readonly related?: RelatedJobs;
  /** What the log says of each board, where it is about several and the check looks at all of it. */
  readonly boards?: readonly Pick<LogInput, "doc" | "ctx" | "front">[];
}

/** A board, device, procedure or shop file. */
export interface KnowledgeInput {
  readonly uri: string;
  readonly text: string;
  readonly kind: "board" | "device" | "limits" | "procedure" | "shop";
  readonly file: Known<unknown> | undefined;
  readonly problems: readonly Problem[];
  readonly knowledge: Knowledge;
}

/** What a fix may look at: the file's text and, in a log, its context. */
export interface FixInput {
  readonly text: string;
  readonly ctx?: LogContext;
  /** The log itself, with the front-matter fields that could be read. */
  readonly log?: Pick<LogInput, "doc" | "front"> & {
    /** Each board by itself, where the log is about several. */
    readonly set?: readonly Pick<LogInput, "doc">[];
  };
}

/** The fixes of one kind for a finding; none where it is not clear what was meant. Spans are of the file. */
export interface OfferFixes {
  (finding: Finding, input: FixInput): readonly Fix[];
  /** It asks a person, so none of its fixes is the preferred one: who wants only that need not make them. */
  readonly asks?: true;
}

/** Fixes that cost much to make, such as edits of another file, and are never done without being chosen. */
export const toBeChosen = (offer: (finding: Finding, input: FixInput) => readonly Fix[]): OfferFixes =>
  Object.assign(offer, { asks: true as const });

interface CheckBase {
  /** Stable, kebab-case: it stands in settings, in suppressions and in other people's scripts. */
  readonly code: CheckCode;
  readonly title: string;
  readonly severity: Severity;
  /** Why it matters at the bench. */
  readonly why: string;
  /** What to do about it. */
  readonly remedy: string;
  /**
   * What settles a finding after a repair: a later reading within limits of the place it is at, or one of each pin in its
   * `data.pins`. It stays to be seen, as a hint. Without it nothing does but putting right what was found.
   */
  readonly settledBy?: "later-reading" | "later-reading-of-each-pin";
  /** What of it can be chosen in the settings; `run` asks for each by `option`. */
  readonly options?: readonly CheckOption[];
  readonly examples: { readonly good: readonly string[]; readonly bad: readonly BadExample[] };
  /**
   * Each kind of fix under a name of its own, in the order they are offered where they are asked for. Each has to be
   * shown in an example. A check without any says why in `noFix`.
   */
  readonly fixes?: Readonly<Record<string, OfferFixes>>;
  readonly noFix?: string;
}

/** Looks at one block alone, and is not run again while neither the block nor its context changes. */
export interface BlockCheck extends CheckBase {
  readonly scope: "block";
  /**
   * What it finds at a row is told by that row, the table's header and the context: it looks at a long table some rows at a
   * time, and nothing but what those rows say may stand in its findings' data.
   */
  readonly rowByRow?: true;
  run(input: BlockInput): Iterable<Draft>;
}

/** Looks at a whole log; runs on every change, so it must only walk over what the blocks already hold. */
export interface DocumentCheck extends CheckBase {
  readonly scope: "document";
  /**
   * In a log about several boards: "once" looks at all of it and not at one board after the other, and what "all-agree"
   * finds in the front matter counts only where it is found for every board. Without it each board is looked at alone.
   */
  readonly ofSet?: "once" | "all-agree";
  run(input: LogInput): Iterable<Draft>;
}

export interface KnowledgeCheck extends CheckBase {
  readonly scope: "knowledge";
  run(input: KnowledgeInput): Iterable<Draft>;
}

/** Looks at one block, at a whole log or at a knowledge file; its `scope` says which. */
export type Check = BlockCheck | DocumentCheck | KnowledgeCheck;

/** Lets the compiler see that a check either has a fix or says why it has none. */
export type WithFix<C extends Check> = C & ({ fixes: NonNullable<C["fixes"]> } | { noFix: string });

/** The check with its code as the compiler is to know it in the registry. */
type Coded<C extends Check, Code extends CheckCode> = C & { readonly code: Code };

export const blockCheck = <Code extends CheckCode>(
  check: WithFix<BlockCheck> & { readonly code: Code },
): Coded<BlockCheck, Code> => check;
export const documentCheck = <Code extends CheckCode>(
  check: WithFix<DocumentCheck> & { readonly code: Code },
): Coded<DocumentCheck, Code> => check;
export const knowledgeCheck = <Code extends CheckCode>(
  check: WithFix<KnowledgeCheck> & { readonly code: Code },
): Coded<KnowledgeCheck, Code> => check;

/** Severities that differ from the checks' own; "off" leaves a check out. A new object where one changes. */
export interface CheckSettings {
  readonly severity: ReadonlyMap<string, Severity | "off">;
  /** By the check's code, then by the option's name; only values within the option's bounds. */
  readonly options?: ReadonlyMap<string, ReadonlyMap<string, number>>;
}

/**
 * What a person has in the editor's settings, or a command has for options: it comes before what the shop file says. "default" is
 * the check's own severity, whatever the shop file has.
 */
export interface OwnSettings {
  readonly severity: ReadonlyMap<string, Severity | "off" | "default">;
  readonly options?: CheckSettings["options"];
}

/** Every check at the severity that it has of its own. */
export const DEFAULT_SETTINGS: CheckSettings = { severity: new Map() };

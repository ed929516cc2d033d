import type { AsyncSteps } from "../base/steps";
import type { Finding } from "../checks/check";
import type { FileBytes } from "../compute/memory/file-bytes";
import type { PackedSummary } from "../log/summary-pack";
import type { Elsewhere } from "../syntax/elsewhere";
import type { Remembered } from "./remembered";
import type { Settings } from "./settings";

export type { FileBytes };

/** All the core asks of the world outside it. Uris are opaque strings; only their last part is looked at. */
export interface Host {
  /** A file's text, or undefined where it cannot be read. Never throws. */
  read(uri: string): Promise<string | undefined>;
  /** Every Markdown and knowledge file of the workspace. */
  list(): Promise<readonly string[]>;
  /** The memory images in the workspace's folders, as they are now; files behind links are not among them. */
  listImages?(): Promise<readonly string[]>;
  /**
   * All bytes of a file that a log names, memory image or picture, where it lies in the workspace's folders, links
   * followed, and has no more than `most`; else why there are none. Absent where files have no bytes. Never throws.
   */
  readBytes?(uri: string, most: number): Promise<FileBytes>;
  /** Another thread that reads long blocks, where there is one. */
  readonly elsewhere?: Elsewhere;
  /** Other threads that sum up closed logs, where there are any. */
  readonly summing?: Summing;
  /** Other threads that check closed logs, where there are any. */
  readonly checking?: Checking;
  /** Where what is remembered lies until the next start, where anything may be kept. */
  readonly shelf?: Shelf;
  /** The same for what was found in closed logs. */
  readonly findings?: FindingsShelf;
}

/** A text of the workspace. */
export interface FileText {
  readonly uri: string;
  readonly text: string;
}

/** Sums up closed logs elsewhere, so that nobody waits for them here. */
export interface Summing {
  /** Logs that are worth being handed over at a time. */
  readonly most: number;
  /**
   * What is to be remembered of a log. Never fails: undefined where it cannot be summed up there, and then it is to be
   * done here.
   * @param knowledge the files of devices and procedures that it is read with, the same list for as long as they are
   */
  sum(log: FileText, knowledge: readonly FileText[]): Promise<Remembered | undefined>;
}

/** All that closed logs are checked with, as it was at one moment; each part is the same object for as long as it says the same. */
export interface CheckedWith {
  /** All knowledge files, as they stand in the editor where they are open there. */
  readonly knowledge: readonly FileText[];
  /** What is remembered of every log, by uri. */
  readonly remembered: ReadonlyMap<string, PackedSummary>;
  readonly settings: Settings;
}

/** What is told of a finding, without what only its fixes need. */
export type FindingTold = Pick<Finding, "code" | "severity" | "span" | "message" | "related" | "tags">;

/** What was found in a closed log elsewhere. */
export interface FoundElsewhere {
  readonly findings: readonly FindingTold[];
  /** Uris of the images and pictures that it names and that were looked at for it. */
  readonly images: readonly string[];
}

/** Checks closed logs elsewhere, so that nobody waits for them here. */
export interface Checking {
  /** Logs that are worth being handed over at a time. */
  readonly most: number;
  /** Never fails: undefined where it cannot be checked there, and then it is to be done here. */
  check(log: FileText, by: CheckedWith): Promise<FoundElsewhere | undefined>;
  /** The page of what all logs add up to, HTML; never fails either. */
  shopPage(by: CheckedWith): Promise<string | undefined>;
}

/** Keeps what is remembered of closed logs between two starts; what is there may be lost at any time. Nothing here fails. */
export interface Shelf {
  /** @param stamp stands for the files of devices and procedures that the logs were read with */
  load(stamp: string): AsyncSteps<Remembered>;
  save(all: Iterable<Remembered>, stamp: string): Promise<void>;
}

/** What was found in one closed log, kept. */
export interface KeptFindings {
  /** Stands for all that it hangs on. */
  readonly stamp: string;
  /** What it was kept as; undefined where it is not there as it was. Unpacked whenever it is asked for. */
  json(): string | undefined;
}

/** Keeps what was found in closed logs between two starts; what is there may be lost at any time. Nothing here fails. */
export interface FindingsShelf {
  /** By uri, what was put there last. */
  load(): Promise<ReadonlyMap<string, KeptFindings>>;
  /**
   * Puts these there, in place of what was there of the same logs. What was loaded before can be asked for all the same.
   * @param counts whether a log that something was kept of is still to be kept
   */
  save(more: ReadonlyMap<string, KeptFindings>, counts: (uri: string) => boolean): Promise<void>;
  /** What is loaded will not be asked for any more. */
  close(): void;
  /** In little memory, until it is put there. */
  hold(stamp: string, json: string): KeptFindings;
}

/** Kinds of files that readings are judged by. */
export type KnowledgeKind = "board" | "device" | "limits" | "procedure" | "shop";

const SUFFIXES: readonly (readonly [string, KnowledgeKind])[] = [
  [".board.yaml", "board"],
  [".device.yaml", "device"],
  [".procedure.yaml", "procedure"],
  [".limits.yaml", "limits"],
];

/** The kind of knowledge file a uri names, undefined for any other file. */
export function knowledgeKind(uri: string): KnowledgeKind | undefined {
  // Some disks take capitals and small letters for the same.
  const name = fileName(uri).toLowerCase();
  if (name === "mendlog.shop.yaml") return "shop";
  return SUFFIXES.find(([suffix]) => name.endsWith(suffix) && name.length > suffix.length)?.[1];
}

/** By the endings that programmers write. Common practice, no source. */
export const isImageFile = (uri: string): boolean =>
  /\.(bin|rom|img|dat|eprom|prom|dump|raw)$/i.test(fileName(uri));

/** True for a file that may be a log by its name; only its front matter tells. */
export const isMarkdown = (uri: string): boolean => /\.(md|markdown)$/i.test(fileName(uri));

/** In small letters, an ending of each name that is ours; others may end so too. */
export const OUR_ENDINGS: readonly string[] = [
  ".md",
  ".markdown",
  "mendlog.shop.yaml",
  ...SUFFIXES.map(([suffix]) => suffix),
];

/** What is read of a workspace: logs may be any Markdown, the rest is known by its name. */
export const isOurs = (uri: string): boolean => isMarkdown(uri) || knowledgeKind(uri) !== undefined;

/** Folders by their names that are looked into; the rest is other programs'. */
export const isLookedInto = (name: string): boolean => !name.startsWith(".") && !SKIPPED.has(name);
const SKIPPED = new Set(["node_modules", "dist"]);

/** Bytes of the largest text that is read; nothing a person writes by hand is as long. */
export const MAX_BYTES = 32 * 1024 * 1024;

/** The last part of a uri's path, still encoded. */
export const fileName = (uri: string): string => uri.slice(uri.lastIndexOf("/") + 1);

export const folderOf = (uri: string): string => uri.slice(0, uri.lastIndexOf("/") + 1);

// All that the command line asks of the world. The tests give it their own.

import type { Printable } from "../text/printable";
import type { ParquetWriter } from "./shop/parquet";

/** A value, or why there is none, as the end of a sentence: "cannot be opened: you may not read it". */
export type Tried<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly reason: string };

/** A value that could be had. */
export const done = <T>(value: T): Tried<T> => ({ ok: true, value });
/** No value; the reason is the end of a sentence. */
export const failed = (reason: string): Tried<never> => ({ ok: false, reason });

export interface Look {
  readonly kind: "file" | "folder" | "other";
  readonly size: number;
  /** The path with every link followed. */
  readonly real: string;
  /** When it was last written, in milliseconds since 1970; absent where nobody knows. */
  readonly changed?: number;
}

export interface Name {
  readonly name: string;
  readonly kind: "file" | "folder" | "link" | "other";
}

/** Of a file: a text, written as UTF-8, or bytes, or bytes that come piece by piece; where they end in a fault nothing is written. */
export type Content = string | Uint8Array | AsyncIterable<Uint8Array>;

/** A file as it was when it was opened, whatever is put in its place meanwhile. */
export interface OpenFile {
  /** In bytes. */
  readonly size: number;
  /** Bytes; undefined where the file has fewer, or they cannot be read. */
  read(from: number, length: number): Uint8Array | undefined;
  close(): void;
}

/** Absolute paths throughout. Nothing here throws. */
export interface Disk {
  /** @param folder the real path of the folder it lies in, where it is told to be no link: then nothing has to be followed */
  look(path: string, folder?: string): Promise<Tried<Look>>;
  names(folder: string): Promise<Tried<readonly Name[]>>;
  /** The file's first `most` bytes. */
  read(path: string, most: number): Promise<Tried<Uint8Array>>;
  open(path: string): Promise<Tried<OpenFile>>;
  /** Writes a file that is not there yet; one that is there, even as a link to nowhere, stays as it is. */
  create(path: string, content: Content): Promise<Tried<void>>;
  /** Puts a content in place of a file's that is there, all of it or nothing: no moment and no fault leaves half of it. */
  replace(path: string, content: Content): Promise<Tried<void>>;
  /** Makes a folder in one that is there. */
  makeFolder(path: string): Promise<Tried<void>>;
}

export interface Output {
  write(text: Printable): void;
  readonly isTerminal: boolean;
  /** Cells in a line, where it is a terminal. */
  readonly columns?: number;
}

/** What a program knows of where it runs, whether or not it has anybody to talk to. */
export interface Surroundings {
  readonly cwd: string;
  readonly env: Readonly<Record<string, string | undefined>>;
  readonly disk: Disk;
  /** Stands for this program: another one, or the same built otherwise, has another. Absent where nobody knows. */
  build?(): Promise<string | undefined>;
  /** Milliseconds since 1970. */
  readonly clock?: () => number;
}

/** The world as the command line sees it: files, streams, the clock and programs beside it. */
export interface Io extends Surroundings {
  readonly out: Output;
  readonly err: Output;
  /** All of standard input. */
  stdin(): Promise<Tried<Uint8Array>>;
  /** Milliseconds from any fixed time. */
  now(): number;
  /** The day where the person is, ISO 8601. */
  today(): string;
  /** The writer of Parquet files, a program file of its own; undefined where it is not beside this one. */
  parquet(): Promise<ParquetWriter | undefined>;
  /**
   * Files below the current folder that differ from a revision of git or that it does not know, by absolute path. Absent
   * where there is no git to ask.
   */
  changedSince?(revision: string): Promise<Tried<readonly string[]>>;
  /**
   * Paths below these files and folders that change from now on, those together that change at about the same time. Absent
   * where nobody tells of it.
   */
  changes?(paths: readonly string[]): AsyncIterable<readonly string[]>;
  /** Starts the language server over standard input and output; from then on the process is the server's to end. */
  serve(): Promise<void>;
}

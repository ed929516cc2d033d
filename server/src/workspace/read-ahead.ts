import type { Images } from "../compute/memory/image-file";
import { LogReader } from "../log/document";

/** A text of a log and the reader that has read it, or is about to. */
export interface ReadText {
  readonly uri: string;
  readonly text: string;
  readonly reader: LogReader;
  /** The images it names, where they were read. */
  readonly images?: Images;
}

/** Logs that are not open and were read before they are asked for, so that none is read twice. */
export class ReadAhead {
  /** Read for the memory; handed over to whoever asks for one. */
  readonly #warm = new Map<string, ReadText>();
  /** Read for the findings that will be asked for next; there is one at a time. */
  #next: ReadText | undefined;

  /** Keeps a log that was read, while all that is kept has no more characters than `most`. */
  keep(read: ReadText, most: number): void {
    let held = read.text.length;
    for (const { text } of this.#warm.values()) held += text.length;
    if (held <= most) this.#warm.set(read.uri, read);
  }

  /** A reader for this text, one that has read it where there is one. It is kept no longer. */
  take(uri: string, text: string): LogReader {
    const warm = this.#warm.get(uri);
    this.#warm.delete(uri);
    return warm?.text === text ? warm.reader : new LogReader(uri);
  }

  /** The text that is asked for next: its reader, for it to be read with. */
  prepare(uri: string, text: string): LogReader {
    const reader = this.take(uri, text);
    this.#next = { uri, text, reader };
    return reader;
  }

  /** What was prepared last, where it was this text. */
  prepared(uri: string, text: string): ReadText | undefined {
    return this.#next?.uri === uri && this.#next.text === text ? this.#next : undefined;
  }

  /** The images of what was prepared, unless something else was prepared meanwhile. */
  withImages(read: ReadText, images: Images): void {
    if (this.#next === read) this.#next = { ...read, images };
  }

  /** What was prepared is not held on to. */
  done(): void {
    this.#next = undefined;
  }
}

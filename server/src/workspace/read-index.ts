import type { AsyncSteps, Steps, Waiting } from "../base/steps";
import type { Library } from "../knowledge/library";
import { LogReader } from "../log/document";
import { isLog } from "../log/sniff";
import { stretchesOf } from "../log/stretches";
import { summarise } from "../log/summary";
import { packSummary } from "../log/summary-pack";
import type { Host } from "./host";
import { LONGEST_REMEMBERED, type LogIndex, type Remembered } from "./log-index";
import type { OpenLogs } from "./open-logs";
import type { ReadAhead } from "./read-ahead";
import { textHash } from "./text-hash";

/** How far the memory has come, in files. */
export interface IndexStep {
  readonly done: number;
  readonly total: number;
}

export interface Reading {
  readonly host: Host;
  readonly index: LogIndex;
  readonly open: OpenLogs;
  readonly ahead: ReadAhead;
  library(): Library;
  /** Characters of logs whose parse is kept for the findings that will be asked for next. */
  readonly keep: number;
}

/**
 * Reads the logs that may have changed since they were last read; it may be left at any step and begun again later, one
 * at a time. What it found is seen in the index's memory when it has come to its end. Markdown that is no log costs a look at its first line.
 */
export async function* readIndex(reading: Reading): AsyncSteps<never, IndexStep> {
  const { host, index } = reading;
  index.list(await host.list());
  for (let done = 0; ; done++) {
    const uri = index.next(reading.library());
    if (uri === undefined) break;
    let read = false;
    try {
      const text = await host.read(uri);
      const step = { done, total: done + 1 + index.waiting };
      if (text === undefined) index.forget(uri);
      else
        for (const waiting of remember(uri, text, reading)) {
          if (waiting) await waiting;
          yield step;
        }
      read = true;
      yield step;
    } finally {
      if (!read) index.changed(uri);
    }
  }
  index.finish();
}

/** What is remembered of a closed log with this text. */
export function remembered(uri: string, text: string, library: Library): Remembered {
  if (text.length > LONGEST_REMEMBERED || !isLog(text)) return { uri };
  const doc = new LogReader(uri).read(text, library);
  return { uri, hash: textHash(text), packed: packSummary(summarise(doc)) };
}

function* remember(uri: string, text: string, reading: Reading): Steps<void, Waiting> {
  const { index, ahead, keep } = reading;
  const library = reading.library();
  if (text.length > LONGEST_REMEMBERED || !isLog(text)) {
    index.skip(uri, library);
    return;
  }
  if (index.knows(uri, text, library)) return;
  const open = reading.open.reader(uri);
  const isOpen = () =>
    open !== undefined && reading.open.reader(uri) === open && reading.open.text(uri) === text;
  let reader = open && isOpen() ? open : new LogReader(uri);
  const { elsewhere } = reading.host;
  let steps = reader.prepare(text, elsewhere);
  for (let step = steps.next(); !step.done; step = steps.next()) {
    yield step.value;
    // Typed in meanwhile: the reader has another text to keep in mind now.
    if (reader !== open || isOpen()) continue;
    reader = new LogReader(uri);
    steps = reader.prepare(text, elsewhere);
  }
  const doc = reader.read(text, library);
  index.put(uri, text, library, summarise(doc), stretchesOf(doc));
  if (!reading.open.has(uri)) ahead.keep({ uri, text, reader }, keep);
}

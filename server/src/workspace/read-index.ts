import type { AsyncSteps, Steps, Waiting } from "../base/steps";
import type { Library } from "../knowledge/library";
import { LogReader } from "../log/document";
import { isLog } from "../log/sniff";
import { summarise } from "../log/summary";
import { packSummary } from "../log/summary-pack";
import { packRegions, textRegionsOf } from "../log/text-regions";
import type { FileText, Host } from "./host";
import { LONGEST_REMEMBERED, type LogIndex } from "./log-index";
import type { OpenLogs } from "./open-logs";
import type { ReadAhead } from "./read-ahead";
import type { Remembered } from "./remembered";
import { shareRests } from "./shared-sums";
import { textHash } from "./text-hash";

/** How far the memory has come, in files. */
export interface IndexStep {
  readonly done: number;
  readonly total: number;
}

export interface IndexReading {
  readonly host: Host;
  readonly index: LogIndex;
  readonly open: OpenLogs;
  readonly ahead: ReadAhead;
  library(): Library;
  /** The files of devices and procedures that the library has besides what is built in. */
  files(): readonly FileText[];
  /** Characters of logs whose parse is kept for the findings that will be asked for next. */
  readonly keep: number;
}

/** Logs whose summaries are moved to shared memory in one step, a millisecond or two. */
const SHARED_AT_A_TIME = 256;

/** Fewer logs than this are read and checked here before another thread has read its library. */
export const FEWEST_LOGS_FOR_THREADS = 150;

/**
 * Reads the logs that may have changed since they were last read; it may be left at any step and begun again later, one
 * at a time. What it found is seen in the index's memory when it has come to its end. Markdown that is no log costs a look at its first line.
 */
export async function* readIndex(reading: IndexReading): AsyncSteps<never, IndexStep> {
  const { host, index } = reading;
  index.list(await host.list());
  const elsewhere = index.waiting >= FEWEST_LOGS_FOR_THREADS ? host.summing : undefined;
  // Threads that check closed logs read them for themselves.
  const keep = elsewhere && host.checking ? 0 : reading.keep;
  const sent: Sent[] = [];
  let taken: Remembered[] = [];
  const takeFirst = async (): Promise<void> => {
    const first = sent[0]!;
    const found = await first.answer;
    sent.shift();
    if (found && first.library === reading.library()) {
      index.take(found, first.library);
      if (taken.push(found) < SHARED_AT_A_TIME) return;
      // Other threads will be told of them, and what lies there is not looked through for what may be cleared from memory.
      shareRests(taken);
      taken = [];
    } else index.changed(first.uri);
  };
  let kept = 0;
  try {
    for (let done = 0; ; done++) {
      const uri = index.next(reading.library());
      if (uri === undefined) {
        if (sent.length === 0) break;
        await takeFirst();
        continue;
      }
      let read = false;
      try {
        const text = await host.read(uri);
        const step = { done, total: done + 1 + index.waiting };
        if (text === undefined) index.forget(uri);
        else if (elsewhere && kept >= keep && isUnknown(uri, text, reading)) {
          const answer = elsewhere.sum({ uri, text }, reading.files());
          sent.push({ uri, library: reading.library(), answer });
          if (sent.length >= elsewhere.most) await takeFirst();
        } else {
          if (isUnknown(uri, text, reading)) kept += text.length;
          for (const waiting of remember(uri, text, reading)) {
            if (waiting) await waiting;
            yield step;
          }
        }
        read = true;
        yield step;
      } finally {
        if (!read) index.changed(uri);
      }
    }
  } finally {
    for (const { uri } of sent) index.changed(uri);
  }
  index.finish();
}

/** A log that another thread is reading. */
interface Sent {
  readonly uri: string;
  readonly library: Library;
  readonly answer: Promise<Remembered | undefined>;
}

/** A closed log that has to be read. */
const isUnknown = (uri: string, text: string, { index, open, library }: IndexReading): boolean =>
  !open.has(uri) && text.length <= LONGEST_REMEMBERED && isLog(text) && !index.knows(uri, text, library());

/** What is remembered of a closed log with this text. */
export function remembered(uri: string, text: string, library: Library): Remembered {
  return read(uri, text, library)?.known ?? { uri };
}

/** The same with where things may be named in it. */
export function rememberedWhole(uri: string, text: string, library: Library): Remembered {
  const found = read(uri, text, library);
  return found ? { ...found.known, stretches: packRegions(textRegionsOf(found.doc)) } : { uri };
}

function read(uri: string, text: string, library: Library) {
  if (text.length > LONGEST_REMEMBERED || !isLog(text)) return undefined;
  const doc = new LogReader(uri).read(text, library);
  const known: Remembered = { uri, hash: textHash(text), packed: packSummary(summarise(doc)) };
  return { doc, known };
}

function* remember(uri: string, text: string, reading: IndexReading): Steps<void, Waiting> {
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
  index.put(uri, text, library, summarise(doc), textRegionsOf(doc));
  if (!reading.open.has(uri)) ahead.keep({ uri, text, reader }, keep);
}

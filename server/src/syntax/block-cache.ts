import { withLater } from "../base/later";
import type { SyntaxBlock } from "./block";
import type { Names } from "./markdown";
import { type BlockPlace, type BlockReading, isShort, parseBlock, readWithoutParser } from "./parse-block";

interface Entry {
  readonly text: string;
  readonly places: Partial<Record<BlockPlace, BlockReading>>;
  /** Numbers of the texts in which it was first and last asked for, and how many asked for it. */
  readonly made: number;
  asked: number;
  times: number;
  /** Cuts of the latest text that have it. */
  uses: number;
  /** It came with few others, as what is typed does. */
  isAlone: boolean;
  /** It came so and stood for one text only. */
  isBrief: boolean;
}

/** A block of a text: where it begins, and how it reads there where nothing else is defined. */
export interface Cut {
  readonly start: number;
  readonly source: SyntaxBlock;
  readonly place: BlockPlace;
  readonly reading: BlockReading;
}

/** A text and how it was cut. */
export interface CutText {
  readonly text: string;
  /** Without a gap. */
  readonly cuts: readonly Cut[];
  /** True where one of them may define a name for the whole document. */
  readonly mayHaveNames: boolean;
}

/**
 * Readings of blocks by their text. It never changes what is read, only whether it is read again; keep one for each
 * open document. What the latest text no longer holds is kept for undo, up to the length of that text.
 */
export interface BlockCache {
  /** The reading of the text, made now if need be. */
  read(text: string, place: BlockPlace): BlockReading;
  /** The same where it costs next to nothing; undefined for what had better be read elsewhere, if it can be. */
  readSoon(text: string, place: BlockPlace): BlockReading | undefined;
  /** Takes over what was read elsewhere, and gives it back for good. */
  take(text: string, place: BlockPlace, reading: BlockReading): BlockReading;
  /** The block as it reads where `elsewhere` is defined in other blocks too. */
  readAmong(reading: BlockReading, place: BlockPlace, elsewhere: Names): SyntaxBlock;
  /** True where that costs next to nothing. */
  knowsAmong(reading: BlockReading, elsewhere: Names): boolean;
  /** Takes over what was read elsewhere of the same block among these names. */
  takeAmong(reading: BlockReading, elsewhere: Names, among: BlockReading): void;
  /**
   * To be called when a whole text has been read: forgets what has been out of use for longest.
   * @param ahead so many cuts at the beginning are those of the text before, and `behind` so many at the end
   */
  keep(latest: CutText, ahead: number, behind: number): void;
  /** The last text that was read as a whole. */
  readonly latest: CutText | undefined;
  /** How many texts are held; for tests and measurements. */
  readonly size: number;
}

/** Kept for undo however short the document is, in UTF-16 code units. */
const LEAST_KEPT = 65_536;
/** Texts kept that stood for one key: the last few, twice as many at most. Kept for long they would cost clearing up. */
const BRIEF_KEPT = 4;
/** More than these that come at once are no key. */
const ALMOST_ALONE = 2;

/** An empty cache, for one document. */
export function createBlockCache(): BlockCache {
  const entries = new Map<string, Entry>();
  /** Those in no cut of the latest text, the last that left it behind; some may have come back. */
  let idle: Entry[] = [];
  let latest: CutText | undefined;
  let number = 1;
  let made: Entry[] = [];

  /** What is kept of a text, from now on among what was asked for. */
  const entryOf = (text: string): Entry => {
    let entry = entries.get(text);
    if (entry === undefined) {
      const key = detached(text);
      entry = {
        ...{ text: key, places: {}, made: number, asked: number, times: 1, uses: 0 },
        ...{ isAlone: false, isBrief: false },
      };
      entries.set(key, entry);
      made.push(entry);
    } else if (entry.asked !== number) {
      entry.asked = number;
      entry.times++;
    }
    return entry;
  };
  const read = (text: string, place: BlockPlace): BlockReading => {
    const { text: key, places } = entryOf(text);
    places[place] ??= parseBlock(key, place);
    return places[place];
  };
  const readSoon = (text: string, place: BlockPlace): BlockReading | undefined => {
    const { text: key, places } = entryOf(text);
    const reading =
      places[place] ?? readWithoutParser(key, place) ?? (isShort(key) ? parseBlock(key, place) : undefined);
    if (reading) places[place] = reading;
    return reading;
  };
  const take = (text: string, place: BlockPlace, reading: BlockReading): BlockReading => {
    const { places } = entryOf(text);
    places[place] ??= reading;
    return places[place];
  };

  const nameKey = ({ links, footnotes }: Names): string => JSON.stringify([links, footnotes]);
  const keepVariant = ({ variants }: BlockReading, elsewhere: Names, variant: SyntaxBlock): SyntaxBlock => {
    if (variants.size > 3) variants.clear();
    variants.set(nameKey(elsewhere), variant);
    return variant;
  };
  const readAmong = (reading: BlockReading, place: BlockPlace, elsewhere: Names): SyntaxBlock => {
    const block = reading.block!;
    const known = reading.variants.get(nameKey(elsewhere));
    return known ?? keepVariant(reading, elsewhere, parseBlock(block.text, place, elsewhere).block ?? block);
  };
  const knowsAmong = ({ block, variants }: BlockReading, elsewhere: Names): boolean =>
    block === undefined || isShort(block.text) || variants.has(nameKey(elsewhere));
  const takeAmong = (reading: BlockReading, elsewhere: Names, among: BlockReading): void => {
    const block = among.block ?? reading.block;
    if (block) keepVariant(reading, elsewhere, block);
  };

  const entryOfCut = ({ source, place, reading }: Cut): Entry => {
    const known = entries.get(source.text);
    // Of a text that was read in the middle of this one it may be forgotten.
    const entry = known ?? entryOf(source.text);
    entry.places[place] ??= reading;
    return entry;
  };
  const leave = (entry: Entry): void => {
    entry.isBrief = entry.isAlone && entry.times === 1 && number - entry.made <= 1;
    idle.push(entry);
  };
  const keep = (now: CutText, ahead: number, behind: number): void => {
    const { cuts } = now;
    for (const entry of made) entry.isAlone = made.length <= ALMOST_ALONE;
    for (const cut of cuts.slice(ahead, cuts.length - behind)) {
      entryOfCut(cut).uses++;
    }
    const before = latest?.cuts ?? [];
    for (const cut of before.slice(ahead, before.length - behind)) {
      const entry = entryOfCut(cut);
      if (--entry.uses === 0) leave(entry);
    }
    for (const entry of made) if (entry.uses === 0) leave(entry);
    latest = now;
    made = [];
    sweep(Math.max(LEAST_KEPT, now.text.length));
    number++;
  };
  /** @param allowed characters of what is idle */
  const sweep = (allowed: number): void => {
    let length = 0;
    let brief = 0;
    const count = (): void => {
      length = 0;
      brief = 0;
      for (const { uses, text, isBrief } of idle) {
        if (uses > 0) continue;
        length += text.length;
        if (isBrief) brief++;
      }
    };
    count();
    if (length <= allowed && brief <= 2 * BRIEF_KEPT) return;
    // What left, came back and left again stands there twice: its last place counts.
    idle = [...new Set(idle.reverse())].reverse().filter(({ uses }) => uses === 0);
    count();
    // What stood for one key only goes first: under an open fence each key makes all of the log another block.
    for (const isOfKey of [true, false]) {
      idle = idle.filter((entry) => {
        const isTooMuch = length > allowed || (entry.isBrief && brief > BRIEF_KEPT);
        if (!isTooMuch || (isOfKey && !entry.isBrief) || entry.asked === number) return true;
        entries.delete(entry.text);
        length -= entry.text.length;
        if (entry.isBrief) brief--;
        return false;
      });
    }
  };

  return withLater(
    { read, readSoon, take, readAmong, knowsAmong, takeAmong, keep },
    { size: () => entries.size, latest: () => latest },
  );
}

/**
 * The same text in memory of its own. A slice refers to the text it was cut from, and a cache of slices would hold
 * every version of the document that ever had a block in it.
 */
const detached = (text: string): string => [text.slice(0, 1), text.slice(1)].join("");

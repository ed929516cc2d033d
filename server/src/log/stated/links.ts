// What a block's continuity rows say is joined.
import type { Library } from "../../knowledge/library";
import type { CellValue } from "../../quantity/cell-value";
import { type Span, span } from "../../text/span";
import { CONTINUITY } from "../measures";
import type { CellText, LogBlock } from "../model";
import { partWords } from "../part-words";
import { proseIn } from "./prose";
import { railNamed } from "./rail-name";
import type { LinkEnd, LinkStated, Placed } from "./statement";

/** More than leads, a track and a joint read is a part in between: common practice, no source. */
export const JOINED_BELOW = 5;

export function linksStated(block: LogBlock, library: Library): Placed<LinkStated>[] {
  return [...beepsIn(block, library), ...tiesIn(block), ...tiesTold(block)];
}

function beepsIn(block: LogBlock, library: Library): Placed<LinkStated>[] {
  return block.tables.flatMap(({ readings }) =>
    readings.flatMap(({ measure, subject, value }): Placed<LinkStated>[] => {
      const from = subject.from && linkEnd(subject.from, library);
      const to = subject.to && linkEnd(subject.to, library);
      if (measure !== CONTINUITY || !from || !to || !subject.from || !isJoined(value)) return [];
      return [{ kind: "link", ends: [from, to], span: subject.from.span }];
    }),
  );
}

const TO = "(ground|gnd|chassis|earth|0\\s*v|[+-]?\\s*\\d+(?:[.,]\\d+)?\\s*v(?:olts?)?|vcc)(?![\\w/])";
const BY = "(?:tied|strapped|wired|linked|connected|held|hard-?wired|goes|inputs?|both)";
/** "tied to ground", "grounded", "unused, to ground", "is ground"; not what should be, nor what was found shorted to it. */
const TIED = new RegExp(
  `(?:^|[,;(]\\s*|\\b${BY}\\s+)(?:directly\\s+)?to\\s+(?:the\\s+)?${TO}|\\bis\\s+(?:on\\s+)?${TO}|\\bon\\s+(\\+\\s*\\d+(?:[.,]\\d+)?\\s*v|ground|gnd)(?![\\w/])|\\b(grounded)\\b`,
  "i",
);
const NOT_SO =
  /\b(?:not\s+(?:tied|strapped|wired|grounded|connected|to|on)|should|must|supposed|meant|shorted|short|resistor|via|through|by\s+R\d|drop|compared|reads?|pulled)\b/i;

/** "strapped to leg 14": another pin of the same part. */
const STRAPPED = /\b(?:tied|strapped|wired|linked|joined)\s+to\s+(?:leg|pin)\s*(\d{1,3})\b/i;

/** Pins that a note, or the heading, says the board ties to ground or to a rail. */
function tiesIn(block: LogBlock): Placed<LinkStated>[] {
  const rows = block.tables.flatMap(({ rows }) =>
    rows.flatMap(({ cells: { ref, pin, signal, note: remark } }): Placed<LinkStated>[] => {
      const note =
        remark && tiedTo(remark.text) !== undefined
          ? remark
          : signal && tiedTo(signal.text) !== undefined
            ? signal
            : remark;
      const net = note && tiedTo(note.text);
      if (!ref || !pin || !note) return [];
      const own = { ref: ref.text, pin: pin.text };
      const leg = STRAPPED.exec(note.text)?.[1];
      if (leg !== undefined)
        return [{ kind: "link", ends: [own, { ref: ref.text, pin: leg }], span: note.span }];
      return net ? [link(own, net, note.span)] : [];
    }),
  );
  const cells = block.tables.flatMap(({ readings }) =>
    readings.flatMap(({ cell, subject: { ref, pin } }): Placed<LinkStated>[] => {
      const net = /\bto\b/i.test(cell.text) ? tiedTo(cell.text) : undefined;
      return ref && pin && net ? [link({ ref: ref.text, pin: pin.text }, net, cell.span)] : [];
    }),
  );
  const headings = block.sections.flatMap(({ ref, heading }): Placed<LinkStated>[] => {
    const words = heading ? /\bpins?\s*(\d{1,3})\b([^;()]*)/i.exec(heading.text) : null;
    const net = words?.[2] === undefined ? undefined : tiedTo(words[2]);
    if (!ref || !heading || words?.[1] === undefined || net === undefined) return [];
    return [link({ ref: ref.text, pin: words[1] }, net, heading.contentSpan)];
  });
  return [...headings, ...rows, ...cells];
}

/** "U2 pins 1 and 19 are wired to ground" in running words. */
function tiesTold(block: LogBlock): Placed<LinkStated>[] {
  return proseIn(block).flatMap(({ text, start }) =>
    sentencesOf(text).flatMap(({ index, sentence }): Placed<LinkStated>[] => {
      const net = tiedTo(sentence);
      if (net === undefined) return [];
      return [...sentence.matchAll(PINS_TOLD)].flatMap((match) => {
        const [whole, ref = "", numbers = ""] = match;
        const at = start + index + match.index;
        return (numbers.match(/\d+/g) ?? []).map((pin) =>
          link({ ref, pin }, net, span(at, at + whole.length)),
        );
      });
    }),
  );
}

const PINS_TOLD =
  /\b([A-Z]{1,3}\d{1,4})\s+(?:pins?|legs?)\s*(\d{1,3}(?:\s*(?:,|&|\band\b)\s*\d{1,3})*)(?!\w)/g;

function sentencesOf(text: string): { index: number; sentence: string }[] {
  return [...text.matchAll(/[^.;]+(?:\.(?=\d)[^.;]*)*[.;]?/g)].map((match) => ({
    index: match.index,
    sentence: match[0],
  }));
}

const link = (pin: LinkEnd, net: string, span: Span): Placed<LinkStated> => ({
  kind: "link",
  ends: [pin, { net }],
  span,
});

function tiedTo(words: string): string | undefined {
  const match = NOT_SO.test(words) ? null : TIED.exec(words);
  const to = match?.slice(1).find((group) => group !== undefined);
  if (to === undefined) return undefined;
  return /^(?:ground|gnd|grounded|chassis|earth|0\s*v)$/i.test(to) ? "GND" : railNamed(to)?.name;
}

/** True where a pin-to-pin reading is that of a track. */
export function isJoined(value: CellValue): boolean {
  if (value.kind === "short") return true;
  const ohms =
    value.kind === "quantity"
      ? value.quantity
      : value.kind === "range"
        ? value.high
        : value.kind === "bound" && value.op.startsWith("<")
          ? value.quantity
          : undefined;
  return ohms?.dimension === "resistance" && ohms.value < JOINED_BELOW;
}

/** "U5-4", "U5 pin 4", "J3.1"; a rail or ground by its name; any other single name is that of a net. */
export function linkEnd(cell: CellText, library: Library): LinkEnd | undefined {
  const words = partWords(cell, library);
  if (words) return words.pin ? { ref: words.ref.text, pin: words.pin.text } : undefined;
  const text = cell.text.trim();
  if (/^(?:gnd|ground|0\s*V|earth|chassis|common|vss|dgnd|agnd)$/i.test(text)) return { net: "GND" };
  const rail = railNamed(text);
  if (rail) return { net: rail.name };
  const pin = /^([A-Za-z]{1,4}\d{1,4}|\d{1,2}[A-Za-z])\s*[-.:]\s*([A-Za-z]\d{0,2}|\d{1,3})$/.exec(text);
  if (pin?.[1] !== undefined && pin[2] !== undefined) return { ref: pin[1], pin: pin[2] };
  return /^[A-Za-z/][\w/+*#~-]{0,30}$/.test(text) ? { net: text } : undefined;
}

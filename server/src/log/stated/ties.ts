// Pins that a log says the board ties to ground or to a rail, in a note, a heading, a sentence or the signal's name.
import { type Span, span } from "../../text/span";
import type { LogBlock } from "../model";
import { proseIn } from "./prose";
import { railNamed } from "./rail-name";
import type { LinkEnd, LinkStated, LocatedStatement } from "./statement";

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
export function tiesIn(block: LogBlock): LocatedStatement<LinkStated>[] {
  const rows = block.tables.flatMap(({ rows }) =>
    rows.flatMap(({ cells: { ref, pin, signal, note } }): LocatedStatement<LinkStated>[] => {
      if (!ref || !pin) return [];
      const own = { ref: ref.text, pin: pin.text };
      const leg = note && STRAPPED.exec(note.text)?.[1];
      if (note && leg) return [{ kind: "link", ends: [own, { ref: ref.text, pin: leg }], span: note.span }];
      const told = note && tiedTo(note.text);
      if (note && told) return [link(own, told, note.span)];
      const named = signal && (supplyNamed(signal.text) ?? tiedTo(signal.text));
      return signal && named ? [link(own, named, signal.span)] : [];
    }),
  );
  const cells = block.tables.flatMap(({ readings }) =>
    readings.flatMap(({ cell, subject: { ref, pin } }): LocatedStatement<LinkStated>[] => {
      const net = /\bto\b/i.test(cell.text) ? tiedTo(cell.text) : undefined;
      return ref && pin && net ? [link({ ref: ref.text, pin: pin.text }, net, cell.span)] : [];
    }),
  );
  const headings = block.sections.flatMap(({ ref, heading }): LocatedStatement<LinkStated>[] => {
    const words = heading ? /\bpins?\s*(\d{1,3})\b([^;()]*)/i.exec(heading.text) : null;
    const net = words?.[2] === undefined ? undefined : tiedTo(words[2]);
    if (!ref || !heading || words?.[1] === undefined || net === undefined) return [];
    return [link({ ref: ref.text, pin: words[1] }, net, heading.contentSpan)];
  });
  return [...headings, ...rows, ...cells];
}

/** A signal's column that names ground or a rail by its voltage; VCC and VSS there are the names of pins. */
function supplyNamed(signal: string): string | undefined {
  const name = signal.trim();
  if (/^(?:gnd|ground|0\s*v)$/i.test(name)) return "GND";
  return /^[+\u2212-]\s*\d+(?:[.,]\d+)?\s*v$/i.test(name) ? railNamed(name)?.name : undefined;
}

/** "U2 pins 1 and 19 are wired to ground" in running words. */
export function tiesStated(block: LogBlock): LocatedStatement<LinkStated>[] {
  return proseIn(block).flatMap(({ text, start }) =>
    sentencesOf(text).flatMap(({ index, sentence }): LocatedStatement<LinkStated>[] => {
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

const link = (pin: LinkEnd, net: string, span: Span): LocatedStatement<LinkStated> => ({
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

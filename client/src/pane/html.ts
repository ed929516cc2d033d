// The pane at arm's length as HTML: the reading just taken, its verdict in word and shape, the pin that comes next. Everything
// but the pictures is escaped; those are the server's own.
import { type Html, html, joinedHtml, markup, ownHtml } from "../../../server/src/text/html";

export interface PaneContent {
  readonly reading?: {
    readonly text: string;
    /** "out-of-limits": part of a style's name. */
    readonly verdict: string;
    /** The verdict's shape, as an `<svg>` element. */
    readonly shape: string;
    readonly words: string;
    readonly sentence: string;
  };
  readonly next?: {
    /** "U14 pin 7". */
    readonly title: string;
    /** What the pin is called, or its net. */
    readonly name?: string;
    /** "0.4 V to 0.7 V". */
    readonly expect?: string;
    /** What to do, where it is more than to read that pin. */
    readonly action?: string;
    readonly cautions: readonly string[];
    readonly picture?: { readonly svg: string; readonly alt: string };
  };
}

export interface PaneWords {
  readonly title: string;
  readonly noReading: string;
  readonly next: string;
  readonly nothingNext: string;
  readonly expect: string;
  readonly caution: string;
}

const NAME = /[^a-z-]/g;

/** What stands in the page's main part. */
export function paneBody({ reading, next }: PaneContent, words: PaneWords): Html {
  const taken = reading
    ? markup`<p class="value">${html(reading.text)}</p><p class="verdict"><span class="shape">${ownHtml(reading.shape)}</span> ${html(reading.words)}</p>`
    : markup`<p class="none">${html(words.noReading)}</p>`;
  const coming = next ? comingHtml(next, words) : markup`<p class="none">${html(words.nothingNext)}</p>`;
  const picture = next?.picture ? markup`<div class="picture">${ownHtml(next.picture.svg)}</div>` : "";
  const kind = html(reading ? reading.verdict.replace(NAME, "") : "no-reading");
  return joinedHtml([
    markup`<section class="reading ${kind}" aria-label="${html(words.title)}">${taken}</section>`,
    markup`<section class="next" aria-label="${html(words.next)}"><div class="told">${coming}</div>${picture}</section>`,
  ]);
}

function comingHtml(next: NonNullable<PaneContent["next"]>, words: PaneWords): Html {
  const name = next.name === undefined ? "" : markup` <span class="name">${html(next.name)}</span>`;
  return joinedHtml([
    markup`<h2>${html(words.next)}</h2>`,
    markup`<p class="pin"><span class="at">${html(next.title)}</span>${name}</p>`,
    next.expect === undefined ? "" : markup`<p class="expect">${html(words.expect)} ${html(next.expect)}</p>`,
    next.action === undefined ? "" : markup`<p class="action">${html(next.action)}</p>`,
    ...next.cautions.map(
      (text) => markup`<p class="caution"><strong>${html(words.caution)}</strong> ${html(text)}</p>`,
    ),
  ]);
}

/** The same as one says it: the verdict, then the pin. */
export function paneSpeech({ reading, next }: PaneContent, words: PaneWords): string {
  return [
    ...(reading ? [`${reading.text}: ${reading.words}.`] : []),
    ...(next
      ? [
          ...next.cautions,
          `${words.next}: ${[next.title, next.name].filter(Boolean).join(", ")}.`,
          ...(next.expect === undefined ? [] : [`${words.expect} ${next.expect}.`]),
        ]
      : []),
  ].join(" ");
}

/**
 * The whole page; nothing is loaded from anywhere.
 * @param nonce marks the style and the script that may count
 */
export const panePage = (title: string, style: string, script: string, nonce: string): Html =>
  joinedHtml([
    markup`<!DOCTYPE html>`,
    markup`<html><head><meta charset="utf-8">`,
    markup`<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'nonce-${html(nonce)}'; script-src 'nonce-${html(nonce)}'">`,
    markup`<title>${html(title)}</title><style nonce="${html(nonce)}">${ownHtml(style)}</style></head>`,
    markup`<body><main id="shown"></main><p id="said" role="status" aria-live="polite" class="said"></p>`,
    markup`<script nonce="${html(nonce)}">${ownHtml(script)}</script></body></html>`,
  ]);

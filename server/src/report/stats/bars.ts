// A row of bars, longest first, each with its count written behind it. Lengths and words carry it, no colour.
import { type Html, html, joinedHtml, markup } from "../../text/html";

export interface Bar {
  readonly label: string;
  readonly count: number;
  /** "5 of 12 jobs". */
  readonly text: string;
}

const WIDTH = 480;
const LEFT = 130;
const LONGEST = 220;
const ROW = 22;
/** Letters of a label that fit in front of the bars; the table beside the drawing has all of it. */
const LETTERS = 18;

/**
 * @param id unique in the page; a letter first
 * @param title the drawing in words
 */
export function barsSvg(bars: readonly Bar[], id: Html, title: string): Html {
  const most = Math.max(...bars.map(({ count }) => count), 1);
  const rows = bars.map(({ label, count, text }, at) => {
    const y = at * ROW + 2;
    const width = (count / most) * LONGEST;
    return joinedHtml(
      [
        markup`<text x="${LEFT - 8}" y="${y + 14}" text-anchor="end">${html(shortened(label))}</text>`,
        markup`<rect class="bar" x="${LEFT}" y="${y + 3}" width="${Math.round(width * 10) / 10}" height="${ROW - 8}"/>`,
        markup`<text x="${Math.round(LEFT + width + 8)}" y="${y + 14}">${html(text)}</text>`,
      ],
      "",
    );
  });
  const said = `${title}: ${bars.map(({ label, text }) => `${label} ${text}`).join("; ")}`;
  return markup`<svg viewBox="0 0 ${WIDTH} ${bars.length * ROW + 4}" role="img" aria-labelledby="${id}"><title id="${id}">${html(said)}</title>${joinedHtml(rows, "")}</svg>`;
}

const shortened = (label: string): string => {
  const letters = [...label];
  return letters.length > LETTERS ? `${letters.slice(0, LETTERS - 1).join("")}…` : label;
};

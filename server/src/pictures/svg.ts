// What every picture is made of: text that is safe in XML, the colours, and the panel that makes a picture readable
// on any theme. Nothing here refers to anything outside the picture, and nothing in it runs.

/** A picture and the same in words, for those who do not see it. */
export interface Picture {
  readonly svg: string;
  readonly alt: string;
  /** CSS pixels. */
  readonly width: number;
  readonly height: number;
}

/** Widest a picture gets, in CSS pixels: what a hover holds without scrolling sideways. */
export const WIDEST = 420;

/** The colours. Every picture brings its own ground, so that they hold on light, dark and high-contrast themes. */
export const INK = {
  panel: "#fbfaf7",
  frame: "#5a5f66",
  text: "#1c1f23",
  faint: "#50555c",
  body: "#30353c",
  onBody: "#ffffff",
  pin: "#7f858d",
  grid: "#747a82",
  bad: "#8c1d18",
  doubt: "#7a4a00",
  calm: "#0f5a46",
  stuck: "#1f3d7a",
  ghost: "#5b2a86",
} as const;

/** Which colours stand on which, for text (`text`) and for shapes that carry a meaning (`shape`). */
export const PAIRS: readonly { readonly ink: string; readonly on: string; readonly as: "text" | "shape" }[] =
  [
    ...([INK.text, INK.faint, INK.bad, INK.doubt, INK.calm, INK.stuck, INK.ghost] as const).map((ink) => ({
      ink,
      on: INK.panel,
      as: "text" as const,
    })),
    ...([INK.body, INK.bad, INK.stuck] as const).map((on) => ({ ink: INK.onBody, on, as: "text" as const })),
    ...([INK.frame, INK.grid, INK.pin] as const).map((ink) => ({ ink, on: INK.panel, as: "shape" as const })),
  ];

/** Text as XML takes it: markup escaped, and what XML has no place for replaced. */
export const xml = (text: string): string =>
  text
    .replace(/\p{Surrogate}/gu, "\ufffd")
    .replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/g, "\ufffd")
    .replace(/&/g, "&amp;")
    .replace(/</g, "&lt;")
    .replace(/>/g, "&gt;")
    .replace(/"/g, "&quot;");

/** About how wide a text is drawn; a little wide for most fonts, since nobody knows which the system has. */
export function widthOf(text: string, size: number): number {
  let ems = 0;
  for (const char of text) {
    if (/[ijl.,:;|!'()[\]/ ]/.test(char)) ems += 0.38;
    else if (/[MWmw@%]/.test(char)) ems += 0.95;
    else if (/[a-z\d_-]/.test(char)) ems += 0.62;
    else ems += /[A-Z]/.test(char) ? 0.7 : 1;
  }
  return ems * size;
}

/** The text, cut with an ellipsis where it is wider than `room`. */
export function fitted(text: string, room: number, size: number): string {
  if (widthOf(text, size) <= room) return text;
  let kept = "";
  for (const char of text) {
    if (widthOf(`${kept}${char}…`, size) > room) break;
    kept += char;
  }
  return `${kept}…`;
}

/** Two decimals at most: pictures of the same thing are the same text. */
export const n = (value: number): string => String(Math.round(value * 100) / 100);

export const FONT = "system-ui,-apple-system,'Segoe UI',Roboto,'Noto Sans','DejaVu Sans',sans-serif";

export interface Entry {
  /** Id of a mark among the definitions. */
  readonly id: string;
  readonly words: string;
}

const ENTRY_SIZE = 11;
const LEGEND_LINE = 19;

/** The marks that occur with their words, in as many lines as they need. */
export function legend(
  entries: readonly Entry[],
  { left, top, width }: { readonly left: number; readonly top: number; readonly width: number },
): { readonly svg: string; readonly height: number } {
  let x = left;
  let y = top + LEGEND_LINE / 2;
  const drawn = entries.map(({ id, words }) => {
    const needed = 35 + widthOf(words, ENTRY_SIZE) + 10;
    if (x > left && x + needed > left + width) {
      x = left;
      y += LEGEND_LINE;
    }
    const at = x;
    x += needed;
    return `<use href="#${id}" x="${n(at + 8)}" y="${n(y)}"/><text x="${n(at + 33)}" y="${n(y + 4)}">${xml(words)}</text>`;
  });
  if (drawn.length === 0) return { svg: "", height: 0 };
  return {
    svg: `<g font-size="${ENTRY_SIZE}" fill="${INK.text}">${drawn.join("")}</g>`,
    height: y + LEGEND_LINE / 2 - top,
  };
}

/** The whole picture: its panel, its title and description for screen readers, definitions, content. */
export function picture(parts: {
  readonly title: string;
  readonly alt: string;
  readonly width: number;
  readonly height: number;
  readonly defs: string;
  readonly content: string;
}): Picture {
  const { title, alt } = parts;
  const width = Math.ceil(parts.width);
  const height = Math.ceil(parts.height);
  const svg = [
    `<svg xmlns="http://www.w3.org/2000/svg" width="${width}" height="${height}" viewBox="0 0 ${width} ${height}" role="img" font-family="${FONT}">`,
    `<title>${xml(title)}</title><desc>${xml(alt)}</desc>`,
    `<defs>${parts.defs}</defs>`,
    `<rect x=".5" y=".5" width="${width - 1}" height="${height - 1}" rx="6" fill="${INK.panel}" stroke="${INK.frame}"/>`,
    parts.content,
    "</svg>",
  ].join("");
  return { svg, alt, width, height };
}

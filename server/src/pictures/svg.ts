// on any theme. Nothing here refers to anything outside the picture, and nothing in it runs.

import { xml } from "../text/html";

/** A picture and the same in words, for those who do not see it. */
export interface Picture {
  readonly svg: string;
  readonly alt: string;
  /** CSS pixels. */
  readonly width: number;
  readonly height: number;
}

/** Widest a picture gets, in CSS pixels: what a hover holds without scrolling sideways. */
export const WIDEST_PICTURE = 420;

/** Whom the colours are for. */
export type Theme = "light" | "dark" | "high-contrast" | "high-contrast-light";

/**
 * The colours by what they are for: `onBody` is text on a chip's body, `onMark` what stands on a ground of `bad` or
 * `stuck`. The pairs that have to be told apart are in `PAIRS`, and a test measures them.
 */
export const PALETTES = {
  light: {
    panel: "#fbfaf7",
    frame: "#5a5f66",
    text: "#1c1f23",
    faint: "#50555c",
    body: "#30353c",
    onBody: "#ffffff",
    onMark: "#ffffff",
    pin: "#7f858d",
    grid: "#747a82",
    bad: "#8c1d18",
    doubt: "#7a4a00",
    calm: "#0f5a46",
    stuck: "#1f3d7a",
    ghost: "#5b2a86",
  },
  dark: {
    panel: "#22252a",
    frame: "#8a9099",
    text: "#e8eaed",
    faint: "#b4bac2",
    body: "#454b54",
    onBody: "#ffffff",
    onMark: "#15171a",
    pin: "#9aa1aa",
    grid: "#7f868f",
    bad: "#ff9d94",
    doubt: "#f0bd62",
    calm: "#7fd0b4",
    stuck: "#9dbdff",
    ghost: "#d5aef5",
  },
  "high-contrast": {
    panel: "#000000",
    frame: "#ffffff",
    text: "#ffffff",
    faint: "#ffffff",
    body: "#000000",
    onBody: "#ffffff",
    onMark: "#000000",
    pin: "#ffffff",
    grid: "#ffffff",
    bad: "#ff9d94",
    doubt: "#ffd04d",
    calm: "#7df0c8",
    stuck: "#a9c7ff",
    ghost: "#e6c2ff",
  },
  "high-contrast-light": {
    panel: "#ffffff",
    frame: "#000000",
    text: "#000000",
    faint: "#000000",
    body: "#ffffff",
    onBody: "#000000",
    onMark: "#ffffff",
    pin: "#000000",
    grid: "#000000",
    bad: "#7a0f0b",
    doubt: "#5e3800",
    calm: "#00452f",
    stuck: "#12306b",
    ghost: "#4a1a75",
  },
} as const satisfies Readonly<Record<Theme, Readonly<Record<string, string>>>>;

export type InkName = keyof (typeof PALETTES)["light"];

const INK_NAMES = Object.keys(PALETTES.light) as InkName[];

/** A colour's name for styles. */
export const inkVariable = (name: InkName): string =>
  `--mendlog-${name.replace(/[A-Z]/g, "-$&").toLowerCase()}`;

/** The colours as pictures name them: by a variable that whoever shows the picture may set, light where nobody does. */
export const INK = Object.fromEntries(
  INK_NAMES.map((name) => [name, `var(${inkVariable(name)},${PALETTES.light[name]})`]),
) as Readonly<Record<InkName, string>>;

const on = (ground: InkName, as: "text" | "shape", ...inks: readonly InkName[]) =>
  inks.map((ink) => ({ ink, on: ground, as }));

/** Which colours stand on which, for text (`text`) and for shapes that carry a meaning (`shape`). */
export const PAIRS: readonly {
  readonly ink: InkName;
  readonly on: InkName;
  readonly as: "text" | "shape";
}[] = [
  ...on("panel", "text", "text", "faint", "bad", "doubt", "calm", "stuck", "ghost"),
  ...on("body", "text", "onBody"),
  ...on("bad", "text", "onMark"),
  ...on("stuck", "text", "onMark"),
  ...on("panel", "shape", "frame", "grid", "pin"),
];

/**
 * The picture with the colours of a theme written into it, for where nobody sets the variables: an image knows nothing
 * of what is around it. Typed text has its quotes escaped and so never looks like an attribute.
 */
export function themed(svg: string, theme: Theme): string {
  const colours: Readonly<Record<string, string>> = PALETTES[theme];
  const byVariable = new Map(INK_NAMES.map((name) => [inkVariable(name), colours[name]]));
  return svg.replace(
    /="var\((--mendlog-[a-z-]+),(#[\da-f]{6})\)"/g,
    (_, name: string, light: string) => `="${byVariable.get(name) ?? light}"`,
  );
}

/**
 * The picture fit to stand in a page beside others: ids are the page's, so each is given this prefix.
 */
export const inlined = (svg: string, prefix: string): string =>
  svg
    .replace(/ id="/g, `$&${prefix}`)
    .replace(/ href="#/g, `$&${prefix}`)
    .replace(/="url\(#/g, `$&${prefix}`);

/** About how wide a text is drawn; a little wide for most fonts, since nobody knows which the system has. */
export function textWidth(text: string, size: number): number {
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
  if (textWidth(text, size) <= room) return text;
  let kept = "";
  for (const char of text) {
    if (textWidth(`${kept}${char}…`, size) > room) break;
    kept += char;
  }
  return `${kept}…`;
}

/** Two decimals at most: pictures of the same thing are the same text. */
export const n = (value: number): string => String(Math.round(value * 100) / 100);

export const FONT = "system-ui,-apple-system,'Segoe UI',Roboto,'Noto Sans','DejaVu Sans',sans-serif";

export interface LegendEntry {
  /** Id of a mark among the definitions. */
  readonly id: string;
  readonly words: string;
}

const ENTRY_SIZE = 11;
const LEGEND_LINE = 19;

/** The marks that occur with their words, in as many lines as they need. */
export function legend(
  entries: readonly LegendEntry[],
  { left, top, width }: { readonly left: number; readonly top: number; readonly width: number },
): { readonly svg: string; readonly height: number } {
  let x = left;
  let y = top + LEGEND_LINE / 2;
  const drawn = entries.map(({ id, words }) => {
    const needed = 35 + textWidth(words, ENTRY_SIZE) + 18;
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

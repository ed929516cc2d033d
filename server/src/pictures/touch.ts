// Where to put the probe: the outline of a chip with one pin marked, drawn to be read from two metres.

import { xml } from "../text/html";
import { type ChipInput, outlineOf } from "./chip";
import { fitted, INK, n, type Picture, picture, WIDEST_PICTURE } from "./svg";

export interface TouchInput extends Pick<ChipInput, "title" | "package"> {
  /** Number of the pin. */
  readonly pin: string;
  readonly name: string;
}

const ROW = 24;
const TALL = 200;
const BODY = 110;
const TOP = 40;
const EDGE = 8;
const STUB = 16;
const NUMBER = 54;
const NAME = 22;
const SMALL = 12;
/** Long enough to be seen as an arrow from afar. */
const ARROW = 66;

/** The picture; undefined for a package whose pins stand in no row, and for a pin that is not one of its numbers. */
export function touchPicture({ title, package: own, pin, name }: TouchInput): Picture | undefined {
  const outline = outlineOf(own);
  const index = Number(pin) - 1;
  if (outline !== "dual" && outline !== "single") return undefined;
  if (!Number.isInteger(index) || index < 0 || index >= own.pins) return undefined;
  const half = outline === "dual" ? own.pins / 2 : own.pins;
  const isRight = index >= half || outline === "single";
  // Tall enough for the pin's number beside it, however few pins there are.
  const row = Math.max(ROW, TALL / half);
  const rowOf = (at: number): number => (at < half ? at : own.pins - 1 - at);
  const y = (at: number): number => TOP + 6 + row * (rowOf(at) + 0.5);
  const bodyLeft = (WIDEST_PICTURE - BODY) / 2;
  const bodyHeight = half * row + 12;
  const side = (at: number): boolean => at >= half || outline === "single";
  const pins = Array.from({ length: own.pins }, (_, at) => at);
  const stubs = pins.map((at) => {
    const x = side(at) ? bodyLeft + BODY : bodyLeft - STUB;
    const touched = at === index;
    return `<path d="M${n(x)} ${n(y(at) - (touched ? 8 : 5))}h${STUB}v${touched ? 16 : 10}h-${STUB}z" fill="${touched ? INK.text : INK.pin}"/>`;
  });
  const numbers = pins.map((at) => {
    const x = side(at) ? bodyLeft + BODY - 6 : bodyLeft + 6;
    const touched = at === index ? ' font-weight="800" font-size="17"' : "";
    return `<text x="${n(x)}" y="${n(y(at) + 4.5)}"${side(at) ? ' text-anchor="end"' : ""}${touched}>${at + 1}</text>`;
  });
  const notch =
    outline === "dual"
      ? `<path d="M${n(WIDEST_PICTURE / 2 - 13)} ${TOP}a13 13 0 0 0 26 0" fill="${INK.panel}" stroke="${INK.frame}" stroke-width="2"/>`
      : `<circle cx="${n(bodyLeft + 18)}" cy="${n(y(0))}" r="5" fill="${INK.panel}" stroke="${INK.frame}"/>`;
  const bottom = TOP + bodyHeight;
  const tip = isRight ? bodyLeft + BODY + STUB + 4 : bodyLeft - STUB - 4;
  const way = isRight ? 1 : -1;
  const at = y(index);
  const arrow =
    `<path d="M${n(tip)} ${n(at)}l${way * 24} -16v9h${way * (ARROW - 24)}v14h${way * (24 - ARROW)}v9z" ` +
    `fill="${INK.text}"/>`;
  // The number stands below the arrow in the upper half of the drawing, and above it in the lower.
  const column = isRight ? (tip + WIDEST_PICTURE) / 2 : tip / 2;
  const fits = at < TOP + bodyHeight / 2;
  const numberY = fits ? at + 18 + NUMBER * 0.8 : at - 24;
  const nameY = fits ? numberY + NAME + 4 : numberY - NUMBER * 0.8 - 6;
  const room = isRight ? WIDEST_PICTURE - tip - EDGE : tip - EDGE;
  const words =
    `<g text-anchor="middle" fill="${INK.text}" font-weight="800">` +
    `<text x="${n(column)}" y="${n(numberY)}" font-size="${NUMBER}">${xml(pin)}</text>` +
    `<text x="${n(column)}" y="${n(nameY)}" font-size="${NAME}">${xml(fitted(name, room, NAME * 1.06))}</text></g>`;
  const alt = touchWords({ title, package: own, pin, name });
  const seen = outline === "dual" ? "From above: mirrored from below" : "The row of legs, pin 1 at the dot";
  return picture({
    title,
    alt,
    width: WIDEST_PICTURE,
    height: bottom + 30,
    defs: "",
    content: [
      `<text x="${WIDEST_PICTURE / 2}" y="27" text-anchor="middle" font-size="20" font-weight="700" fill="${INK.text}">${xml(fitted(title, WIDEST_PICTURE - 2 * EDGE, 21))}</text>`,
      ...stubs,
      `<rect x="${n(bodyLeft)}" y="${TOP}" width="${BODY}" height="${n(bodyHeight)}" rx="4" fill="${INK.body}" stroke="${INK.frame}" stroke-width="2"/>${notch}`,
      `<g font-size="${SMALL}" fill="${INK.onBody}" font-weight="600">${numbers.join("")}</g>`,
      arrow,
      words,
      `<text x="${WIDEST_PICTURE / 2}" y="${bottom + 20}" text-anchor="middle" font-size="${SMALL}" fill="${INK.faint}">${seen}</text>`,
    ].join(""),
  });
}

/** The same in words: which row the pin is in, and how far along. */
export function touchWords({ title, package: own, pin, name }: TouchInput): string {
  const index = Number(pin) - 1;
  const half = own.pins / 2;
  const named = name === "" ? "" : `, ${name}`;
  if (outlineOf(own) !== "dual" || !Number.isInteger(index))
    return `${title}, ${own.name}: put the probe on pin ${pin}${named}.`;
  const where =
    index < half
      ? `on the left, ${nth(index + 1)} from the notch`
      : `on the right, ${nth(own.pins - index)} from the notch`;
  return `${title}, ${own.name}, notch up, from above: put the probe on pin ${pin}${named}, ${where}.`;
}

const nth = (count: number): string =>
  count === 1 ? "first" : count === 2 ? "second" : count === 3 ? "third" : `${count}th`;

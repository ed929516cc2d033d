// A part's outline as it lies on the bench, its pins with their names and nets, and what was said of each pin.
import type { Verdict } from "../compute/verdict";
import { xml } from "../text/html";
import { MARK_WIDTH, VERDICT_MARKS, VERDICTS, verdictDefs, verdictId } from "./marks";
import { fitted, INK, legend, n, type Picture, picture, textWidth, WIDEST_PICTURE } from "./svg";

export interface ChipPin {
  readonly number: string;
  readonly name: string;
  readonly net?: string;
  /** Left out for a pin without a reading. */
  readonly verdict?: Verdict;
}

/** A part to be drawn: its title, its case, and what is shown at each pin. */
export interface ChipInput {
  /** "U14 74LS14". */
  readonly title: string;
  readonly package: { readonly name: string; readonly pins: number };
  readonly pins: readonly ChipPin[];
}

type Outline = "dual" | "single" | "legs" | "tab";

/** Packages by name. Those with their legs in no row (TO-3, TO-5) or two of them only have no picture. */
const OUTLINES: readonly (readonly [RegExp, Outline])[] = [
  [/^[A-Z]*DI[PL]-?\d*$/i, "dual"],
  [/^[A-Z]*SI[PL]-?\d*$/i, "single"],
  [/^TO-?92[A-Z]?$/i, "legs"],
  [/^TO-?(?:126|202|218|220|247)[A-Z]*$/i, "tab"],
];

/** More pins than any package drawn here has. */
const MOST_PINS = 64;

export function outlineOf({ name, pins }: ChipInput["package"]): Outline | undefined {
  if (!Number.isInteger(pins) || pins < 2 || pins > MOST_PINS) return undefined;
  const outline = OUTLINES.find(([pattern]) => pattern.test(name.trim()))?.[1];
  if (outline === "dual") return pins % 2 === 0 ? outline : undefined;
  if (outline === "legs" || outline === "tab") return pins === 3 ? outline : undefined;
  return outline;
}

/** The picture; undefined for a package it has no outline for. */
export function chipPicture(input: ChipInput): Picture | undefined {
  const outline = outlineOf(input.package);
  if (!outline) return undefined;
  const byNumber = new Map(input.pins.map((pin) => [pin.number, pin]));
  const pins = Array.from({ length: input.package.pins }, (_, i): ChipPin => {
    const number = String(i + 1);
    return byNumber.get(number) ?? { number, name: "" };
  });
  return outline === "legs" || outline === "tab"
    ? threeLegs(input, pins, outline)
    : rowsOfPins(input, pins, outline);
}

/** The same in words, the heaviest verdicts first. */
export function chipWords({ title, package: { name }, pins }: ChipInput): string {
  const said = VERDICTS.flatMap((verdict) => {
    const at = pins.filter((pin) => pin.verdict === verdict).map(({ number }) => number);
    if (at.length === 0) return [];
    return `${VERDICT_MARKS[verdict].words.toLowerCase()}: pin${at.length > 1 ? "s" : ""} ${at.join(", ")}`;
  });
  return `${title}, ${name}. ${said.length > 0 ? said.join("; ") : "No pin of it has a reading in this log"}.`;
}

const EDGE = 10;
const TITLE_SIZE = 13;
const SMALL = 11;
/** Where the drawing begins, below the title and the line that says how to look at it. */
const TOP = 46;

function heading({ title }: ChipInput, seen: string, width: number): string {
  const room = width - 2 * EDGE;
  return (
    `<text x="${EDGE}" y="20" font-size="${TITLE_SIZE}" font-weight="700" fill="${INK.text}">${xml(fitted(title, room, TITLE_SIZE * 1.06))}</text>` +
    `<text x="${EDGE}" y="35" font-size="${SMALL}" fill="${INK.faint}">${xml(fitted(seen, room, SMALL))}</text>`
  );
}

const entriesOf = (pins: readonly ChipPin[]) =>
  VERDICTS.filter((verdict) => pins.some((pin) => pin.verdict === verdict)).map((verdict) => ({
    id: verdictId(verdict),
    words: VERDICT_MARKS[verdict].words.toLowerCase(),
  }));

const verdictsOf = (pins: readonly ChipPin[]): Verdict[] => pins.flatMap(({ verdict }) => verdict ?? []);

const ROW = 19;
const BODY = 58;
const STUB = 9;
const GAP = 6;
/** Between the name of a pin and its net, which are often the same word. */
const NET_GAP = 12;

function rowsOfPins(input: ChipInput, pins: readonly ChipPin[], outline: "dual" | "single"): Picture {
  const half = outline === "dual" ? pins.length / 2 : pins.length;
  const sides = outline === "dual" ? 2 : 1;
  const room = (WIDEST_PICTURE - 2 * EDGE - BODY) / sides - STUB - MARK_WIDTH - 2 * GAP - NET_GAP;
  const { name, net } = columns(pins, room);
  const side = STUB + GAP + MARK_WIDTH + GAP + name + (net > 0 ? NET_GAP + net : 0);
  const seen =
    outline === "dual"
      ? "From above, the component side: mirrored from below."
      : "The row of legs, pin 1 at the dot.";
  const entries = entriesOf(pins);
  const least = Math.max(textWidth(input.title, TITLE_SIZE * 1.06), textWidth(seen, SMALL)) + 2 * EDGE;
  const drawn = 2 * EDGE + BODY + sides * side;
  const width = Math.min(WIDEST_PICTURE, Math.max(least, drawn));
  const bodyLeft = outline === "dual" ? (width - BODY) / 2 : EDGE + (width - drawn) / 2;
  const bodyHeight = half * ROW + 8;
  const y = (index: number): number => TOP + 4 + ROW * (index + 0.5);

  const at = pins.map((pin, i) => {
    const right = outline === "single" || i >= half;
    return { pin, right, y: y(i < half ? i : pins.length - 1 - i) };
  });
  const column = (right: boolean, from: number): number => (right ? bodyLeft + BODY + from : bodyLeft - from);
  const texts = (
    right: boolean,
    from: number,
    of: (pin: ChipPin) => string | undefined,
    room: number,
    size: number,
  ) =>
    at
      .filter((each) => each.right === right && of(each.pin))
      .map(
        (each) =>
          `<text x="${n(column(right, from))}" y="${n(each.y + 4)}">${xml(fitted(of(each.pin) ?? "", room, size))}</text>`,
      )
      .join("");
  const nameFrom = STUB + GAP + MARK_WIDTH + GAP;
  const group = (right: boolean): string =>
    `<g text-anchor="${right ? "start" : "end"}">` +
    `<g font-weight="600" fill="${INK.text}">${texts(right, nameFrom, (pin) => pin.name, name, NAME_SIZE)}</g>` +
    `<g fill="${INK.faint}">${texts(right, nameFrom + name + NET_GAP, (pin) => pin.net, net, SMALL)}</g></g>`;
  const stubs = at
    .map(
      ({ right, y }) => `<path d="M${n(column(right, right ? 0 : STUB))} ${n(y - 4)}h${STUB}v8h-${STUB}z"/>`,
    )
    .join("");
  const marks = at
    .filter(({ pin }) => pin.verdict)
    .map(({ pin, right, y }) => {
      // The shape stands next to the pin on both sides as far as the letter behind it allows.
      const x = right ? column(true, STUB + GAP + 7) : column(false, STUB + GAP + MARK_WIDTH - 7);
      return `<use href="#${verdictId(pin.verdict as Verdict)}" x="${n(x)}" y="${n(y)}"/>`;
    })
    .join("");
  const numbers = at
    .map(
      ({ pin, right, y }) =>
        `<text x="${n(right && outline === "dual" ? bodyLeft + BODY - 6 : bodyLeft + (outline === "dual" ? 6 : BODY - 6))}" y="${n(y + 4)}"${right ? ' text-anchor="end"' : ""}>${pin.number}</text>`,
    )
    .join("");
  const middle = bodyLeft + BODY / 2;
  const notch =
    outline === "dual"
      ? `<path d="M${n(middle - 9)} ${TOP}a9 9 0 0 0 18 0" fill="${INK.panel}" stroke="${INK.frame}"/>`
      : `<circle cx="${n(bodyLeft + 14)}" cy="${n(y(0))}" r="4" fill="${INK.panel}" stroke="${INK.frame}"/>`;
  const below = TOP + bodyHeight + 8;
  const key = legend(entries, { left: EDGE, top: below, width: width - 2 * EDGE });
  return picture({
    title: input.title,
    alt: chipWords(input),
    width,
    height: below + key.height + (key.height > 0 ? 6 : 2),
    defs: verdictDefs(verdictsOf(pins)),
    content: [
      heading(input, seen, width),
      `<g fill="${INK.pin}">${stubs}</g>`,
      `<rect x="${n(bodyLeft)}" y="${TOP}" width="${BODY}" height="${n(bodyHeight)}" rx="3" fill="${INK.body}" stroke="${INK.frame}"/>${notch}`,
      `<g font-size="${SMALL}"><g fill="${INK.onBody}" font-weight="600">${numbers}</g>${group(true)}${outline === "dual" ? group(false) : ""}</g>`,
      marks,
      key.svg,
    ].join(""),
  });
}

/** Names are drawn bold, and so a little wider. */
const NAME_SIZE = SMALL * 1.06;

/** How wide the names and the nets may be on each side; nets give way first, to no less than half. */
function columns(pins: readonly ChipPin[], room: number): { readonly name: number; readonly net: number } {
  const name = Math.max(0, ...pins.map((pin) => textWidth(pin.name, NAME_SIZE)));
  const net = Math.max(0, ...pins.map((pin) => textWidth(pin.net ?? "", SMALL)));
  if (name + net <= room) return { name, net };
  const kept = Math.min(net, Math.max(room / 2, room - name));
  return { name: Math.min(name, room - kept), net: kept };
}

const LEG = 122;

/** Three legs in a row, seen as the part is held to read its name: legs down. */
function threeLegs(input: ChipInput, pins: readonly ChipPin[], outline: "legs" | "tab"): Picture {
  const width = 2 * EDGE + 3 * LEG;
  const x = (index: number): number => EDGE + LEG * (index + 0.5);
  const [left, right] = [x(0) - 26, x(2) + 26];
  const middle = x(1);
  const top = outline === "tab" ? TOP + 26 : TOP;
  const bottom = top + 38;
  const tab =
    outline === "tab"
      ? `<path d="M${n(middle - 60)} ${TOP}h120v26h-120z" fill="${INK.pin}"/><circle cx="${n(middle)}" cy="${TOP + 13}" r="7" fill="${INK.panel}" stroke="${INK.frame}"/>`
      : "";
  const body =
    outline === "tab"
      ? `<rect x="${n(left)}" y="${top}" width="${n(right - left)}" height="38" rx="3" fill="${INK.body}" stroke="${INK.frame}"/>`
      : `<path d="M${n(left)} ${bottom}v-20q0-18 18-18H${n(right - 18)}q18 0 18 18v20z" fill="${INK.body}" stroke="${INK.frame}"/>`;
  const legs = pins
    .map((pin, i) => {
      const at = n(x(i));
      const mark = pin.verdict
        ? `<use href="#${verdictId(pin.verdict)}" x="${n(x(i) - 6)}" y="${bottom + 36}"/>`
        : "";
      const line = (text: string | undefined, y: number, style: string, size: number): string =>
        text ? `<text x="${at}" y="${y}" ${style}>${xml(fitted(text, LEG - GAP, size))}</text>` : "";
      return (
        `<path d="M${n(x(i) - 4)} ${bottom}h8v22h-8z" fill="${INK.pin}"/>` +
        `<text x="${at}" y="${bottom - 9}" fill="${INK.onBody}" font-weight="600">${pin.number}</text>${mark}` +
        line(pin.name, bottom + 58, `font-weight="600" fill="${INK.text}"`, NAME_SIZE) +
        line(pin.net, bottom + 73, `fill="${INK.faint}"`, SMALL)
      );
    })
    .join("");
  const below = bottom + 82;
  const key = legend(entriesOf(pins), { left: EDGE, top: below, width: width - 2 * EDGE });
  const seen = `From the ${outline === "tab" ? "marked side, tab behind" : "flat side"}, legs down.`;
  return picture({
    title: input.title,
    alt: chipWords(input),
    width,
    height: below + key.height + (key.height > 0 ? 6 : 0),
    defs: verdictDefs(verdictsOf(pins)),
    content: `${heading(input, seen, width)}${tab}${body}<g font-size="${SMALL}" text-anchor="middle">${legs}</g>${key.svg}`,
  });
}

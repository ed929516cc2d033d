import { defined } from "../../base/defined";
import { hasBoardFile, type LogContext } from "../../judge/context";
import { pinWindow } from "../../judge/pin-window";
import type { Origin } from "../../judge/stated/origin";
import { partTestPoint, pinTestPoint, type TestPoint } from "../../judge/test-point";
import { doubtText, numberDoubtAdvice } from "../../knowledge/doubt-text";
import type { Library } from "../../knowledge/library";
import { normalPart } from "../../knowledge/part-number";
import type { Device, Family, Net } from "../../knowledge/types";
import { code, joined, type Markdown, markdown, md } from "../../text/markdown";
import type { Span } from "../../text/span";
import type { Hover } from "../types";
import type { LogView } from "../view";
import {
  circuitTitle,
  directionWords,
  fewOf,
  isNameless,
  joinedTo,
  netMembers,
  partTitle,
  pinsInOrder,
} from "./describe";
import { cautionLines } from "./documentation";
import { chipPictureFor } from "./hover-pictures";
import { hasNumber, isDesignator } from "./part-name";
import { replacedMarkdown } from "./shop-jobs";
import { originOf, saidLine } from "./stated";

/**
 * A part of the board: what it is, where, what may be fitted instead, and its pins.
 * @param from whose word it is, where it is not the board file's
 */
export const partMarkdown = (place: TestPoint, ctx: LogContext, from?: Origin): Markdown | undefined =>
  partTold(place, ctx, from)?.markdown;

interface PartTold {
  readonly markdown: Markdown;
  /** Where the table of its pins begins: its picture stands above it. */
  readonly pinsAt?: number;
}

function partTold(
  place: TestPoint,
  ctx: LogContext,
  from?: Origin,
  earlier?: Markdown,
): PartTold | undefined {
  const { part, device } = place;
  const board = ctx.board?.value;
  if (!part || !board) return undefined;
  const circuit = circuitTitle(part, board);
  const where = [
    circuit === undefined ? undefined : markdown`Circuit: ${md(circuit)}`,
    part.location === undefined ? undefined : markdown`Place on the board: ${md(part.location)}`,
  ];
  const what = [
    part.package === undefined ? undefined : md(part.package),
    // How a part sits in its board only a board file tells.
    device && hasBoardFile(ctx) ? (part.socketed ? markdown`in a socket` : markdown`soldered in`) : undefined,
    part.fits.length > 0 ? markdown`also fits: ${joined(part.fits.map(md), ", ")}` : undefined,
  ];
  // Few lines: the caution and the picture below are to be seen without scrolling.
  const facts = [where, what].map((of) => joined(of, " · ")).filter((line) => line !== "");
  const lines = [
    markdown`**${md(part.ref)}** ${md(partTitle(part, device))}`,
    ...saidLine(from),
    joined(facts, "  \n"),
    ...(part.note === undefined ? [] : [md(part.note)]),
    ...(earlier === undefined ? [] : [earlier]),
    ...cautionLines(device?.cautions ?? []),
  ];
  const above = joined(
    lines.filter((text) => text !== ""),
    "\n\n",
  );
  if (!device) return { markdown: above };
  const ahead = markdown`${above}\n\n`;
  return { markdown: markdown`${ahead}${pinTable(place, device, ctx)}`, pinsAt: ahead.length };
}

/** The part at a designator of the log; where nobody has said what it is, how that is said. */
function refTold(view: LogView, ref: string): PartTold | undefined {
  const { ctx } = view;
  const place = partTestPoint(ref, ctx.board?.value, ctx.library);
  const known = partTold(place, ctx, originOf(view, ref), replacedMarkdown(view, place.ref));
  if (known || hasBoardFile(ctx) || !isDesignator(ref, ctx.library) || !hasNumber(ref)) return known;
  return {
    markdown: markdown`**${md(ref)}**: this log does not say yet what it is. Write the number printed on it beside it, as in ${code(`${ref} (7404)`)} or in a column ${code("Device")}, and its readings are judged by that.`,
  };
}

/**
 * A part as a hover over its designator, with its picture where its pins are told; undefined where there is nothing to
 * tell.
 */
export function hoverPart(view: LogView, ref: string, span: Span): Hover | undefined {
  const told = refTold(view, ref);
  if (!told) return undefined;
  const { markdown, pinsAt } = told;
  return defined({
    span,
    markdown,
    picture: pinsAt === undefined ? undefined : chipPictureFor(view, ref, pinsAt),
  });
}

function pinTable(place: TestPoint, device: Device, ctx: LogContext): Markdown {
  const rows = pinsInOrder(device).map((pin) => {
    const at = pinTestPoint(place, pin.number, ctx.board?.value);
    return markdown`| ${md(pin.number)} | ${md(pin.name)} | ${md(directionWords(pin))} | ${md(joinedTo(at)[0] ?? at.net?.name ?? "")} |`;
  });
  return markdown`| Pin | Name | Direction | Net |\n|---|---|---|---|\n${joined(rows, "\n")}`;
}

/** One pin: name, direction, its net with everything on it, and what it should read unpowered. */
export function pinMarkdown(place: TestPoint, ctx: LogContext): Markdown | undefined {
  const { pin, device, part, net } = place;
  if (!device) return undefined;
  const number = pin?.number ?? place.pinTyped ?? "";
  if (!pin) {
    return markdown`**${md(place.ref)}** is a ${md(part?.device ?? device.id)} in a ${md(device.package.name)}: it has no pin ${md(number)}.`;
  }
  const window = pinWindow(place, ctx);
  const members = net ? netMembers(net, ctx, { ref: place.ref, pin: number }) : [];
  return joined(
    [
      markdown`**${md(place.ref)} pin ${md(number)}** ${md(pin.name)}, ${md(directionWords(pin))} · ${md(part?.device ?? device.id)}`,
      ...(net ? [netLine(net, members)] : []),
      ...(pin.note === undefined ? [] : [md(pin.note)]),
      md(window),
    ],
    "\n\n",
  );
}

const netLine = (net: Net, others: readonly string[]): Markdown =>
  isNameless(net)
    ? markdown`Joined to ${fewOf(others)}`
    : markdown`Net **${md(net.name)}**${others.length > 0 ? markdown` with ${fewOf(others)}` : ""}`;

/** A device of the library by itself. */
export function deviceMarkdown(
  typed: string,
  device: Device,
  family: Family | undefined,
  library: Library,
): Markdown {
  // The families of one pinout share their entry: what is asked about may be on its own list.
  const substitutes = device.substitutes
    .filter((substitute) => normalPart(substitute.part) !== normalPart(typed))
    .map((substitute) => markdown`- ${md(substitute.part)}: ${md(substitute.caution)}`);
  return joined(
    [
      markdown`**${md(typed)}** ${md(device.title)}`,
      joined([md(device.package.name), family ? md(family.title) : undefined].filter(Boolean), " · "),
      ...cautionLines(device.cautions),
      ...(device.note === undefined ? [] : [md(device.note)]),
      ...otherPartsLine(typed, library),
      ...(substitutes.length > 0 ? [markdown`**Substitutes**\n${joined(substitutes, "\n")}`] : []),
      markdown`*Source: ${md(device.source)}*`,
    ],
    "\n\n",
  );
}

/** Parts that makers' letters make of the same number, so that nobody takes one for the other. */
function otherPartsLine(typed: string, library: Library): Markdown[] {
  const others = library.others(typed).map(({ number, is, maker }) => `${number}: ${is} (${maker})`);
  return others.length > 0
    ? [markdown`With other letters the number is another part. ${md(others.join("; "))}`]
    : [];
}

/** A number that is not certain: what it may be, and what to do. Undefined for any other. */
export function doubtMarkdown(typed: string, library: Library): Markdown | undefined {
  const doubt = library.doubt(typed);
  return (
    doubt &&
    markdown`It is not certain what **${md(typed)}** is, so nothing is judged by its pins: ${md(doubtText(doubt))}. ${md(numberDoubtAdvice(doubt))}`
  );
}

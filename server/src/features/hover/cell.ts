import { defined } from "../../base/defined";
import { judgeBlock } from "../../judge";
import { findRail } from "../../judge/rail-name";
import { partTestPoint, pinTestPoint } from "../../judge/test-point";
import { headerWord } from "../../log/headers";
import type { CellText, Reading } from "../../log/model";
import type { CellPosition, HeaderPosition } from "../../log/position";
import { joined, type Markdown, markdown, md } from "../../text/markdown";
import { shift, touches } from "../../text/span";
import { noteMarkdown } from "../shared/apart";
import { byRef, fewOf } from "../shared/describe";
import { cautionLines, railDocumentation } from "../shared/documentation";
import { matrixPictureFor } from "../shared/hover-pictures";
import { refsOver } from "../shared/occurrences/tables";
import { refIn } from "../shared/part-name";
import { deviceMarkdown, doubtMarkdown, hoverPart, pinMarkdown } from "../shared/part-text";
import { originOf, originOfRail, saidLine } from "../shared/stated";
import { cautionsAt } from "../shared/work-cautions";
import type { Hover } from "../types";
import type { LogView } from "../view";
import { hoverDateCode } from "./date-code";
import { crossingMarkdown } from "./matrix";
import { imageMarkdown, memoryMarkdown, romMarkdown } from "./memory";
import { netMarkdown } from "./prose";
import { judgementMarkdown } from "./reading";
import { settingsMarkdown } from "./settings";

export function hoverCell(view: LogView, at: CellPosition, offset: number): Hover | undefined {
  // An empty cell tells what belongs in it, wherever in it the pointer is; the padding beside a text says nothing.
  const whole = at.cell.text === "" ? shift(at.cell.outer, at.placed.start) : at.span;
  if (!touches(whole, offset)) return undefined;
  const dated = hoverDateCode(view, at, offset);
  if (dated) return dated;
  const subject = at.table.rows[at.row]?.cells ?? {};
  const told = at.reading ? readingTold(view, at, at.reading) : cellTold(view, at, subject);
  if (!told) return undefined;
  // The designator alone where the cell says more than that.
  const named = at.role && !at.reading ? subject[at.role] : undefined;
  const own = named && shift(named.span, at.placed.start);
  const markdown = joined([...cautionLines(cautionsAt(at)), told.markdown], "\n\n");
  return { ...told, markdown, span: own && touches(own, offset) ? own : whole };
}

/** What a cell that says nothing else warns of. */
export function hoverCautions(at: CellPosition, offset: number): Hover | undefined {
  const cautions = touches(at.span, offset) ? cautionsAt(at) : [];
  return cautions.length > 0
    ? { span: at.span, markdown: joined(cautionLines(cautions), "\n\n") }
    : undefined;
}

type Told = Pick<Hover, "markdown" | "picture">;

function readingTold(view: LogView, at: CellPosition, reading: Reading): Told | undefined {
  const markdown = readingText(view, at);
  if (markdown === undefined) return undefined;
  const picture = matrixPictureFor(view, at.table, markdown, reading);
  return defined({ markdown, picture });
}

function cellTold(view: LogView, at: CellPosition, subject: Cells): Told | undefined {
  if (at.role === "ref") return subject.ref && hoverPart(view, subject.ref.text, at.span);
  const markdown = textFor(view, at, subject);
  return markdown === undefined ? undefined : { markdown };
}

type Cells = { readonly ref?: CellText; readonly pin?: CellText };

function textFor(view: LogView, at: CellPosition, subject: Cells): Markdown | undefined {
  const board = view.ctx.board?.value;
  const typed = at.cell.text;
  switch (at.role) {
    case "pin":
      return pinText(view, at, subject);
    case "rail": {
      const rail = board && findRail(board, typed);
      return rail && joined([railDocumentation(rail), ...saidLine(originOfRail(view, rail.name))], "\n\n");
    }
    case "signal": {
      const net = board?.nets.get(typed);
      return net && netMarkdown(view, net);
    }
    case "switch":
    case "setting":
      return settingsMarkdown(view, at);
    case "note":
      return noteMarkdown(view, at);
    case "part": {
      const found = view.ctx.library.device(typed);
      return found
        ? deviceMarkdown(typed, found.device, found.family, view.ctx.library)
        : doubtMarkdown(typed, view.ctx.library);
    }
    case "package":
    case "circuit":
      return listedMarkdown(view, at);
    default:
      return undefined;
  }
}

/** What is listed of the board beside a part's number: the case it is made in, or what else is of its circuit. */
function listedMarkdown({ ctx }: LogView, at: CellPosition): Markdown | undefined {
  const typed = at.cell.text;
  const { ref, part } = at.table.rows[at.row]?.cells ?? {};
  if (at.role === "package") {
    const device = part && ctx.library.device(part.text)?.device;
    return (
      device &&
      markdown`A ${md(part.text)} comes in a ${md(device.package.name)} with ${device.package.pins} pins.`
    );
  }
  const refs = [...(ctx.board?.value.parts.values() ?? [])].filter(({ circuit }) => circuit === typed);
  const others = refs.map((each) => each.ref).filter((each) => each !== ref?.text);
  const title = ctx.board?.value.circuits.get(typed)?.title ?? typed;
  return others.length > 0 ? markdown`**${md(title)}** with ${fewOf(others.sort(byRef))}` : undefined;
}

/** In a wide table the pin is that of several chips; each is told on a line of its own. */
function pinText(view: LogView, at: CellPosition, subject: Cells): Markdown | undefined {
  const board = view.ctx.board?.value;
  const refs = at.table.shape === "wide" ? refsOver(at.table, view.ctx.library) : [subject.ref?.text ?? ""];
  const texts = refs.flatMap((ref) => {
    if (ref === "" || !subject.pin) return [];
    return (
      pinMarkdown(
        pinTestPoint(partTestPoint(ref, board, view.ctx.library), subject.pin.text, board),
        view.ctx,
      ) ?? []
    );
  });
  return texts.length > 0 ? joined(texts, "\n\n---\n\n") : undefined;
}

function readingText(view: LogView, at: CellPosition): Markdown | undefined {
  const judgement = at.reading && judgeBlock(at.placed.block, view.ctx).get(at.reading);
  if (!judgement) return undefined;
  const crossing =
    crossingMarkdown(view, at) ??
    settingsMarkdown(view, at) ??
    memoryMarkdown(view, at) ??
    imageMarkdown(view, at) ??
    romMarkdown(view, at);
  const { verdict, code } = judgement;
  const told = code !== undefined || (verdict !== "unjudged" && verdict !== "not-measured");
  // Where there is no more to a crossing's reading than the word itself, its place is what there is to tell.
  if (crossing !== undefined && !told) return crossing;
  // A verdict names its knowledge: whose word it is what stands there.
  const { place } = judgement;
  const number = place?.device && place.part?.device;
  const from = number ? originOf(view, place.ref) : undefined;
  const whose = from
    ? [markdown`*${md(place?.ref ?? "")} is a ${md(number ?? "")}, ${md(from.words)}.*`]
    : [];
  return joined(
    [...(crossing === undefined ? [] : [crossing]), judgementMarkdown(judgement, view.ctx), ...whose],
    "\n\n",
  );
}

export function hoverHeaderCell(view: LogView, at: HeaderPosition): Hover | undefined {
  if (at.role === "ref") {
    return hoverPart(view, refIn(at.cell, view.ctx.library).text, at.span);
  }
  const column = at.table.columns[at.column];
  if (!column?.spec) {
    return {
      span: at.span,
      markdown: markdown`This column is not one the ${md(at.table.procedure.title.toLowerCase())} knows; its cells are not read.`,
    };
  }
  const { spec } = column;
  const unit = column.unit ?? spec.unit;
  const others = spec.headers.filter((header) => headerWord(header) !== headerWord(at.cell.text));
  return {
    span: at.span,
    markdown: joined(
      [
        markdown`**${md(at.table.procedure.title)}**: ${md(spec.measure ?? spec.role)}${unit === undefined ? "" : markdown`, in ${md(unit)} where a cell names no unit`}`,
        ...(others.length > 0 ? [markdown`Also written: ${joined(others.map(md), ", ")}`] : []),
      ],
      "\n\n",
    ),
  };
}

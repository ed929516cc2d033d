import { boardIndex } from "../../analysis/board-index";
import { hasNumber } from "../../analysis/comeback";
import type { Known } from "../../analysis/context";
import { findRail } from "../../analysis/judge/rail-name";
import { partPlace, pinNumber, pinPlace } from "../../analysis/place";
import type { Board } from "../../knowledge/types";
import { type Position, positionAt, wordInCell } from "../../log/position";
import { nodeAt, type YamlPath } from "../../syntax/yaml";
import { type Span, slice, touches } from "../../text/span";
import type { Definition, Target } from "../types";
import type { LogView } from "../view";

/** Where in the knowledge files what stands at the cursor is written down. */
export function defineLog(view: LogView, offset: number): Definition | undefined {
  const found = targetOf(view, positionAt(view.doc, offset), offset);
  // The padding beside a cell's text is nothing that could be asked about.
  if (!found || !touches(found.origin, offset)) return undefined;
  return { origin: found.origin, targets: [found.target] };
}

function targetOf(
  view: LogView,
  position: Position,
  offset: number,
): { origin: Span; target: Target } | undefined {
  const board = view.ctx.board;
  const inBoard = (origin: Span, path: YamlPath | undefined) => {
    const target = board && path && targetAt(board, path);
    return target && { origin, target };
  };
  const ofWord = (word: { readonly text: string; readonly span: Span } | undefined) => {
    if (!word) return undefined;
    const [ref, pin] = word.text.split(/[./-]/);
    return (
      inBoard(word.span, pin === undefined ? undefined : pinPath(view, ref, pin)) ??
      inBoard(word.span, refPath(board, ref)) ??
      inBoard(word.span, ["nets", word.text])
    );
  };
  switch (position.kind) {
    case "heading":
      return position.ref && inBoard(position.ref.span, refPath(board, position.ref.text));
    case "front":
      return frontTarget(view, position.place.path, position.place.span);
    case "header-cell":
      return position.role === "ref" ? inBoard(position.span, refPath(board, position.cell.text)) : undefined;
    case "cell": {
      const cells = position.table.rows[position.row]?.cells;
      switch (position.role) {
        case "ref":
          return inBoard(position.span, refPath(board, cells?.ref?.text));
        case "pin":
        case "reading": {
          const { ref, pin } = position.reading?.subject ?? cells ?? {};
          return inBoard(
            position.span,
            pinPath(view, ref?.text, pin?.text) ?? railPath(board, cells?.rail?.text),
          );
        }
        case "rail":
          return inBoard(position.span, railPath(board, position.cell.text));
        case "signal":
          return inBoard(position.span, ["nets", position.cell.text]);
        default:
          return ofWord(wordInCell(view.doc, position.span, offset));
      }
    }
    case "prose":
      return ofWord(position.word);
    default:
      return undefined;
  }
}

function frontTarget(
  view: LogView,
  path: YamlPath,
  origin: Span,
): { origin: Span; target: Target } | undefined {
  const { board, shop } = view.ctx;
  const typed = slice(view.doc.text, origin).replace(/^["']|["']$/g, "");
  const at = (known: Known<unknown> | undefined, to: YamlPath) => {
    const target = known && targetAt(known, to);
    return target && { origin, target };
  };
  switch (path[0]) {
    case "board":
      return at(board, ["id"]);
    case "revision":
      return at(board, ["revisions", typed]);
    case "symptoms":
      return at(board, ["symptoms", typed]);
    case "rom-set":
      return at(board, ["rom-sets", typed]);
    case "meter":
      return at(shop, ["meters", typed]);
    case "comeback-of": {
      const job = [...(view.earlier?.values() ?? [])].find(
        (log) => log.uri !== view.doc.uri && hasNumber(log, typed),
      );
      return job && { origin, target: { uri: job.uri, span: { start: 0, end: 0 } } };
    }
    default:
      return undefined;
  }
}

/** Where the board file describes a part, by its designator. */
export function partTarget({ ctx: { board } }: LogView, ref: string): Target | undefined {
  const path = refPath(board, ref);
  return board && path && targetAt(board, path);
}

/** Where the board file lists the pins of a net. */
export const netTarget = ({ ctx: { board } }: LogView, net: string): Target | undefined =>
  board && targetAt(board, ["nets", net]);

function targetAt(known: Known<unknown>, path: YamlPath): Target | undefined {
  const found = nodeAt(known.loaded.tree, path);
  return found && { uri: known.uri, span: found.keySpan ?? found.valueSpan };
}

function refPath(board: Known<Board> | undefined, typed: string | undefined): YamlPath | undefined {
  const ref = typed === undefined ? undefined : (/^\w+/.exec(typed)?.[0] ?? typed);
  const part = board && ref !== undefined ? boardIndex(board.value).part(ref) : undefined;
  return part && ["parts", part.ref];
}

/** The place in the net's list where the pin is named. */
function pinPath(view: LogView, ref: string | undefined, pin: string | undefined): YamlPath | undefined {
  const board = view.ctx.board?.value;
  if (!board || ref === undefined || pin === undefined) return undefined;
  const place = pinPlace(partPlace(ref, board, view.ctx.library), pin, board);
  const number = place.pin?.number ?? pinNumber(pin) ?? pin.trim();
  if (!place.net) return undefined;
  const index = place.net.pins.findIndex(
    (p) => p.ref.toUpperCase() === place.ref.toUpperCase() && p.pin.toUpperCase() === number.toUpperCase(),
  );
  return index < 0 ? ["nets", place.net.name] : ["nets", place.net.name, index];
}

function railPath(board: Known<Board> | undefined, typed: string | undefined): YamlPath | undefined {
  const rail = board && typed !== undefined ? findRail(board.value, typed) : undefined;
  return rail && ["rails", rail.name];
}

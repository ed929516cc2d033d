import type { Known } from "../../judge/context";
import { findRail } from "../../judge/rail-name";
import type { Origin } from "../../judge/stated/origin";
import { partTestPoint, pinNumber, pinTestPoint } from "../../judge/test-point";
import { boardIndex } from "../../knowledge/board-index";
import type { Board } from "../../knowledge/types";
import { jobIndex } from "../../log/job-index";
import { type Position, positionAt, wordInCell } from "../../log/position";
import { nodeAt, type YamlPath } from "../../syntax/yaml";
import { type Span, slice, touches } from "../../text/span";
import { refAt, refIn } from "../shared/part-name";
import { originOf, originOfNet, originOfRail, targetOfOrigin } from "../shared/stated";
import type { Definition, Target } from "../types";
import type { LogView } from "../view";

/** Where in the knowledge files what stands at the cursor is written down, or where in a log it was said. */
export function definitionInLog(view: LogView, offset: number): Definition | undefined {
  const found = targetsOf(view, positionAt(view.doc, offset), offset);
  // The padding beside a cell's text is nothing that could be asked about.
  if (!found || !touches(found.origin, offset)) return undefined;
  return found;
}

function targetsOf(view: LogView, position: Position, offset: number): Definition | undefined {
  const at = (origin: Span, targets: readonly Target[]): Definition | undefined =>
    targets.length > 0 ? { origin, targets } : undefined;
  const ofWord = (word: { readonly text: string; readonly span: Span } | undefined) => {
    if (!word) return undefined;
    const [ref = "", pin] = word.text.split(/[./-]/);
    return (
      at(word.span, pin === undefined ? [] : pinTargets(view, ref, pin)) ??
      at(word.span, partTargets(view, ref)) ??
      (view.ctx.stated?.rails.has(word.text) ? undefined : at(word.span, netTargets(view, word.text))) ??
      at(word.span, railTargets(view, word.text))
    );
  };
  switch (position.kind) {
    case "heading": {
      const ref = refAt(position, offset);
      return ref && at(ref.span, partTargets(view, ref.text));
    }
    case "front": {
      const found = frontTarget(view, position.place.path, position.place.span);
      return found && at(found.origin, [found.target]);
    }
    case "header-cell":
      return position.role === "ref"
        ? at(position.span, partTargets(view, refIn(position.cell, view.ctx.library).text))
        : undefined;
    case "cell": {
      const cells = position.table.rows[position.row]?.cells;
      switch (position.role) {
        case "ref":
          return at(position.span, partTargets(view, cells?.ref?.text));
        case "pin":
        case "reading": {
          const { ref, pin } = position.reading?.subject ?? cells ?? {};
          return (
            at(position.span, pinTargets(view, ref?.text, pin?.text)) ??
            at(position.span, railTargets(view, cells?.rail?.text))
          );
        }
        case "rail":
          return at(position.span, railTargets(view, position.cell.text));
        case "signal":
          return at(position.span, netTargets(view, position.cell.text));
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

/** What a log says of its own board goes before what the board file has in that place. */
function together(
  { ctx: { board } }: LogView,
  path: YamlPath | undefined,
  said: Origin | undefined,
): Target[] {
  const inFile = board && path && targetAt(board, path);
  return [...(said ? [targetOfOrigin(said)] : []), ...(inFile ? [inFile] : [])];
}

function partTargets(view: LogView, typed: string | undefined): Target[] {
  const ref = refOf(view.ctx.board, typed);
  return ref === undefined ? [] : together(view, ["parts", ref], originOf(view, ref));
}

function railTargets(view: LogView, typed: string | undefined): Target[] {
  const { board } = view.ctx;
  const rail = board && typed !== undefined ? findRail(board.value, typed) : undefined;
  return rail ? together(view, ["rails", rail.name], originOfRail(view, rail.name)) : [];
}

function netTargets(view: LogView, name: string): Target[] {
  const net = view.ctx.board?.value.nets.get(name);
  return net ? together(view, ["nets", name], originOfNet(view, net)) : [];
}

/** The place in the net's list where the pin is named, or where it was found joined to it. */
function pinTargets(view: LogView, ref: string | undefined, pin: string | undefined): Target[] {
  const board = view.ctx.board?.value;
  if (!board || ref === undefined || pin === undefined) return [];
  const place = pinTestPoint(partTestPoint(ref, board, view.ctx.library), pin, board);
  const { net } = place;
  if (!net) return [];
  const number = place.pin?.number ?? pinNumber(pin) ?? pin.trim();
  const index = net.pins.findIndex(
    (p) => p.ref.toUpperCase() === place.ref.toUpperCase() && p.pin.toUpperCase() === number.toUpperCase(),
  );
  const path = index < 0 ? ["nets", net.name] : ["nets", net.name, index];
  return together(view, path, originOfNet(view, net, net.pins[index]));
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
      const named = view.earlier ? jobIndex(view.earlier).numbered(typed) : [];
      const job = named.find(({ uri }) => uri !== view.doc.uri);
      return job && { origin, target: { uri: job.uri, span: { start: 0, end: 0 } } };
    }
    default:
      return undefined;
  }
}

/** Where a part is described, by its designator. */
export const partTarget = (view: LogView, ref: string): Target | undefined => partTargets(view, ref)[0];

/** Where the pins of a net are listed, or one was found joined to it. */
export const netTarget = (view: LogView, net: string): Target | undefined => netTargets(view, net)[0];

function targetAt(known: Known<unknown>, path: YamlPath): Target | undefined {
  const found = nodeAt(known.loaded.tree, path);
  return found && { uri: known.uri, span: found.keySpan ?? found.valueSpan };
}

function refOf(board: Known<Board> | undefined, typed: string | undefined): string | undefined {
  const ref = typed === undefined ? undefined : (/^\w+/.exec(typed)?.[0] ?? typed);
  return board && ref !== undefined ? boardIndex(board.value).part(ref)?.ref : undefined;
}

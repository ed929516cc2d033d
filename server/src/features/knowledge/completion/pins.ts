import { boardIndex } from "../../../analysis/board-index";
import { partPlace, pinPlace } from "../../../analysis/place";
import type { Board, DevicePin } from "../../../knowledge/types";
import { byRef, partLine, pinLine, pinsInOrder } from "../../describe";
import { type Derived, derivedOf } from "../derived";
import type { KnowledgeFile } from "../file";
import { textOf } from "../place";
import type { Provider, Value } from "./values";

/** Entries of a net. `U14.` brings the pins of U14, those on no net yet first; before the dot the parts. */
export const netEntries: Provider = ({ file, path, typed }) => {
  const derived = derivedOf(file);
  const { board } = derived;
  if (!board) return [];
  const dot = typed.indexOf(".");
  const ref = dot < 0 ? typed : typed.slice(0, dot);
  const net = String(path[1] ?? "");
  const own = pinsOf(file, board, ref, net).map(
    ({ pin, ...rest }): Value => ({ ...rest, label: `${ref}.${pin.number}`, words: pin.name }),
  );
  return dot < 0 ? [...own, ...partValues(derived, board, ".")] : own;
};

/** The pin of an expected reading, a reset or a clock: those of the part named beside it. */
export const expectedPins: Provider = ({ file, path }) => {
  const derived = derivedOf(file);
  const ref = textOf(file, [...path.slice(0, -1), "ref"]);
  if (!derived.board || ref === undefined) return [];
  return pinsOf(file, derived.board, ref).map(({ pin, ...rest }) => ({ ...rest, words: pin.name }));
};

/** Parts of the board by designator; for a net's entry the dot comes with them. */
export const parts: Provider = ({ file, pattern }) => {
  const derived = derivedOf(file);
  if (!derived.board) return [];
  const { library } = derived.ctx;
  const memory = ({ label }: Value): boolean => {
    const device = derived.board?.parts.get(label)?.device;
    return device !== undefined && library.device(device)?.device.kind === "memory";
  };
  const all = partValues(derived, derived.board, "");
  if (!pattern.startsWith("rom-sets/")) return all;
  return [...all].sort((a, b) => Number(memory(b)) - Number(memory(a)));
};

function partValues({ ctx }: Derived, board: Board, behind: string): Value[] {
  return [...board.parts.values()]
    .sort((a, b) => byRef(a.ref, b.ref))
    .map((part) => ({
      label: `${part.ref}${behind}`,
      kind: "part",
      description: partLine(part, board, ctx),
      ...(part.note === undefined ? {} : { documentation: part.note }),
    }));
}

function pinsOf(
  file: KnowledgeFile,
  board: Board,
  ref: string,
  net?: string,
): (Value & { readonly pin: DevicePin })[] {
  const at = partPlace(ref, board, file.knowledge.library);
  if (!at.device) return [];
  const { railOf, isGround } = boardIndex(board);
  const carrier = net === undefined ? undefined : board.nets.get(net);
  const suits = carrier && isGround(carrier) ? "ground" : carrier && railOf(carrier) ? "supply" : undefined;
  return pinsInOrder(at.device)
    .map((pin) => ({ pin, place: pinPlace(at, pin.number, board) }))
    .map((entry) => ({ ...entry, taken: entry.place.net !== undefined && entry.place.net.name !== net }))
    .sort(
      (a, b) =>
        (net === undefined ? 0 : Number(a.taken) - Number(b.taken)) ||
        Number(b.pin.direction === suits) - Number(a.pin.direction === suits),
    )
    .map(({ pin, place, taken }) => ({
      pin,
      label: pin.number,
      kind: "pin",
      description: taken || net === undefined ? pinLine(place) : pinLine({ ref, pin }),
      ...(pin.note === undefined ? {} : { documentation: pin.note }),
    }));
}

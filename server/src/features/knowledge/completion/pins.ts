import { defined } from "../../../base/defined";
import { partTestPoint, pinTestPoint, type TestPoint } from "../../../judge/test-point";
import { boardIndex } from "../../../knowledge/board-index";
import { packagePins } from "../../../knowledge/package-pins";
import type { Board, DevicePin } from "../../../knowledge/types";
import { md } from "../../../text/markdown";
import { byRef, partLine, pinLine, pinsInOrder } from "../../shared/describe";
import type { KnowledgeFile } from "../../shared/knowledge-file";
import { type Derived, derivedOf } from "../derived";
import { scalarTextAt } from "../place";
import type { Provider, Value } from "./provider";

/** Entries of a net. `U14.` brings the pins of U14: the one typed, then those on no net yet; before the dot the parts. */
export const netEntries: Provider = ({ file, path, typed }) => {
  const derived = derivedOf(file);
  const { board } = derived;
  if (!board) return [];
  const dot = typed.indexOf(".");
  const ref = dot < 0 ? typed : typed.slice(0, dot);
  const net = String(path[1] ?? "");
  const number = typed.slice(dot + 1);
  const own = pinsOf(file, board, ref, net)
    .sort((a, b) => Number(b.label === number) - Number(a.label === number))
    .map((pin): Value => ({ ...pin, label: `${ref}.${pin.label}` }));
  return dot < 0 ? [...own, ...partValues(derived, board, ".")] : own;
};

/** The pin of an expected reading, a reset or a clock: those of the part named beside it. */
export const expectedPins: Provider = ({ file, path }) => {
  const derived = derivedOf(file);
  const ref = scalarTextAt(file, [...path.slice(0, -1), "ref"]);
  if (!derived.board || ref === undefined) return [];
  return pinsOf(file, derived.board, ref);
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
    .map((part) =>
      defined({
        label: `${part.ref}${behind}`,
        kind: "part",
        description: partLine(part, board, ctx),
        documentation: part.note === undefined ? undefined : md(part.note),
      }),
    );
}

/** Pins of the part by number, their names as further words; of a part nobody knows more of those its package has. */
function pinsOf(file: KnowledgeFile, board: Board, ref: string, net?: string): Value[] {
  const at = partTestPoint(ref, board, file.knowledge.library);
  const { railOf, isGround } = boardIndex(board);
  const carrier = net === undefined ? undefined : board.nets.get(net);
  const suits = carrier && isGround(carrier) ? "ground" : carrier && railOf(carrier) ? "supply" : undefined;
  const pins: readonly AnyPin[] = at.device ? pinsInOrder(at.device) : numbered(at.part?.package);
  return pins
    .map((pin) => ({ pin, place: pinTestPoint(at, pin.number, board) }))
    .map((entry) => ({ ...entry, taken: entry.place.net !== undefined && entry.place.net.name !== net }))
    .sort(
      (a, b) =>
        (net === undefined ? 0 : Number(a.taken) - Number(b.taken)) ||
        Number(b.pin.direction === suits) - Number(a.pin.direction === suits),
    )
    .map(({ pin, place, taken }) =>
      defined({
        label: pin.number,
        kind: "pin",
        description: taken || net === undefined ? pinLine(place) : pinLine({ ref, ...knownPin(place) }),
        documentation: pin.note === undefined ? undefined : md(pin.note),
        words: pin.name,
      }),
    );
}

const knownPin = ({ pin }: TestPoint): Pick<TestPoint, "pin"> => (pin ? { pin } : {});

type AnyPin = Pick<DevicePin, "number"> & Partial<DevicePin>;

const numbered = (packageName = ""): AnyPin[] =>
  Array.from({ length: packagePins(packageName) ?? 0 }, (_, index) => ({ number: String(index + 1) }));

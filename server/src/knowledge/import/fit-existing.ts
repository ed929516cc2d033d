// A draft held against a board file that is there: what a person renamed in it keeps the name they gave.
import type { BoardDraft, DraftNet } from "../board-file/draft";
import type { Board } from "../types";

/** A net that is in the file under another name. */
export interface Renamed {
  readonly net: string;
  readonly file: string;
}

export interface FittedDraft {
  readonly draft: BoardDraft;
  readonly renamed: readonly Renamed[];
}

/**
 * The draft in the file's own names: a net all of whose known pins are on one net of the file is that net, and a rail
 * or ground on a net that the file has one for is not said again.
 */
export function fitExisting(draft: BoardDraft, board: Board): FittedDraft {
  const owner = new Map<string, string>();
  for (const { name, pins } of board.nets.values())
    for (const { ref, pin } of pins) owner.set(`${ref}.${pin}`, name);
  const names = namesInFile(draft.nets, board, owner);
  const named = (net: string): string => names.get(net) ?? net;
  const railNets = new Set([...board.rails.values()].map(({ name, net }) => net ?? name));
  return {
    draft: {
      ...draft,
      grounds: draft.grounds.map(named),
      rails: draft.rails
        .map((rail) => (rail.net === undefined ? rail : { ...rail, net: named(rail.net) }))
        .filter(({ name, net }) => !railNets.has(net ?? name) && !board.grounds.includes(net ?? name)),
      nets: draft.nets.map((net) => ({ ...net, name: named(net.name) })),
    },
    renamed: [...names].map(([net, file]) => ({ net, file })),
  };
}

/** Where two nets of the draft would be one of the file's, neither is: then the two disagree, and the writer tells each pin. */
function namesInFile(
  nets: readonly DraftNet[],
  board: Board,
  owner: ReadonlyMap<string, string>,
): ReadonlyMap<string, string> {
  const claims = new Map<string, string[]>();
  for (const { name } of nets) if (board.nets.has(name)) claims.set(name, [name]);
  for (const net of nets) {
    const files = new Set(net.pins.map((pin) => owner.get(pin)).filter((name) => name !== undefined));
    const [file] = files;
    if (file === undefined || files.size > 1 || board.nets.has(net.name)) continue;
    claims.set(file, [...(claims.get(file) ?? []), net.name]);
  }
  return new Map(
    [...claims].flatMap(([file, names]) =>
      names.length === 1 && names[0] !== file ? [[names[0]!, file]] : [],
    ),
  );
}

// The board as it is at the revision that the log is of: what is only on others can be neither read nor at fault.

import { memoEach } from "../../base/memo";
import type { Board, Part } from "../../knowledge/types";

/** The board without parts of other revisions, on no net either; the board itself where all are on it. */
export const onRevision = memoEach((board: Board, revision: string | undefined): Board => {
  const absent = new Set(
    [...board.parts.values()].flatMap((part) =>
      isOn(part, board, revision) ? [] : [part.ref.toUpperCase()],
    ),
  );
  if (absent.size === 0) return board;
  const there = ({ ref }: { readonly ref: string }): boolean => !absent.has(ref.toUpperCase());
  return {
    ...board,
    parts: new Map([...board.parts].filter(([, part]) => there(part))),
    nets: new Map([...board.nets].map(([name, net]) => [name, { ...net, pins: net.pins.filter(there) }])),
  };
});

/** On it unless the file says otherwise; of a revision that the file does not know nobody can tell. */
function isOn({ revisions, note }: Part, { revisions: known }: Board, revision: string | undefined): boolean {
  if (revision === undefined || !isKnown(known, revision)) return true;
  const told = revisions ?? onlyOf(note);
  return told === undefined || told.some((one) => one.toUpperCase() === revision.toUpperCase());
}

const isKnown = (known: Board["revisions"], revision: string): boolean =>
  [...known.keys()].some((one) => one.toUpperCase() === revision.toUpperCase());

/** "revision A only", or a note of nothing but "revision B". */
function onlyOf(note: string | undefined): string[] | undefined {
  const found = /^\s*(?:on\s+)?rev(?:ision|\.)?\s+([A-Za-z0-9]+)(?:\s+only\b|\s*$)/i.exec(note ?? "");
  return found?.[1] === undefined ? undefined : [found[1]];
}

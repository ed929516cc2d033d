import { memo } from "../base/memo";
import { boardIndex } from "../knowledge/board-index";
import type { Board, Rail } from "../knowledge/types";
import type { Subject } from "../log/model";
import { railNamed } from "../log/stated/rail-name";
import { pinNumber } from "./test-point";

/** A board's rails by all that they are called, so that a row does not look through all of them; the first of a name counts. */
const railIndex = memo((board: Board) => {
  const rails = [...board.rails.values()];
  const by = (key: (rail: Rail) => string | undefined): ReadonlyMap<string | undefined, Rail> =>
    new Map(rails.map((rail) => [key(rail), rail] as const).reverse());
  return {
    name: by(({ name }) => plain(name)),
    net: by(({ net }) => net && plain(net)),
    testPoint: by(({ testPoint }) => testPoint && plain(testPoint)),
    bare: by(({ name }) => bare(name)),
    words: by(({ name }) => railNamed(name)?.name),
  };
});

/** A rail by the name a technician types: "+5V", "+5", "5 volts", "5V (TP1)", "VCC" (its net) or its test point. */
export function findRail(board: Board, typed: string): Rail | undefined {
  const wanted = plain(typed);
  const index = railIndex(board);
  return (
    index.name.get(wanted) ??
    index.net.get(wanted) ??
    index.testPoint.get(wanted) ??
    index.bare.get(bare(typed)) ??
    withoutPlace(board, typed) ??
    byWords(board, typed)
  );
}

/** "+5 (logic)" and "+5 V logic" are one rail, by the voltage and the one word that tells rails of a voltage apart. */
function byWords(board: Board, typed: string): Rail | undefined {
  const name = railNamed(typed)?.name;
  return name === undefined ? undefined : railIndex(board).words.get(name);
}

/** "+5V (TP1)", "+5V at U1 pin 8", "+5V, far end": the name without where it was measured. */
function withoutPlace(board: Board, typed: string): Rail | undefined {
  const rest = typed.replace(/(?:[([,;@]|\s(?:at|on|near)\s).*$/i, "").trim();
  return rest === "" || rest === typed.trim() ? undefined : findRail(board, rest);
}

/** The rail that a row is of: named outright, else by the test point named as its part, else by the net at its pin. */
export function railAt(subject: Subject, board: Board): Rail | undefined {
  if (subject.rail) return findRail(board, subject.rail.text);
  const ref = subject.ref?.text;
  if (ref === undefined) return undefined;
  const tested = railIndex(board).testPoint.get(plain(ref));
  const net = subject.pin && boardIndex(board).net(ref, pinNumber(subject.pin.text) ?? subject.pin.text);
  const name = net && boardIndex(board).railOf(net);
  return tested ?? (name === undefined ? undefined : board.rails.get(name));
}

const plain = (name: string): string =>
  name
    .replace(/\u2212/g, "-")
    .replace(/\s+/g, "")
    .toUpperCase();
/** Without a plus and without the unit, so that "+5", "5V" and "5 volts DC" are one; a minus stays. */
const bare = (name: string): string =>
  plain(name.replace(/(?<=\d)\s*V(?:olts?)?(?:\s*DC)?(?=\s)/i, ""))
    .replace(/^\+/, "")
    .replace(/(?<=\d)V(?:OLTS?)?(?:DC)?$/, "");

import { boardIndex } from "../knowledge/board-index";
import type { Board, Rail } from "../knowledge/types";
import type { Subject } from "../log/model";
import { railNamed } from "../log/stated/rail-name";
import { pinNumber } from "./place";

/** A rail by the name a technician types: "+5V", "+5", "5 volts", "5V (TP1)", "VCC" (its net) or its test point. */
export function findRail(board: Board, typed: string): Rail | undefined {
  const wanted = plain(typed);
  const rails = [...board.rails.values()];
  return (
    rails.find((rail) => plain(rail.name) === wanted) ??
    rails.find((rail) => rail.net !== undefined && plain(rail.net) === wanted) ??
    rails.find((rail) => rail.testPoint !== undefined && plain(rail.testPoint) === wanted) ??
    rails.find((rail) => bare(rail.name) === bare(typed)) ??
    withoutPlace(board, typed) ??
    byWords(rails, typed)
  );
}

/** "+5 (logic)" and "+5 V logic" are one rail, by the voltage and the one word that tells rails of a voltage apart. */
function byWords(rails: readonly Rail[], typed: string): Rail | undefined {
  const name = railNamed(typed)?.name;
  return name === undefined ? undefined : rails.find((rail) => railNamed(rail.name)?.name === name);
}

/** "+5V (TP1)", "+5V at U1 pin 8", "+5V, far end": the name without where it was measured. */
function withoutPlace(board: Board, typed: string): Rail | undefined {
  const rest = typed.replace(/(?:[([,;@]|\s(?:at|on|near)\s).*$/i, "").trim();
  return rest === "" || rest === typed.trim() ? undefined : findRail(board, rest);
}

/**
 * The rail that a row is of: named outright, else by the test point that the row names as its part, else by the
 * net at the pin it names.
 */
export function railAt(subject: Subject, board: Board): Rail | undefined {
  if (subject.rail) return findRail(board, subject.rail.text);
  const ref = subject.ref?.text;
  if (ref === undefined) return undefined;
  const tested = [...board.rails.values()].find(
    (rail) => rail.testPoint !== undefined && plain(rail.testPoint) === plain(ref),
  );
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
  plain(name)
    .replace(/^\+/, "")
    .replace(/(?<=\d)V(?:OLTS?)?(?:DC)?$/, "");

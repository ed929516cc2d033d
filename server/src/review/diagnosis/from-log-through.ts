// A part of two leads with a signal at one of them and none at the other, which nothing shunts to a supply: it does not pass it.

import { defined } from "../../base/defined";
import type { SignFinding } from "../../compute/diagnosis/types";
import { boardIndex } from "../../knowledge/board-index";
import type { Board, Net } from "../../knowledge/types";
import { otherEndOf } from "./ends";
import type { LocatedObservation } from "./observation";

/** One finding a part, at the end where nothing moves. */
export function notPassed(all: readonly LocatedObservation[], board: Board): LocatedObservation[] {
  const index = boardIndex(board);
  const moving = new Set<string>();
  const still = new Map<string, LocatedObservation>();
  for (const one of all) {
    const { level, finding } = one;
    const net = level && index.net(level.ref, level.pin);
    if (net && level.state === "pulsing") moving.add(net.name);
    const dead =
      finding?.kind === "sign" && finding.sign === "clock-dead"
        ? index.net(finding.ref ?? "", finding.pin ?? "")
        : undefined;
    if (dead) still.set(dead.name, one);
    else if (net && !finding && level.state === "low" && isPassive(net)) still.set(net.name, one);
  }
  return [...still].flatMap(([name, one]): LocatedObservation[] => {
    const net = board.nets.get(name);
    if (!net || moving.has(name) || isShunted(net, board)) return [];
    return net.pins.flatMap(({ ref, pin }): LocatedObservation[] => {
      const ends = /^RV\d/i.test(ref)
        ? [...board.nets.values()].filter((one) => one !== net && one.pins.some((other) => other.ref === ref))
        : /^[RC]N?\d/i.test(ref)
          ? [otherEndOf({ ref, pin }, net, board)]
          : [];
      const end = ends.find((one) => one && moving.has(one.name));
      if (!end) return [];
      return [
        defined({
          ...one,
          key: `through ${ref}`.toUpperCase(),
          what: `the signal through ${ref}`,
          refs: [ref.toUpperCase()],
          finding: {
            kind: "sign",
            sign: "stage",
            refs: [ref],
            of: `the signal through ${ref}`,
            says: `${end.name} moves and ${name} does not, and ${ref} lies between them.`,
          } satisfies SignFinding,
        }),
      ];
    });
  });
}

/** Nothing on the net but leads, a header and what takes it: no junction clamps what comes through. */
const isPassive = ({ pins }: Net): boolean =>
  pins.every(({ ref }) => /^(?:R|RV|RN|C|J|P|TP|L|FB|U|IC)\d/i.test(ref)) &&
  pins.some(({ ref }) => /^C\d/i.test(ref)) &&
  pins.filter(({ ref }) => /^(?:U|IC)\d/i.test(ref)).length <= 1;

/** A capacitor to ground or a supply may take what moves there. */
const isShunted = (net: Net, board: Board): boolean =>
  net.pins.some(({ ref, pin }) => {
    const end = /^C\d/i.test(ref) ? otherEndOf({ ref, pin }, net, board) : undefined;
    return (
      end !== undefined && (boardIndex(board).isGround(end) || boardIndex(board).railOf(end) !== undefined)
    );
  });

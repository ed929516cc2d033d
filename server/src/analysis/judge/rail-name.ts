import type { Board, Rail } from "../../knowledge/types";

/** A rail by the name a technician types: "+5V", "+5 V", "5v", "VCC" (its net) or its test point. */
export function findRail(board: Board, typed: string): Rail | undefined {
  const wanted = plain(typed);
  const rails = [...board.rails.values()];
  return (
    rails.find((rail) => plain(rail.name) === wanted) ??
    rails.find((rail) => rail.net !== undefined && plain(rail.net) === wanted) ??
    rails.find((rail) => rail.testPoint !== undefined && plain(rail.testPoint) === wanted) ??
    rails.find((rail) => unsigned(rail.name) === unsigned(typed) && !/^[-\u2212]/.test(rail.name.trim()))
  );
}

const plain = (name: string): string =>
  name
    .replace(/\u2212/g, "-")
    .replace(/\s+/g, "")
    .toUpperCase();
const unsigned = (name: string): string => plain(name).replace(/^\+/, "");

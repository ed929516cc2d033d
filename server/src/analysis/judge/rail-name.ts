import type { Board, Rail } from "../../knowledge/types";

/** A rail by the name a technician types: "+5V", "+5", "5 volts", "5V (TP1)", "VCC" (its net) or its test point. */
export function findRail(board: Board, typed: string): Rail | undefined {
  const wanted = plain(typed);
  const rails = [...board.rails.values()];
  return (
    rails.find((rail) => plain(rail.name) === wanted) ??
    rails.find((rail) => rail.net !== undefined && plain(rail.net) === wanted) ??
    rails.find((rail) => rail.testPoint !== undefined && plain(rail.testPoint) === wanted) ??
    rails.find((rail) => bare(rail.name) === bare(typed)) ??
    outsideBrackets(board, typed)
  );
}

/** "+5V (TP1)" and "+5V [loaded]" without what stands in the brackets. */
function outsideBrackets(board: Board, typed: string): Rail | undefined {
  const rest = typed.replace(/[([][^)\]]*[)\]]\s*$/, "").trim();
  return rest === "" || rest === typed.trim() ? undefined : findRail(board, rest);
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

// The board of one log: what its board file says, and over it what the log itself says of the board in front of it.
import type { Library } from "../../knowledge/library";
import type { Board, Part, Rail } from "../../knowledge/types";
import { railNamed } from "../../log/stated/rail-name";
import type { Known } from "../context";
import { findRail } from "../rail-name";
import { matricesOf } from "./matrices";
import { joinNets } from "./nets";
import { partsOf } from "./parts";
import { numbered, partLookup } from "./pin-names";
import { feedWindows, statedRail } from "./rails";
import { joinSupplies, supplyPins } from "./supplies";
import type { AttributedStatement, Layer, SaidBy, Stated } from "./types";

export interface LaidOver {
  readonly board: Known<Board>;
  readonly stated: Stated;
}

const EMPTY_TREE = { text: "", baseOffset: 0, root: undefined, problems: [] } as const;

/** A board that nobody has said anything of yet. */
export const emptyBoard = (id: string, title: string): Board => ({
  id,
  title,
  revisions: new Map(),
  rails: new Map(),
  parts: new Map(),
  nets: new Map(),
  grounds: [],
  circuits: new Map(),
  matrices: new Map(),
  switchBanks: new Map(),
  memory: [],
  romSets: new Map(),
  expected: [],
  resets: [],
  backups: [],
  coils: [],
  clocks: [],
  symptoms: new Map(),
  modifications: new Map(),
  proving: [],
  cautions: [],
});

/** A board behind which there is no file: it stands in the logs. */
export const fileless = (uri: string, value: Board): Known<Board> => ({
  uri,
  text: "",
  loaded: { problems: [], tree: EMPTY_TREE },
  value,
});

/**
 * @param base the board file, or an empty board of that id
 * @param said of the other jobs first, then of the log in hand, whose words count most
 */
export function layOver(
  base: Known<Board>,
  said: readonly AttributedStatement[],
  library: Library,
  { hasFile, jobs }: Pick<Stated, "hasFile" | "jobs">,
): LaidOver {
  const before = base.value;
  const parts = partsOf(before.parts, said, library, hasFile);
  const rails = railsOf(before, said, parts.all, library);
  const grounds = before.grounds.length > 0 ? before.grounds : ["GND"];
  const links = numbered(
    said.filter(({ statement }) => statement.kind === "link"),
    partLookup(parts.all.values()),
    library,
  );
  const supplies = supplyPins({ parts: parts.all.values(), rails: rails.all.values(), grounds }, library);
  const joined = joinNets(before.nets, links, supplies);
  const nets = joinSupplies(joined.nets, supplies);
  const matrices = matricesOf(before, said);
  const circuits = circuitsOf(before, parts.all);
  const isSame =
    parts.all === before.parts &&
    rails.all === before.rails &&
    nets === before.nets &&
    grounds === before.grounds &&
    matrices.all === before.matrices &&
    circuits === before.circuits;
  const value: Board = isSame
    ? before
    : {
        ...before,
        parts: parts.all,
        rails: rails.all,
        nets,
        grounds,
        matrices: matrices.all,
        circuits,
      };
  return {
    board: isSame ? base : { ...base, value },
    stated: {
      hasFile,
      parts: parts.by,
      rails: rails.by,
      pins: joined.pins,
      matrices: matrices.by,
      jobs,
    },
  };
}

function railsOf(
  board: Board,
  said: readonly AttributedStatement[],
  parts: ReadonlyMap<string, Part>,
  library: Library,
): Layer<Rail> {
  const isWhole = [...board.rails.values()].every(({ net }) => net !== undefined);
  const by = new Map<string, SaidBy>();
  if (isWhole && !said.some(({ statement }) => statement.kind === "rail" || statement.kind === "link"))
    return { all: board.rails, by };
  const all = new Map(
    [...board.rails].map(([name, rail]) => [name, rail.net ? rail : { ...rail, net: name }]),
  );
  const feeds = feedWindows(parts.values(), library);
  for (const { statement, by: whose } of said.flatMap(withRailsTied)) {
    if (statement.kind !== "rail" || by.has(statement.name)) continue;
    const known = findRail({ ...board, rails: all }, statement.name);
    const stated = statedRail(statement, feeds);
    if (known) {
      // A file that says nothing of ripple is no reason to say less than without it.
      if (known.ripple === undefined && known.reservoir === undefined && stated.ripple !== undefined)
        all.set(known.name, { ...known, ripple: stated.ripple, rippleIsUsual: true });
      continue;
    }
    all.set(statement.name, stated);
    by.set(statement.name, whose);
  }
  return { all, by };
}

/** A pin tied to +5 V says that there is such a rail, whether or not anybody read it. */
function withRailsTied(said: AttributedStatement): AttributedStatement[] {
  if (said.statement.kind !== "link") return [said];
  const rails = said.statement.ends.flatMap((end) => ("net" in end ? (railNamed(end.net) ?? []) : []));
  return [
    said,
    ...rails.map((rail): AttributedStatement => ({ by: said.by, statement: { kind: "rail", ...rail } })),
  ];
}

function circuitsOf({ circuits }: Board, parts: ReadonlyMap<string, Part>): Board["circuits"] {
  const missing = [...parts.values()].flatMap(({ circuit }) =>
    circuit !== undefined && !circuits.has(circuit) ? [circuit] : [],
  );
  if (missing.length === 0) return circuits;
  return new Map([...circuits, ...missing.map((id) => [id, { id, title: id }] as const)]);
}

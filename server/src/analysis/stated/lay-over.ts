// The board of one log: what its board file says, and over it what the log itself says of the board in front of it.
import type { Library } from "../../knowledge/library";
import type { Board, Matrix, Part, Rail } from "../../knowledge/types";
import { railNamed } from "../../log/stated/rail-name";
import type { MatrixStated, PartStated } from "../../log/stated/statement";
import type { Known } from "../context";
import { findRail } from "../judge/rail-name";
import { joinNets } from "./nets";
import { feedsOf, statedRail } from "./rails";
import { joinSupplies } from "./supplies";
import type { Said, SaidBy, Stated } from "./types";

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
  said: readonly Said[],
  library: Library,
  { hasFile, jobs }: Pick<Stated, "hasFile" | "jobs">,
): LaidOver {
  const before = base.value;
  const parts = partsOf(before.parts, said, library, hasFile);
  const rails = railsOf(before, said, parts.all, library);
  const grounds = before.grounds.length > 0 ? before.grounds : ["GND"];
  const joined = joinNets(before.nets, said);
  const nets = joinSupplies({ parts: parts.all, rails: rails.all, nets: joined.nets, grounds }, library);
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

interface Layer<T> {
  readonly all: ReadonlyMap<string, T>;
  readonly by: ReadonlyMap<string, SaidBy>;
}

/**
 * The first word on a part counts, before what was fitted later: it is what was read when most was read. Two files or
 * logs that call it by different numbers of one device in one family say the same.
 */
function partsOf(
  known: ReadonlyMap<string, Part>,
  said: readonly Said[],
  library: Library,
  hasFile: boolean,
): Layer<Part> {
  const by = new Map<string, SaidBy>();
  if (!said.some(({ statement }) => statement.kind === "part")) return { all: known, by };
  const all = new Map(known);
  const names = new Map([...known.keys()].map((ref) => [ref.toUpperCase(), ref]));
  for (const { stated, by: whose } of firstWords(said)) {
    const key = stated.ref.toUpperCase();
    const name = names.get(key) ?? stated.ref;
    const part = all.get(name);
    if (part && !differs(part, stated, library)) continue;
    // What was fitted where the file allows it, or where nothing else is known of the place.
    if (part && stated.by === "fitted" && (hasFile || part.device !== undefined)) continue;
    names.set(key, name);
    by.set(key, whose);
    all.set(name, merged(part, name, stated));
  }
  return { all, by };
}

function* firstWords(said: readonly Said[]): Iterable<{ stated: PartStated; by: SaidBy }> {
  const parts = said.flatMap(({ statement, by }) =>
    statement.kind === "part" ? [{ stated: statement, by }] : [],
  );
  const first = new Map<string, { stated: PartStated; by: SaidBy }>();
  // The log's own words before those of other jobs, what was read before what was fitted.
  const ranked = [...parts].sort((a, b) => rank(a) - rank(b));
  for (const one of ranked) {
    const key = one.stated.ref.toUpperCase();
    const seen = first.get(key);
    if (!seen) first.set(key, one);
    // What the first word leaves open the later ones fill in.
    else first.set(key, { by: seen.by, stated: { ...one.stated, ...seen.stated } });
  }
  yield* first.values();
}

const rank = ({ stated, by }: { readonly stated: PartStated; readonly by: SaidBy }): number =>
  (by.by === "log" ? 0 : 3) + (stated.by === "fitted" ? 2 : stated.by === "prose" ? 1 : 0);

/** True where what the log says of a part is news. */
export function differs(
  part: Pick<Part, "device" | "value">,
  { device, value }: PartStated,
  library: Library,
): boolean {
  if (device === undefined)
    return part.device === undefined && value !== undefined && part.value === undefined;
  if (part.device === undefined) return true;
  return !sameNumber(part.device, device, library);
}

/** "7404" and "SN7404N" are one; 7404 and 74LS04 are not. */
export function sameNumber(a: string, b: string, library: Library): boolean {
  const one = library.device(a);
  const other = library.device(b);
  if (one && other) return one.device === other.device && one.family === other.family;
  return a.replace(/\s+/g, "").toUpperCase() === b.replace(/\s+/g, "").toUpperCase();
}

function merged(part: Part | undefined, ref: string, stated: PartStated): Part {
  const { device, value, package: body, circuit, note } = stated;
  const kept = part ?? { ref, fits: [], socketed: false };
  return {
    ...kept,
    ref,
    ...(device === undefined ? {} : { device }),
    ...(value === undefined ? {} : { value }),
    ...(body === undefined || kept.package !== undefined ? {} : { package: body }),
    ...(circuit === undefined || kept.circuit !== undefined ? {} : { circuit }),
    ...(note === undefined || kept.note !== undefined ? {} : { note }),
  };
}

function railsOf(
  board: Board,
  said: readonly Said[],
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
  const feeds = feedsOf(parts.values(), library);
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
function withRailsTied(said: Said): Said[] {
  if (said.statement.kind !== "link") return [said];
  const rails = said.statement.ends.flatMap((end) => ("net" in end ? (railNamed(end.net) ?? []) : []));
  return [said, ...rails.map((rail): Said => ({ by: said.by, statement: { kind: "rail", ...rail } }))];
}

function circuitsOf({ circuits }: Board, parts: ReadonlyMap<string, Part>): Board["circuits"] {
  const missing = [...parts.values()].flatMap(({ circuit }) =>
    circuit !== undefined && !circuits.has(circuit) ? [circuit] : [],
  );
  if (missing.length === 0) return circuits;
  return new Map([...circuits, ...missing.map((id) => [id, { id, title: id }] as const)]);
}

/** A grid is a matrix of its own only where the board file has none of the kind. */
function matricesOf({ matrices }: Board, said: readonly Said[]): Layer<Matrix> {
  const by = new Map<string, SaidBy>();
  if (!said.some(({ statement }) => statement.kind === "matrix")) return { all: matrices, by };
  const all = new Map(matrices);
  const kinds = new Set([...matrices.values()].map(({ kind }) => kind));
  const found = new Map<string, { grids: MatrixStated[]; by: SaidBy }>();
  for (const { statement, by: whose } of said) {
    if (statement.kind !== "matrix" || kinds.has(statement.of)) continue;
    const key = `${statement.of} ${statement.words}`;
    const seen = found.get(key);
    if (!seen) found.set(key, { grids: [statement], by: whose });
    else seen.grids.push(statement);
  }
  for (const { grids, by: whose } of found.values()) {
    const [first] = grids;
    if (!first) continue;
    const id = [first.of === "switch" ? "switches" : "lamps", first.words]
      .filter(Boolean)
      .join("-")
      .replace(/\W+/g, "-");
    // The largest grid is the whole: others may show part of it.
    const longest = (lines: "rows" | "columns") =>
      grids.map((grid) => grid[lines]).reduce((a, b) => (b.length > a.length ? b : a));
    const rows = longest("rows");
    const columns = longest("columns");
    all.set(id, {
      id,
      kind: first.of,
      title: first.words || (first.of === "switch" ? "Switch matrix" : "Lamp matrix"),
      rows: rows.map(netName),
      columns: columns.map(netName),
      cells: [],
      reserved: [],
    });
    by.set(id, whose);
  }
  return { all, by };
}

/** A line that is only numbered has no net that anybody knows of. */
const netName = (line: string): string => (/^\d+$/.test(line) ? "" : line);

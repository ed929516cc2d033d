// What was imported as a draft of a board file: parts with the device the library knows, nets, and the rails and grounds
// that were guessed.
import { defined } from "../../base/defined";
import type { BoardDraft, DraftNet, DraftPart, DraftRail } from "../board-file/draft";
import { EMPTY_DRAFT } from "../board-file/draft";
import type { Library } from "../library";
import { type CombinedBoard, type CombinedNet, type CombinedPart, sourceText } from "./combine";
import { type Match, matchPart } from "./match";
import { importedSupplies, type Supplies } from "./supplies";

/** What of the import no board file can hold, as the end of a sentence: "U*** is no designator". */
export interface LeftBehind {
  readonly what: string;
  readonly reason: string;
}

export interface Drafted {
  readonly draft: BoardDraft;
  readonly matches: ReadonlyMap<string, Match>;
  readonly supplies: Supplies;
  readonly leftBehind: readonly LeftBehind[];
  /** Nets of one pin that the drawing program named itself: pins connected to nothing. */
  readonly unconnected: number;
}

const REF = /^(?!constructor$|prototype$)[A-Za-z0-9][A-Za-z0-9_-]*$/;
const PIN = /^[A-Za-z0-9_+~/-]+$/;
/** Names that drawing programs give to a pin that is connected to nothing (from memory). */
const UNCONNECTED = /^(?:unconnected-|Net-\(|N\/C\b|NC_?\d*$)/i;

export function toDraft(board: CombinedBoard, library: Library, id: string | undefined): Drafted {
  const leftBehind: LeftBehind[] = [];
  const parts = board.parts.filter(({ ref, pins }) => {
    if (REF.test(ref)) return true;
    leftBehind.push({
      what: ref,
      reason: `is no designator that a board file can hold${pins.length > 0 ? "; its pins are left out too" : ""}`,
    });
    return false;
  });
  const matches = new Map(parts.map((part) => [part.ref, matchPart(part, library)]));
  const nets = netsOf(board.nets, matches, leftBehind);
  const connected = nets.filter(
    ({ name, pins }) => pins.length > 1 || (pins.length === 1 && !UNCONNECTED.test(name)),
  );
  const supplies = importedSupplies(connected, (ref) => {
    const match = matches.get(ref);
    if (match?.kind !== "device") return undefined;
    const { device } = match;
    const supply = device.limits.get("supply") ?? library.device(match.typed)?.family?.supply;
    return defined({ device, supply });
  });
  const source = new Map(connected.map((net) => [net.name, sourceText(net.from)]));
  const draft: BoardDraft = {
    ...EMPTY_DRAFT,
    ...(id !== undefined && { id }),
    ...(board.title !== undefined && { title: board.title }),
    grounds: supplies.grounds.filter(({ weak }) => !weak).map(({ net }) => net),
    rails: supplies.rails.map(
      ({ name, net, nominal, tolerance, why, weak }): DraftRail =>
        defined({
          name,
          nominal,
          tolerance,
          net,
          source: "guessed by the import; tolerance: common practice, no source",
          from: `${source.get(net) ?? "import"}: guessed from ${why}`,
          guess: weak ? (true as const) : undefined,
        }),
    ),
    parts: parts.toSorted(byRef).map((part) => draftPart(part, matches.get(part.ref)!)),
    nets: connected.map(
      ({ name, pins, from }): DraftNet => ({
        name,
        pins: pins.map(({ ref, pin }) => `${ref}.${pin}`),
        from: sourceText(from),
      }),
    ),
  };
  return {
    draft,
    matches,
    supplies,
    leftBehind,
    unconnected: nets.filter(({ name, pins }) => pins.length === 1 && UNCONNECTED.test(name)).length,
  };
}

const byRef = (a: CombinedPart, b: CombinedPart): number =>
  a.ref.localeCompare(b.ref, "en", { numeric: true });

/** With the pins as the library and a board file number them. */
function netsOf(
  nets: readonly CombinedNet[],
  matches: ReadonlyMap<string, Match>,
  leftBehind: LeftBehind[],
): CombinedNet[] {
  const raw = new Set(nets.map(({ name }) => name));
  return nets.map((net) => {
    const plain = readable(net.name);
    return {
      ...net,
      name: plain === net.name || raw.has(plain) ? net.name : plain,
      pins: net.pins.flatMap(({ ref, pin }) => {
        const match = matches.get(ref);
        // Said already, of the part.
        if (!match) return [];
        const number = (match.kind === "device" ? match.pins.get(pin) : undefined) ?? pin;
        if (PIN.test(number)) return [{ ref, pin: number }];
        leftBehind.push({ what: `${ref} pin ${pin}`, reason: "is no pin that a board file can hold" });
        return [];
      }),
    };
  });
}

/** What is drawn where the file has `{slash}`, because a slash parts the sheets of a name (from memory). */
const readable = (name: string): string => name.replaceAll("{slash}", "/");

function draftPart(part: CombinedPart, match: Match): DraftPart {
  const note = part.unfitted
    ? "not fitted"
    : match.kind === "differs"
      ? `not the library's ${match.typed}: ${match.reason}`
      : undefined;
  // A number whose pins are others would be judged by the wrong pins.
  const number = match.kind === "device" || match.kind === "unknown" ? match.typed : undefined;
  const value = match.kind === "value" || match.kind === "differs" ? match.typed : undefined;
  const box = part.package === undefined ? undefined : caseOf(part.package);
  return defined({
    ref: part.ref,
    device: number,
    value,
    package: box,
    note,
    from: sourceText(part.from),
  });
}

/** Without the library it is from, and for cases that are numbered by their pins without the measures: "DIP-14". */
function caseOf(footprint: string): string | undefined {
  const name = footprint.slice(footprint.indexOf(":") + 1).trim();
  const plain = /^([A-Z]+-\d+(?:-\d+)?)(?:_|$)/i.exec(name)?.[1] ?? name;
  return plain === "" ? undefined : plain;
}

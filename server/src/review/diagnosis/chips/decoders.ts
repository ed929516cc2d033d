// Lines of one decoder that fail together and are those of one bit of its number: 3 and 4 of six digits, columns 5 to 8. That
// is its one input, and neither the lines nor, as a rule, the decoder.

import { activeLevel } from "../../../compute/logic/one-of-n";
import { boardIndex } from "../../../knowledge/board-index";
import type { Board, Device, Net, TruthTable } from "../../../knowledge/types";
import type { LocatedObservation } from "../observation";

/** Lines that fail, and that do not, at least. */
const LEAST = 2;

interface Decoder {
  readonly ref: string;
  readonly table: TruthTable;
  /** By output pin: what says that its line fails. */
  readonly dead: Map<string, LocatedObservation>;
  /** The same of lines on which nothing answers, of which little was tried. */
  readonly maybe: Map<string, LocatedObservation[]>;
}

/** What the lines say together, and what of `all` it stands for. */
export function decoderBits(
  all: readonly LocatedObservation[],
  board: Board,
  deviceOf: (part: string) => Device | undefined,
): { readonly found: readonly LocatedObservation[]; readonly covered: ReadonlySet<LocatedObservation> } {
  const decoders = new Map<string, Decoder>();
  for (const one of all)
    for (const { ref, pin, table } of outputsOf(one, board, deviceOf)) {
      const key = `${ref} ${table.name}`;
      const known = decoders.get(key) ?? { ref, table, dead: new Map(), maybe: new Map() };
      decoders.set(key, known);
      if (one.silentLine === undefined) known.dead.set(pin, one);
      else known.maybe.set(pin, [...(known.maybe.get(pin) ?? []), one]);
    }
  const found: LocatedObservation[] = [];
  const covered = new Set<LocatedObservation>();
  for (const { ref, table, dead, maybe } of decoders.values()) {
    const bit = bitOf(ref, table, dead, maybe, board);
    const [first] = dead.values();
    if (!bit || !first) continue;
    for (const one of dead.values()) covered.add(one);
    for (const pin of bit.lines) for (const one of maybe.get(pin) ?? []) covered.add(one);
    // Lines that answer for each other, where one of the two is among those: so does its number without that bit.
    for (const one of all) if (isPairOf(one, ref, bit.lines, board)) covered.add(one);
    const of = `${ref} pin ${bit.pin}`;
    const which = [...dead.values()].map(({ what }) => what).join(", ");
    found.push({
      ...first,
      key: `decoder ${of}`.toUpperCase(),
      what: of,
      refs: [ref.toUpperCase()],
      finding: {
        kind: "sign",
        sign: "decoder-bit",
        ref,
        pin: bit.pin,
        state: bit.stuck,
        of: `the lines of ${ref}`,
        says: `What fails (${which}) are the numbers that need pin ${bit.pin} of ${ref} ${bit.stuck === "low" ? "high" : "low"}, and no others.`,
      },
    });
  }
  return { found, covered };
}

function* outputsOf(
  { finding, silentLine }: LocatedObservation,
  board: Board,
  deviceOf: (part: string) => Device | undefined,
): Iterable<{ readonly ref: string; readonly pin: string; readonly table: TruthTable }> {
  const names =
    silentLine !== undefined
      ? [silentLine]
      : finding?.kind === "matrix-line"
        ? [finding.net]
        : finding?.kind === "sign" && finding.sign === "digit"
          ? (finding.nets ?? [])
          : [];
  for (const name of names)
    for (const { ref, pin } of board.nets.get(name)?.pins ?? []) {
      const tables = deviceOf(board.parts.get(ref)?.device ?? "")?.truthTables ?? [];
      const table = tables.find((one) => one.outputs.includes(pin) && activeLevel(one) !== undefined);
      if (table) yield { ref, pin, table };
    }
}

/** Two outputs of the decoder that always answer together, one dead and one not. */
function isPairOf(
  { finding }: LocatedObservation,
  ref: string,
  dead: ReadonlySet<string>,
  board: Board,
): boolean {
  if (finding?.kind !== "sign" || (finding.sign !== "lines-joined" && finding.sign !== "lines-alike"))
    return false;
  const pins = (finding.nets ?? []).flatMap((name) =>
    (board.nets.get(name)?.pins ?? []).flatMap((at) => (at.ref === ref ? [at.pin] : [])),
  );
  return pins.length === 2 && pins.filter((pin) => dead.has(pin)).length === 1;
}

/** The input whose one level is that of the dead lines' numbers, and of none else on the board but lines that may be dead. */
function bitOf(
  ref: string,
  table: TruthTable,
  dead: ReadonlyMap<string, LocatedObservation>,
  maybe: ReadonlyMap<string, readonly LocatedObservation[]>,
  board: Board,
): { readonly pin: string; readonly stuck: "low" | "high"; readonly lines: ReadonlySet<string> } | undefined {
  const index = boardIndex(board);
  const isUsed = (pin: string): boolean => {
    const net: Net | undefined = index.net(ref, pin);
    return net !== undefined && net.pins.length > 1;
  };
  const used = table.outputs.filter(isUsed);
  if (dead.size < LEAST || used.length - dead.size < LEAST) return undefined;
  const level = activeLevel(table) === "low" ? 0 : 1;
  const numberOf = (pin: string) => {
    const at = table.outputs.indexOf(pin);
    return table.rows.find(({ outputs }) => {
      const cell = outputs[at];
      return cell?.kind === "value" && cell.letters === 0 && cell.flip === level;
    });
  };
  const fits = table.inputs.flatMap((pin, i) =>
    ([0, 1] as const).flatMap((value) => {
      const group = used.filter((output) => {
        const cell = numberOf(output)?.inputs[i];
        return cell?.kind === "value" && cell.letters === 0 && cell.flip === value;
      });
      const isAll =
        [...dead.keys()].every((output) => group.includes(output)) &&
        used.length - group.length >= LEAST &&
        group.every((output) => dead.has(output) || maybe.has(output));
      const stuck = value === 1 ? ("low" as const) : ("high" as const);
      return isAll ? [{ pin, stuck, lines: new Set(group) }] : [];
    }),
  );
  return fits.length === 1 ? fits[0] : undefined;
}

// A processor that has its clock, is out of reset, and moves none of its lines.

import type { SeenLevel } from "../../../compute/diagnosis/types";
import type { Board, Device } from "../../../knowledge/types";
import type { LocatedObservation } from "../observation";

/** Lines that were probed and stand still; fewer may stand by chance. */
const LEAST = 4;
const CLOCK = /^[/~]?(?:CLK|CLOCK|PHI|Φ|E$|X[12T]|XTAL|EXTAL)/i;
const RESET = /RES|RST/i;
const LINE = /^[/~]?(?:A|AD|D|DB)\d+$|^[/~]?(?:M1|MREQ|IORQ|RD|WR|R\/W|RW|VMA|ALE|SYNC|DBIN)$/i;

export function stillProcessors(
  all: readonly LocatedObservation[],
  board: Board,
  deviceOf: (part: string) => Device | undefined,
): LocatedObservation[] {
  const byRef = new Map<string, { readonly one: LocatedObservation; readonly level: SeenLevel }[]>();
  for (const one of all) {
    const { level } = one;
    if (level) byRef.set(level.ref, [...(byRef.get(level.ref) ?? []), { one, level }]);
  }
  return [...byRef].flatMap(([ref, seen]): LocatedObservation[] => {
    const device = deviceOf(board.parts.get(ref)?.device ?? "");
    if (device?.kind !== "processor") return [];
    const named = (pattern: RegExp) =>
      seen.filter(({ level }) => pattern.test(device.pins.get(level.pin)?.name ?? ""));
    const lines = named(LINE);
    const runs = named(CLOCK).some(({ level }) => level.state === "pulsing");
    const isFree = named(RESET).some(({ level }) => level.right === true);
    const [at] = lines;
    if (!at || !runs || !isFree || lines.length < LEAST) return [];
    if (lines.some(({ level }) => level.state === "pulsing")) return [];
    return [
      {
        key: `still ${ref}`,
        what: `the lines of ${ref}`,
        ...(at.one.table ? { table: at.one.table } : {}),
        span: at.one.span,
        refs: [ref.toUpperCase()],
        phase: at.one.phase,
        finding: {
          kind: "sign",
          sign: "processor-still",
          refs: [ref],
          of: `the lines of ${ref}`,
          says: `${ref} has its clock and is out of reset, and none of the ${lines.length} lines read moves.`,
        },
      },
    ];
  });
}

/** Rails without anything, from which what all of them come from is likelier than a fault of each. */
const ALL_RAILS = 3;
/** Of a supply that works, its ripple, which is what a meter on AC shows of it. Common practice, no source. */
const RIPPLE_AT_MOST = 0.1;
/** The same of one that nothing smooths, beside others. */
const UNSMOOTHED_AT_MOST = 0.6;

/**
 * Rails that all read nothing while the board runs: the meter, and no rail. The observations without those of the rails, and
 * one finding in their place.
 */
export function withoutDeadMeter(
  all: readonly LocatedObservation[],
  isSaidToRun: (phase: number) => boolean,
): readonly LocatedObservation[] {
  const rails = all.filter(({ finding }) => finding?.kind === "sign" && finding.sign === "rail-wrong");
  const [first] = rails;
  const runs =
    all.some(({ level }) => level?.state === "pulsing") ||
    (rails.length > 1 && isSaidToRun(first?.phase ?? 0));
  const dead = rails.filter(({ share }) => share !== undefined && share.of < RIPPLE_AT_MOST);
  const most = dead.length < ALL_RAILS ? RIPPLE_AT_MOST : UNSMOOTHED_AT_MOST;
  const isOne = rails.every(
    ({ table, reads, share }) =>
      table === first?.table && (reads === 0 || (runs && share !== undefined && share.of < most)),
  );
  const others = all.some(({ railRight, table }) => railRight !== undefined && table === first?.table);
  if (!first || rails.length < 2 || !isOne || others) return all;
  const refs = rails.flatMap(({ finding }) => (finding?.kind === "sign" ? (finding.rail ?? []) : []));
  if (!runs)
    return rails.length < ALL_RAILS
      ? all
      : [
          ...all.filter((one) => !rails.includes(one)),
          {
            ...first,
            key: "all rails",
            what: "the rails",
            refs: [],
            finding: {
              kind: "sign",
              sign: "rails-all",
              refs,
              of: "the rails",
              says: `${refs.join(", ")} all read nothing: nothing comes in.`,
            },
          },
        ];
  return [
    ...all.filter((one) => !rails.includes(one)),
    {
      ...first,
      key: "table rails",
      what: "the rails",
      refs: [],
      finding: {
        kind: "table",
        refs,
        of: "the rails",
        mistake: "the meter was on another range, AC or millivolts, or its lead was off",
        says: "Every rail reads nothing, and the board runs.",
        again: "Put the meter on DC volts, try it on a known supply, and read the rails again",
      },
    },
  ];
}

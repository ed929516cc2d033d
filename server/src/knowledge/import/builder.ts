// Gathers what a reader finds, and says what in it cannot be: a part named twice, a pin on two nets, more than any board
// of this trade has.
import { defined } from "../../base/defined";
import type { PinRef } from "../types";
import type { ImportedBoard, ImportedPart, ImportFormat, ImportProblem } from "./imported";

/**
 * Most that is taken from one file. The largest control board of the trade has some 300 parts and 3,000 pins (from
 * memory); a board file of this many is written in some seconds, and lies within what is read of one.
 */
export const MOST_PARTS = 3_000;
export const MOST_PINS = 10_000;
/** Problems kept of one file; the others are counted. */
const MOST_PROBLEMS = 200;

export type PartFacts = Omit<ImportedPart, "ref" | "pins" | "line">;

export interface BoardBuilder {
  /** A part that the file lists. Pins that were named before or come later are its own. */
  part(ref: string, facts: PartFacts, line: number): void;
  net(name: string, line: number): void;
  /** A pin of a part; `net` is absent where it is connected to nothing. */
  pin(ref: string, pin: string, net: string | undefined, line: number): void;
  problem(kind: ImportProblem["kind"], message: string, line?: number): void;
  /** Whether the file lists the part, or names a pin of it. */
  lists(ref: string): boolean;
  /** Nothing of the file is to be used: the reader is to stop. */
  readonly full: boolean;
  build(title?: string): ImportedBoard;
}

interface Part {
  facts: PartFacts;
  line: number;
  listed: boolean;
  /** Pin to net. */
  readonly pins: Map<string, string | undefined>;
}

/** @param allPins whether a part that is known by its pins alone has all of them named */
export function boardBuilder(format: ImportFormat, allPins: boolean): BoardBuilder {
  const parts = new Map<string, Part>();
  const nets = new Map<string, { readonly pins: PinRef[]; readonly line: number }>();
  const problems: ImportProblem[] = [];
  let more = 0;
  let pins = 0;
  let full = false;

  const problem: BoardBuilder["problem"] = (kind, message, line) => {
    if (kind === "refused") full = true;
    if (problems.length < MOST_PROBLEMS || kind === "refused")
      problems.push(defined({ kind, message, line }));
    else more++;
  };

  const refuse = (what: string, line: number): void => {
    if (full) return;
    problem(
      "refused",
      `More than ${what} by line ${line}: this is no single control board, and nothing of it was taken. Export the one board you repair.`,
      line,
    );
  };

  const partAt = (ref: string, line: number): Part => {
    const known = parts.get(ref);
    if (known) return known;
    const part: Part = { facts: { allPins }, line, listed: false, pins: new Map() };
    parts.set(ref, part);
    if (parts.size > MOST_PARTS) refuse(`${MOST_PARTS} parts`, line);
    return part;
  };

  const netAt = (name: string, line: number) => {
    const known = nets.get(name);
    if (known) return known;
    const net = { pins: [], line };
    nets.set(name, net);
    if (nets.size > MOST_PINS) refuse(`${MOST_PINS} nets`, line);
    return net;
  };

  return {
    problem,
    lists: (ref) => parts.has(ref),
    get full() {
      return full;
    },
    part(ref, facts, line) {
      const part = partAt(ref, line);
      if (part.listed) {
        problem("note", twice(ref, part, facts, line), line);
        part.facts = { ...facts, ...part.facts };
        return;
      }
      Object.assign(part, { facts, line, listed: true });
    },
    net: (name, line) => void netAt(name, line),
    pin(ref, pin, net, line) {
      const part = partAt(ref, line);
      const known = part.pins.get(pin);
      if (!part.pins.has(pin) && ++pins > MOST_PINS) refuse(`${MOST_PINS} pins`, line);
      if (known !== undefined && net !== undefined && known !== net) {
        problem(
          "lost",
          `${ref} pin ${pin} is on net ${net} here and was on ${known} before. It stays on ${known}; look at the board which is true.`,
          line,
        );
        return;
      }
      if (net === undefined || known === net) {
        if (!part.pins.has(pin)) part.pins.set(pin, net);
        return;
      }
      part.pins.set(pin, net);
      netAt(net, line).pins.push({ ref, pin });
    },
    build: (title) =>
      defined({
        format,
        title: title !== undefined && title !== "" ? title : undefined,
        parts: full
          ? []
          : [...parts].map(([ref, part]) => ({
              ref,
              ...part.facts,
              pins: [...part.pins.keys()],
              line: part.line,
            })),
        nets: full ? [] : [...nets].map(([name, net]) => ({ name, pins: net.pins, line: net.line })),
        problems,
        moreProblems: more,
      }),
  };
}

function twice(ref: string, first: Part, again: PartFacts, line: number): string {
  const [was, is] = [first.facts.value, again.value];
  const differ =
    was !== undefined && is !== undefined && was !== is
      ? `as ${was} in line ${first.line} and as ${is} in line ${line}; ${was} is kept`
      : `in line ${first.line} and in line ${line}`;
  return `${ref} is there twice, ${differ}. Both are taken as one part; give one of them another designator if they are two.`;
}

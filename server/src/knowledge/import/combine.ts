// Several files of one board as one: a netlist says what is joined, a parts list what is fitted.
import { defined } from "../../base/defined";
import type { PinRef } from "../types";
import { FORMAT_WORDS, type ImportedBoard, type ImportedPart, type ImportFormat } from "./imported";

/** A file that was read. */
export interface ImportedFile {
  /** Without its folders. */
  readonly name: string;
  readonly board: ImportedBoard;
}

/** Where something was learned: "netlist main.net, line 4". */
export interface ImportOrigin {
  readonly file: string;
  readonly format: ImportFormat;
  readonly line: number;
}

export interface CombinedPart extends Omit<ImportedPart, "line"> {
  readonly from: ImportOrigin;
}

export interface CombinedNet {
  readonly name: string;
  readonly pins: readonly PinRef[];
  readonly from: ImportOrigin;
}

/** What two files say otherwise, as a sentence; the file named first is believed. */
export interface ImportConflict {
  readonly file: string;
  readonly line: number;
  readonly message: string;
}

export interface CombinedBoard {
  readonly title?: string;
  readonly parts: readonly CombinedPart[];
  readonly nets: readonly CombinedNet[];
  readonly conflicts: readonly ImportConflict[];
}

export const sourceText = ({ file, format, line }: ImportOrigin): string =>
  `${FORMAT_WORDS[format]} ${file}, line ${line}`;

export function combine(files: readonly ImportedFile[]): CombinedBoard {
  const conflicts: ImportConflict[] = [];
  const parts = new Map<string, CombinedPart>();
  for (const { name, board } of files) {
    for (const { line, ...part } of board.parts) {
      const from = { file: name, format: board.format, line };
      const known = parts.get(part.ref);
      if (known) conflicts.push(...differing(known, part, from));
      parts.set(part.ref, known ? joined(known, part, from) : { ...part, from });
    }
  }
  const title = files.find(({ board }) => board.title !== undefined)?.board.title;
  return defined({
    title,
    parts: [...parts.values()],
    nets: nets(files, conflicts),
    conflicts,
  });
}

/** The net of a pin is the one that the first file which tells says; what another adds to a net of that name is on it too. */
function nets(files: readonly ImportedFile[], conflicts: ImportConflict[]): CombinedNet[] {
  const found = new Map<string, { pins: PinRef[]; from: ImportOrigin }>();
  const netOf = new Map<string, { net: string; file: string }>();
  for (const { name: file, board } of files) {
    for (const { name, pins, line } of board.nets) {
      const from = { file, format: board.format, line };
      const net = found.get(name) ?? { pins: [], from };
      found.set(name, net);
      for (const { ref, pin } of pins) {
        const place = `${ref}.${pin}`;
        const known = netOf.get(place);
        if (!known) {
          netOf.set(place, { net: name, file });
          net.pins.push({ ref, pin });
        } else if (known.net !== name)
          conflicts.push({
            file,
            line,
            message: `${ref} pin ${pin} is on net ${name} here and on ${known.net} in ${known.file}, which is believed. The files may be of two revisions.`,
          });
      }
    }
  }
  return [...found].map(([name, net]) => ({ name, ...net }));
}

function joined(known: CombinedPart, also: Omit<ImportedPart, "line">, from: ImportOrigin): CombinedPart {
  const pins = new Set([...known.pins, ...also.pins]);
  return {
    ...also,
    ...known,
    pins: [...pins],
    allPins: (known.pins.length > 0 && known.allPins) || (also.pins.length > 0 && also.allPins),
    // What says which part it is counts for more than what says only where its pins go.
    from: known.value === undefined && also.value !== undefined ? from : known.from,
  };
}

function differing(
  known: CombinedPart,
  also: Omit<ImportedPart, "line">,
  from: ImportOrigin,
): ImportConflict[] {
  if (known.value === undefined || also.value === undefined || plain(known.value) === plain(also.value))
    return [];
  return [
    {
      file: from.file,
      line: from.line,
      message: `${known.ref} is ${also.value} here and ${known.value} in ${known.from.file}, which is believed. Look at the board.`,
    },
  ];
}

const plain = (value: string): string => value.replaceAll(/\s+/g, "").replace(",", ".").toLowerCase();

// A device file begun for a number that a board file has and the library does not know: where it is put, with how many pins.

import { beginDevice, pinsOfCase } from "../knowledge/begin-device";
import { idOf } from "../knowledge/board-file";
import { packagePins } from "../knowledge/package-pins";
import type { Board, Part } from "../knowledge/types";
import type { KnowledgeInput, NewFile } from "./check";

/** Most chips of these boards have as many pins: common practice, no source. */
const USUAL_PINS = 14;

export interface BegunDevice extends NewFile {
  readonly pins: number;
}

/** @param parts those of the board that have the number */
export function beginFor(
  device: string,
  parts: readonly Part[],
  board: Board,
  { uri, knowledge }: KnowledgeInput,
): BegunDevice {
  const box = parts.find((part) => part.package !== undefined)?.package;
  const pins = pinsOf(parts, box, board);
  const folder = folderOf(uri);
  const around = folderOf(folder.slice(0, -1));
  // Where there are device files of one's own already, beside those.
  const beside =
    knowledge.devices.find((one) => one.uri.startsWith(folder)) ??
    knowledge.devices.find((one) => one.uri.startsWith(around));
  return {
    uri: `${beside ? folderOf(beside.uri) : folder}${encodeURIComponent(idOf(device))}.device.yaml`,
    text: beginDevice(device, box, pins),
    pins,
  };
}

const folderOf = (uri: string): string => uri.slice(0, uri.lastIndexOf("/") + 1);

function pinsOf(parts: readonly Part[], box: string | undefined, board: Board): number {
  const refs = new Set(parts.map(({ ref }) => ref));
  const named = [...board.nets.values()].flatMap(({ pins }) => pins.filter(({ ref }) => refs.has(ref)));
  const highest = Math.max(0, ...named.map(({ pin }) => (/^\d{1,3}$/.test(pin) ? Number(pin) : 0)));
  const said = packagePins(box ?? "");
  if (said !== undefined && said >= highest) return said;
  if (/^TO-?\d/i.test(box ?? "")) return Math.max(3, highest);
  return highest > 0 ? pinsOfCase(undefined, highest) : USUAL_PINS;
}

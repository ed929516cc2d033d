// What keeps a memory alive, read while the power is off.

import { defined } from "../../../base/defined";
import type { Judgement } from "../../../judge";
import { extentOf } from "../../../judge/compare";
import type { LogContext } from "../../../judge/context";
import { railAt } from "../../../judge/rail-name";
import { siValue } from "../../../judge/uncertainty";
import type { Board, Net, Rail } from "../../../knowledge/types";
import type { Reading } from "../../../log/model";
import type { Observation } from "../observation";
import { isPowerOff } from "../words/power-off";

/** Of the rail's voltage: a cell that holds less is empty, or does not reach the rail. Common practice, no source. */
const EMPTY = 0.55;

/** What keeps a rail while the power is off: by the board's word, or a cell on it or behind its resistor. */
function storeOf(board: Board, { name, net }: Rail): readonly string[] | undefined {
  const told = board.backups.find((one) => one.rail === name);
  if (told) return [told.capacitor, told.resistor].flatMap((ref) => ref ?? []);
  const own = board.nets.get(net ?? "");
  if (!own) return undefined;
  const stores = ({ pins }: Net): string[] =>
    pins.flatMap(({ ref }) => (/^(?:BT|BAT|B)\d/i.test(ref) ? ref : []));
  const behind = own.pins.flatMap(({ ref }) => {
    if (!/^[RD]\d/i.test(ref)) return [];
    const other = [...board.nets.values()].find(
      (one) => one !== own && one.pins.some((pin) => pin.ref === ref),
    );
    const found = other ? stores(other) : [];
    return found.length > 0 ? [...found, ref] : [];
  });
  const all = [...new Set([...stores(own), ...behind])];
  return all.length > 0 ? all : undefined;
}

/** The supply of a memory that is kept, read after the power went. */
export function backupLost(
  { measure, subject, value, table, cell, spec }: Reading,
  { verdict, side }: Judgement,
  ctx: LogContext,
): Observation | undefined {
  const board = ctx.board?.value;
  const rail = board && railAt(subject, board);
  const backup = board && rail && storeOf(board, rail);
  if (
    !rail ||
    !backup ||
    spec.quantity !== "voltage" ||
    measure === "ripple" ||
    !isPowerOff({ table, subject, cell })
  )
    return undefined;
  const at = `${rail.name}, power off`;
  // A cell alone holds less than what charges it.
  const isCell = !board.backups.some((one) => one.rail === rail.name);
  const [read, full] = [extentOf(value), siValue(rail.nominal, "V")];
  const isEmpty = !isCell || (read !== undefined && full !== undefined && read.high < EMPTY * full);
  const isLost = verdict === "out-of-limits" && side === "low" && isEmpty;
  return defined({
    key: `${table.procedure.id} ${at}`.toUpperCase(),
    what: at,
    table,
    span: cell.span,
    refs: backup.map((ref) => ref.toUpperCase()),
    finding: isLost
      ? {
          kind: "sign" as const,
          sign: "backup-lost" as const,
          rail: rail.name,
          refs: backup,
          of: at,
          says: `${rail.name} reads ${value.typed} with the power off: what keeps it does not last.`,
        }
      : undefined,
  });
}

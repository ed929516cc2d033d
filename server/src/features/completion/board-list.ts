// The cells of a list of what is on the board, besides its designators and numbers.
import { defined } from "../../base/defined";
import { partAt } from "../../judge/board-parts";
import type { CellPosition } from "../../log/position";
import { type Markdown, md } from "../../text/markdown";
import { byRef, fewOf } from "../shared/describe";
import type { Completion } from "../types";
import type { LogView } from "../view";

const item =
  (at: CellPosition) =>
  (label: string, description = "", documentation?: Markdown): Completion =>
    defined({
      label,
      kind: "value",
      description,
      documentation,
      span: at.edit,
      newText: label,
    });

/** The case that the row's device comes in, then those that the library's devices come in, the commonest first. */
export function packages(view: LogView, at: CellPosition): readonly Completion[] {
  const { library } = view.ctx;
  const { part } = at.table.rows[at.row]?.cells ?? {};
  const own = part && library.device(part.text)?.device;
  const counts = new Map<string, number>();
  for (const device of library.devices) {
    const { name } = device.package;
    counts.set(name, (counts.get(name) ?? 0) + 1);
  }
  if (own) counts.delete(own.package.name);
  const others = [...counts].sort(([a, n], [b, m]) => m - n || byRef(a, b)).map(([name]) => name);
  return [
    ...(own ? [item(at)(own.package.name, `what a ${part?.text} comes in`)] : []),
    ...others.map((name) => item(at)(name)),
  ];
}

/** Circuits that the board file has or that other rows name, with the parts of each. */
export function circuits(view: LogView, at: CellPosition): readonly Completion[] {
  const board = view.ctx.board?.value;
  const typed = at.cell.text.trim();
  return [...(board?.circuits ?? [])].flatMap(([id, { title }]) => {
    const parts = [...(board?.parts.values() ?? [])].filter(({ circuit }) => circuit === id);
    const refs = parts.map(({ ref }) => ref).sort(byRef);
    // What is only just being typed has no other part.
    const own = at.table.rows[at.row]?.cells.ref?.text.toUpperCase();
    if (id === typed && refs.every((ref) => ref.toUpperCase() === own)) return [];
    return [item(at)(id, title === id ? "" : title, refs.length > 0 ? fewOf(refs) : undefined)];
  });
}

/** Values of other parts with the same letters: resistors for a resistor. */
export function partValues(view: LogView, at: CellPosition): readonly Completion[] {
  const ref = at.table.rows[at.row]?.cells.ref?.text ?? "";
  const letters = /^[A-Za-z]+/.exec(ref)?.[0].toUpperCase();
  const own = partAt(ref, view.ctx)?.ref;
  const found = new Map<string, string[]>();
  for (const part of view.ctx.board?.value.parts.values() ?? []) {
    if (part.value === undefined || part.ref === own) continue;
    if (letters !== undefined && /^[A-Za-z]+/.exec(part.ref)?.[0].toUpperCase() !== letters) continue;
    found.set(part.value, [...(found.get(part.value) ?? []), part.ref]);
  }
  return [...found].map(([value, refs]) => item(at)(value, `as ${refs.sort(byRef)[0]}`, md(fewOf(refs))));
}

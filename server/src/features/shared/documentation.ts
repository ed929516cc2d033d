// Longer Markdown texts about boards, symptoms and procedures, shared by hover and completion.

import type { LogContext } from "../../judge/context";
import type { SchemaPlace } from "../../knowledge/schema-walk";
import { railText } from "../../knowledge/tolerance";
import type { Board, Meter, Net, Procedure, Rail, RomSet, Symptom } from "../../knowledge/types";
import { kindOf } from "../../log/kinds";
import { code, md } from "../../text/markdown";
import { byRef, netMembers } from "./describe";

/** What a board is and how much of it the file knows, with its cautions, as Markdown. */
export function boardDocumentation(board: Board): string {
  const facts = [
    board.maker === undefined ? undefined : `Maker: ${md(board.maker)}`,
    board.era ? `Built ${board.era.from}-${board.era.to}` : undefined,
    `${board.parts.size} parts, ${board.nets.size} nets, ${board.rails.size} rails`,
    board.revisions.size > 0 ? `Revisions: ${[...board.revisions.keys()].map(md).join(", ")}` : undefined,
  ];
  return [`**${md(board.title)}**`, facts.filter(Boolean).join("  \n"), ...cautionLines(board.cautions)].join(
    "\n\n",
  );
}

/** A symptom with the circuits to look into and the parts in them, as Markdown. */
export function symptomDocumentation(symptom: Symptom, board: Board): string {
  const circuits = symptom.circuits.map((id) => {
    const circuit = board.circuits.get(id);
    const parts = [...board.parts.values()].filter((part) => part.circuit === id).map((part) => part.ref);
    const list = parts.length > 0 ? `: ${parts.sort(byRef).map(md).join(", ")}` : "";
    return `- **${md(circuit?.title ?? id)}**${circuit?.note === undefined ? "" : ` (${md(circuit.note)})`}${list}`;
  });
  return [
    `**${md(symptom.title)}**`,
    ...(symptom.shows === undefined ? [] : [`Display shows: ${md(symptom.shows)}`]),
    ...(circuits.length > 0 ? [`Circuits to look at:\n${circuits.join("\n")}`] : []),
    ...(symptom.note === undefined ? [] : [md(symptom.note)]),
  ].join("\n\n");
}

/** How a test is done and read, as Markdown, with its cautions ahead of the steps. */
export function procedureDocumentation(procedure: Procedure, ctx: LogContext): string {
  const powered = procedure.powered === "either" ? "" : ` · ${procedure.powered}`;
  return [
    `**${md(procedure.title)}**${powered}`,
    md(procedure.purpose),
    ...cautionLines(procedure.cautions),
    ...cornerWarning(procedure, ctx),
    ...section("Set-up", procedure.setup, "-"),
    ...section("Steps", procedure.steps, "1."),
    ...section("How to read it", procedure.interpret, "-"),
    ...section("What it cannot tell", procedure.cannotTell, "-"),
    `*Source: ${md(procedure.source)}*`,
  ].join("\n\n");
}

/** A net with everything on it. */
export function netDocumentation(net: Net, ctx: LogContext): string {
  return [
    `Net **${md(net.name)}**`,
    netMembers(net, ctx)
      .map((member) => `- ${md(member)}`)
      .join("\n"),
  ].join("\n\n");
}

/** What a rail should read and where, as Markdown, with whose figures they are. */
export function railDocumentation(rail: Rail): string {
  return [
    `**${md(rail.name)}**: ${md(railText(rail))}`,
    ...(rail.ripple === undefined ? [] : [`Ripple at most ${md(rail.ripple)}.`]),
    ...(rail.load === undefined ? [] : [`Load: ${md(rail.load)}.`]),
    ...(rail.testPoint === undefined ? [] : [`Measured at ${md(rail.testPoint)}.`]),
    `*Source: ${md(rail.source ?? "the board file")}*`,
  ].join("\n\n");
}

/** A meter with the accuracy of each of its ranges. */
export function meterDocumentation(meter: Meter): string {
  const ranges = meter.ranges.map((range) => {
    const accuracy = range.accuracy
      ? `± (${range.accuracy.reading} + ${range.accuracy.counts} counts)`
      : "accuracy not given";
    return `| ${md(range.function)} | ${md(range.range)} | ${md(accuracy)} |`;
  });
  return `**${md(meter.title)}**\n\n| Function | Range | Accuracy |\n|---|---|---|\n${ranges.join("\n")}`;
}

/** A set's images with the sums that tell them, as Markdown. */
export function romSetDocumentation(set: RomSet): string {
  const images = set.images.map(
    (image) => `- ${md(image.ref)}${image.crc32 === undefined ? "" : `: CRC-32 ${code(image.crc32)}`}`,
  );
  return `**${md(set.title)}**\n\n${images.join("\n")}`;
}

/** What a key of a file is for and what may stand behind it. Descriptions are our own Markdown. */
export function schemaDocumentation(schema: Pick<SchemaPlace, "title" | "description" | "enum">): string {
  return [
    `**${md(schema.title)}**`,
    ...(schema.description === "" ? [] : [schema.description]),
    ...(schema.enum ? [`One of: ${schema.enum.map((value) => `\`${value}\``).join(", ")}`] : []),
  ].join("\n\n");
}

const section = (title: string, lines: readonly string[], mark: string): string[] =>
  lines.length === 0 ? [] : [`**${title}**\n${lines.map((line) => `${mark} ${md(line)}`).join("\n")}`];

/** Cautions come before anything that is to be done. */
export const cautionLines = (cautions: readonly string[]): string[] =>
  cautions.map((caution) => `⚠ **Caution:** ${md(caution)}`);

/**
 * The corner rule puts ground at the last pin of the first row. Where a chip of this board breaks it, the
 * lead would stand on the wrong pin for every reading of that chip.
 */
function cornerWarning(procedure: Procedure, ctx: LogContext): string[] {
  const board = ctx.board?.value;
  if (kindOf(procedure.id).judgedBy !== "diode" || !board) return [];
  const odd = [...board.parts.values()]
    .sort((a, b) => byRef(a.ref, b.ref))
    .flatMap((part) => {
      const device = part.device === undefined ? undefined : ctx.library.device(part.device)?.device;
      if (device?.kind !== "logic") return [];
      const ground = [...device.pins.values()].find((pin) => pin.direction === "ground");
      if (!ground || ground.number === String(device.package.pins / 2)) return [];
      return [
        `- ${md(part.ref)} (${md(part.device ?? device.id)}): ground is pin ${ground.number}, not pin ${device.package.pins / 2}`,
      ];
    });
  if (odd.length === 0) return [];
  return [`**Ground is not at the corner here:**\n${odd.join("\n")}`];
}

// Longer Markdown texts about boards, symptoms and procedures, shared by hover and completion.

import type { LogContext } from "../../judge/context";
import type { SchemaPlace } from "../../knowledge/schema-walk";
import { railText } from "../../knowledge/tolerance";
import type { Board, Meter, Net, Procedure, Rail, RomSet, Symptom } from "../../knowledge/types";
import { kindOf } from "../../log/kinds";
import { code, joined, type Markdown, markdown, md, ownMarkdown } from "../../text/markdown";
import { byRef, netMembers } from "./describe";

/** What a board is and how much of it the file knows, with its cautions, as Markdown. */
export function boardDocumentation(board: Board, title = board.title): Markdown {
  const facts = [
    board.maker === undefined ? undefined : markdown`Maker: ${md(board.maker)}`,
    board.era ? markdown`Built ${board.era.from}-${board.era.to}` : undefined,
    markdown`${board.parts.size} parts, ${board.nets.size} nets, ${board.rails.size} rails`,
    board.revisions.size > 0
      ? markdown`Revisions: ${joined([...board.revisions.keys()].map(md), ", ")}`
      : undefined,
  ];
  return joined(
    [markdown`**${md(title)}**`, joined(facts.filter(Boolean), "  \n"), ...cautionLines(board.cautions)],
    "\n\n",
  );
}

/** A symptom with the circuits to look into and the parts in them, as Markdown. */
export function symptomDocumentation(symptom: Symptom, board: Board): Markdown {
  const circuits = symptom.circuits.map((id) => {
    const circuit = board.circuits.get(id);
    const parts = [...board.parts.values()].filter((part) => part.circuit === id).map((part) => part.ref);
    const list = parts.length > 0 ? markdown`: ${joined(parts.sort(byRef).map(md), ", ")}` : "";
    return markdown`- **${md(circuit?.title ?? id)}**${circuit?.note === undefined ? "" : markdown` (${md(circuit.note)})`}${list}`;
  });
  return joined(
    [
      markdown`**${md(symptom.title)}**`,
      ...(symptom.shows === undefined ? [] : [markdown`Display shows: ${md(symptom.shows)}`]),
      ...(circuits.length > 0 ? [markdown`Circuits to look at:\n${joined(circuits, "\n")}`] : []),
      ...(symptom.note === undefined ? [] : [md(symptom.note)]),
    ],
    "\n\n",
  );
}

/** How a test is done and read, as Markdown, with its cautions ahead of the steps. */
export function procedureDocumentation(procedure: Procedure, ctx: LogContext): Markdown {
  const powered = procedure.powered === "either" ? "" : markdown` · ${md(procedure.powered)}`;
  return joined(
    [
      markdown`**${md(procedure.title)}**${powered}`,
      md(procedure.purpose),
      ...cautionLines(procedure.cautions),
      ...cornerWarning(procedure, ctx),
      ...section(markdown`Set-up`, procedure.setup, markdown`-`),
      ...section(markdown`Steps`, procedure.steps, markdown`1.`),
      ...section(markdown`How to read it`, procedure.interpret, markdown`-`),
      ...section(markdown`What it cannot tell`, procedure.cannotTell, markdown`-`),
      markdown`*Source: ${md(procedure.source)}*`,
    ],
    "\n\n",
  );
}

/** A net with everything on it. */
export function netDocumentation(net: Net, ctx: LogContext): Markdown {
  return joined(
    [
      markdown`Net **${md(net.name)}**`,
      joined(
        netMembers(net, ctx).map((member) => markdown`- ${md(member)}`),
        "\n",
      ),
    ],
    "\n\n",
  );
}

/** What a rail should read and where, as Markdown, with whose figures they are. */
export function railDocumentation(rail: Rail): Markdown {
  return joined(
    [
      markdown`**${md(rail.name)}**: ${md(railText(rail))}`,
      ...(rail.ripple === undefined ? [] : [markdown`Ripple at most ${md(rail.ripple)}.`]),
      ...(rail.load === undefined ? [] : [markdown`Load: ${md(rail.load)}.`]),
      ...(rail.testPoint === undefined ? [] : [markdown`Measured at ${md(rail.testPoint)}.`]),
      markdown`*Source: ${md(rail.source ?? "the board file")}*`,
    ],
    "\n\n",
  );
}

/** A meter with the accuracy of each of its ranges. */
export function meterDocumentation(meter: Meter): Markdown {
  const ranges = meter.ranges.map((range) => {
    const accuracy = range.accuracy
      ? `± (${range.accuracy.reading} + ${range.accuracy.counts} counts)`
      : "accuracy not given";
    return markdown`| ${md(range.function)} | ${md(range.range)} | ${md(accuracy)} |`;
  });
  return markdown`**${md(meter.title)}**\n\n| Function | Range | Accuracy |\n|---|---|---|\n${joined(ranges, "\n")}`;
}

/** A set's images with the sums that tell them, as Markdown. */
export function romSetDocumentation(set: RomSet): Markdown {
  const images = set.images.map(
    (image) =>
      markdown`- ${md(image.ref)}${image.crc32 === undefined ? "" : markdown`: CRC-32 ${code(image.crc32)}`}`,
  );
  return markdown`**${md(set.title)}**\n\n${joined(images, "\n")}`;
}

/** What a key of a file is for and what may stand behind it. Descriptions are our own Markdown. */
export function schemaDocumentation(schema: Pick<SchemaPlace, "title" | "description" | "enum">): Markdown {
  return joined(
    [
      markdown`**${md(schema.title)}**`,
      ...(schema.description === "" ? [] : [ownMarkdown(schema.description)]),
      ...(schema.enum
        ? [
            markdown`One of: ${joined(
              schema.enum.map((value) => code(value)),
              ", ",
            )}`,
          ]
        : []),
    ],
    "\n\n",
  );
}

const section = (title: Markdown, lines: readonly string[], mark: Markdown): Markdown[] =>
  lines.length === 0
    ? []
    : [
        markdown`**${title}**\n${joined(
          lines.map((line) => markdown`${mark} ${md(line)}`),
          "\n",
        )}`,
      ];

/** Cautions come before anything that is to be done. */
export const cautionLines = (cautions: readonly string[]): Markdown[] =>
  cautions.map((caution) => markdown`⚠ **Caution:** ${md(caution)}`);

/**
 * The corner rule puts ground at the last pin of the first row. Where a chip of this board breaks it, the
 * lead would stand on the wrong pin for every reading of that chip.
 */
function cornerWarning(procedure: Procedure, ctx: LogContext): Markdown[] {
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
        markdown`- ${md(part.ref)} (${md(part.device ?? device.id)}): ground is pin ${md(ground.number)}, not pin ${device.package.pins / 2}`,
      ];
    });
  if (odd.length === 0) return [];
  return [markdown`**Ground is not at the corner here:**\n${joined(odd, "\n")}`];
}

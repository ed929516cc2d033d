import { partTestPoint, pinTestPoint } from "../../../judge/test-point";
import { boardIndex } from "../../../knowledge/board-index";
import { pinRef } from "../../../knowledge/shape-board";
import type { Board, Device, Modification } from "../../../knowledge/types";
import { joined, type Markdown, markdown, md } from "../../../text/markdown";
import { byRef, directionWords } from "../../shared/describe";
import {
  cautionLines,
  meterDocumentation,
  netDocumentation,
  procedureDocumentation,
  railDocumentation,
  romSetDocumentation,
  symptomDocumentation,
} from "../../shared/documentation";
import type { KnowledgeFile } from "../../shared/knowledge-file";
import { deviceMarkdown, doubtMarkdown, partMarkdown, pinMarkdown } from "../../shared/part-text";
import { type Derived, derivedOf } from "../derived";
import { circuitDocumentation, codeDocumentation, matrixDocumentation } from "./board";

/**
 * Markdown about the thing called `name`. `kind` is a top-level key of the file or what the schema says that a
 * value refers to; undefined where there is no such thing.
 */
export function about(file: KnowledgeFile, kind: string, name: string): Markdown | undefined {
  const derived = derivedOf(file);
  const { ctx, board, device, shop } = derived;
  const { library } = file.knowledge;
  switch (kind) {
    case "device": {
      const found = library.device(name);
      if (found) return deviceMarkdown(name, found.device, found.family, library);
      return (
        doubtMarkdown(name, library) ??
        markdown`**${md(name)}** is not in the library, so its pins and limits are not known and most of its readings cannot be judged. A file that ends in \`.device.yaml\` can describe it.`
      );
    }
    case "family": {
      const family = library.families.find(({ id }) => id === name);
      return family && markdown`**${md(family.id)}** ${md(family.title)}\n\n*Source: ${md(family.source)}*`;
    }
    case "procedure": {
      const procedure = library.procedure(name);
      return procedure && procedureDocumentation(procedure, ctx);
    }
    case "meters": {
      const meter = shop?.meters.get(name);
      return (
        meter &&
        joined([meterDocumentation(meter), ...(meter.note === undefined ? [] : [md(meter.note)])], "\n\n")
      );
    }
    case "pins":
      return device && devicePin(device, name);
    default:
      return board && onBoard(derived, board, kind, name);
  }
}

function onBoard(derived: Derived, board: Board, kind: string, name: string): Markdown | undefined {
  const { ctx } = derived;
  switch (kind) {
    case "parts":
    case "switch-banks":
      return partMarkdown(partTestPoint(name, board, ctx.library), ctx);
    case "nets": {
      const net = board.nets.get(name);
      if (!net) return undefined;
      const { railOf, isGround } = boardIndex(board);
      const rail = railOf(net);
      const lines = [
        isGround(net) ? markdown`Ground.` : markdown``,
        rail === undefined ? markdown`` : markdown`Carries ${md(rail)}.`,
      ];
      return joined([netDocumentation(net, ctx), ...lines.filter((line) => line !== "")], "\n\n");
    }
    case "rails": {
      const rail = board.rails.get(name);
      return rail && railDocumentation(rail);
    }
    case "circuits":
      return circuitDocumentation(board, name, ctx);
    case "symptoms": {
      const symptom = board.symptoms.get(name);
      return symptom && symptomDocumentation(symptom, board);
    }
    case "matrices": {
      const matrix = board.matrices.get(name);
      return matrix && matrixDocumentation(matrix, board);
    }
    case "codes": {
      const code = board.codes?.get(name);
      return code && codeDocumentation(code, board, ctx);
    }
    case "rom-sets": {
      const set = board.romSets.get(name);
      return set && romSetDocumentation(set);
    }
    case "modifications": {
      const found = board.modifications.get(name);
      return found && modification(found, board);
    }
    case "revisions": {
      const note = board.revisions.get(name);
      return note === undefined ? undefined : markdown`**Revision ${md(name)}**: ${md(note)}`;
    }
    default:
      return undefined;
  }
}

/** `U14.3`: the pin with what is on its net; of a part whose pins are not known the part with the net. */
export function aboutPin(file: KnowledgeFile, typed: string): Markdown | undefined {
  const { ctx, board } = derivedOf(file);
  const at = pinRef(typed);
  if (!board || !at) return undefined;
  const part = partTestPoint(at.ref, board, ctx.library);
  const place = pinTestPoint(part, at.pin, board);
  if (place.device) return pinMarkdown(place, ctx);
  const net = boardIndex(board).net(at.ref, at.pin);
  return (
    joined([partMarkdown(part, ctx), net && netDocumentation(net, ctx)].filter(Boolean), "\n\n") || undefined
  );
}

function devicePin(device: Device, number: string): Markdown | undefined {
  const pin = device.pins.get(number);
  if (!pin) return undefined;
  const gates = device.gates.flatMap((gate) => {
    const side = gate.inputs.includes(number)
      ? markdown`Input`
      : gate.outputs.includes(number)
        ? markdown`Output`
        : undefined;
    return side === undefined ? [] : [markdown`${side} of ${md(gate.function)} gate ${md(gate.name)}`];
  });
  return joined(
    [
      markdown`**Pin ${md(number)}** ${md(pin.name)}, ${md(directionWords(pin))}`,
      ...(gates.length > 0 ? [joined(gates, "  \n")] : []),
      ...(pin.note === undefined ? [] : [md(pin.note)]),
    ],
    "\n\n",
  );
}

function modification(
  { title, steps, parts, defeats, requires, conflicts, revisions }: Modification,
  { cautions }: Board,
): Markdown {
  const names = (label: Markdown, items: readonly string[]): Markdown[] =>
    items.length === 0 ? [] : [markdown`${label}: ${joined([...items].sort(byRef).map(md), ", ")}`];
  const facts = [
    ...names(markdown`Parts`, parts),
    ...names(markdown`Puts out of action`, defeats),
    ...names(markdown`Revisions`, revisions),
    ...names(markdown`First`, requires),
    ...names(markdown`Not together with`, conflicts),
  ];
  return joined(
    [
      markdown`**${md(title)}**`,
      ...(facts.length > 0 ? [joined(facts, "  \n")] : []),
      ...cautionLines(steps.length > 0 ? cautions : []),
      ...(steps.length > 0
        ? [
            joined(
              steps.map((step) => markdown`1. ${md(step)}`),
              "\n",
            ),
          ]
        : []),
    ],
    "\n\n",
  );
}

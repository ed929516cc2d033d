import { boardTitle, hasBoardFile } from "../../judge/context";
import { schemaAt } from "../../knowledge/schema-walk";
import type { Board, Symptom } from "../../knowledge/types";
import type { YamlPlace } from "../../syntax/yaml";
import { joined, type Markdown, markdown, md } from "../../text/markdown";
import { slice } from "../../text/span";
import { referenceStatus } from "../reference-job/status";
import { symptomSuspects } from "../shared/diagnosis";
import {
  boardDocumentation,
  meterDocumentation,
  romSetDocumentation,
  schemaDocumentation,
  symptomDocumentation,
} from "../shared/documentation";
import { boardJobsMarkdown, curesMarkdown } from "../shared/shop-jobs";
import type { Hover } from "../types";
import type { LogView } from "../view";
import { earlierJobMarkdown } from "./earlier-job";
import { provingListMarkdown } from "./proving";
import { lookAlikes } from "./symptom-list";

export function hoverFront(view: LogView, place: YamlPlace): Hover | undefined {
  const key = place.path[0];
  if (place.where === "blank" || typeof key !== "string") return undefined;
  const about = place.where === "value" ? aboutIn(view, key, place) : undefined;
  if (about !== undefined) return { span: place.span, markdown: about };
  const schema = schemaAt("front-matter", place.where === "key" ? place.path : [key]);
  return schema && { span: place.span, markdown: schemaDocumentation(schema) };
}

/** In a log about several boards: of each that has something to say of it, and below `boards:` of that one. */
function aboutIn(view: LogView, key: string, place: YamlPlace): Markdown | undefined {
  if (!view.set) return aboutValue(view, key, place);
  if (key === "boards") {
    const own = view.set.find(({ doc }) => doc.ofSet?.path[1] === place.path[1]);
    return own && aboutValue(own, String(place.path[2] ?? "board"), place);
  }
  const all = view.set.flatMap((one) => {
    const about = aboutValue(one, key, place);
    return about === undefined ? [] : [{ name: one.doc.ofSet?.name ?? "", about }];
  });
  const [first] = all;
  if (!first || all.every(({ about }) => about === first.about)) return first?.about;
  return joined(
    all.map(({ name, about }) => markdown`**${md(name)}**\n\n${about}`),
    "\n\n---\n\n",
  );
}

/** What the board file says of it, what looks or behaves alike, what cured it before, what this log's readings point to. */
function aboutSymptom(
  view: LogView,
  typed: string,
  symptom: Symptom | undefined,
  board: Board | undefined,
): Markdown | undefined {
  const parts = [
    symptom && board && symptomDocumentation(symptom, board),
    board && lookAlikes(typed, symptom, view.ctx, board, view.doc),
    curesMarkdown(view, typed),
    symptom && symptomSuspects(view, symptom.id),
  ].filter((part) => part !== undefined);
  return parts.length > 0 ? joined(parts, "\n\n---\n\n") : undefined;
}

/** Where what is known of the board is from, where no board file says it. */
function whoseWord({ ctx }: LogView): Markdown[] {
  if (hasBoardFile(ctx)) return [];
  const others = ctx.stated?.jobs ?? 0;
  const from =
    others === 0
      ? markdown`this log`
      : markdown`this log and ${others === 1 ? markdown`another` : markdown`${others} others`} of such boards`;
  return [markdown`*No board file describes it: this is known from ${from}.*`];
}

function aboutBoard(view: LogView, board: Board | undefined): Markdown | undefined {
  const jobs = boardJobsMarkdown(view);
  const parts = [
    ...(board ? [boardDocumentation(board, boardTitle(view.ctx, view.front)), ...whoseWord(view)] : []),
    ...(jobs === undefined ? [] : [jobs]),
  ];
  return parts.length > 0 ? joined(parts, "\n\n") : undefined;
}

function aboutValue(view: LogView, key: string, place: YamlPlace): Markdown | undefined {
  const board = view.ctx.board?.value;
  const typed = slice(view.doc.text, place.span).replace(/^["']|["']$/g, "");
  switch (key) {
    case "board":
      return aboutBoard(view, board);
    case "revision": {
      const note = board?.revisions.get(typed);
      return note === undefined ? undefined : markdown`**Revision ${md(typed)}**: ${md(note)}`;
    }
    case "stage": {
      // What the stage means, and below it how far the board is.
      const list = provingListMarkdown(view);
      const schema = schemaAt("front-matter", [key]);
      return list && joined([...(schema ? [schemaDocumentation(schema)] : []), list], "\n\n---\n\n");
    }
    case "meter":
      return view.ctx.meter && meterDocumentation(view.ctx.meter);
    case "rom-set": {
      const set = board?.romSets.get(typed);
      return set && romSetDocumentation(set);
    }
    case "symptoms": {
      const symptom = board?.symptoms.get(typed);
      return aboutSymptom(view, typed, symptom, board);
    }
    case "reference": {
      const status = referenceStatus(view);
      const schema = schemaAt("front-matter", [key]);
      return status && joined([...(schema ? [schemaDocumentation(schema)] : []), status], "\n\n---\n\n");
    }
    case "comeback-of":
      return earlierJobMarkdown(view, typed);
    default:
      return undefined;
  }
}

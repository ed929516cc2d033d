import { defined } from "../../base/defined";
import { type SchemaPlace, schemaAt } from "../../knowledge/schema-walk";
import { eachBoard, type LogSummary } from "../../log/summary";
import { earlierJobs } from "../../review/comeback";
import { nodeAt, type YamlPlace } from "../../syntax/yaml";
import { ownMarkdown } from "../../text/markdown";
import { nearestName } from "../../text/nearest";
import { byRef } from "../shared/describe";
import { boardDocumentation, symptomDocumentation } from "../shared/documentation";
import { nextJob } from "../shared/next-job";
import type { Completion } from "../types";
import { boardsOf, type LogView } from "../view";
import { today } from "./today";

/** Front-matter keys not there yet, and values by key. */
export function completeFront(view: LogView, place: YamlPlace): readonly Completion[] {
  const path = place.path;
  const key = path[0];
  if (
    place.where === "value" &&
    path.length > 0 &&
    typeof key === "string" &&
    !(place.ownLine && path.length < 2)
  ) {
    return values(view, key, place);
  }
  if (place.where === "blank" && path.length > 0 && typeof key === "string") return values(view, key, place);
  return keys(view, place);
}

function keys(view: LogView, place: YamlPlace): Completion[] {
  // A set's short names are the writer's own; what is said of one board has keys again.
  const within = place.path[0] === "boards" ? place.path.slice(0, 2) : [];
  if (within.length === 1) return [];
  const root = schemaAt("front-matter", within);
  const { tree } = view.doc.frontMatter;
  const map = within.length > 0 ? nodeAt(tree, within)?.node : tree.root;
  const present = new Set(map?.kind === "map" ? [...map.byKey.keys()] : []);
  const typed = view.doc.text.slice(place.span.start, place.span.end);
  const colon = /^[ \t]*:/.test(view.doc.text.slice(place.span.end));
  // The shop's own fields come behind those that every log may have.
  const own = (within.length > 0 ? [] : [...(view.ctx.shop?.value.logFields ?? [])]).map(
    ([key, purpose]) => [key, { title: purpose, description: undefined }] as const,
  );
  return [...Object.entries(root?.properties ?? {}), ...own]
    .filter(([key]) => !present.has(key) || key === typed)
    .map(([key, { title, description }]) =>
      defined<Completion>({
        label: key,
        kind: "field",
        description: title,
        documentation: description === undefined ? undefined : ownMarkdown(description),
        span: place.span,
        newText: colon ? key : `${key}: `,
      }),
    );
}

function values(whole: LogView, key: string, place: YamlPlace): readonly Completion[] {
  const view = ofEntry(whole, place);
  const { text } = view.doc;
  // Straight behind the colon a blank is still missing.
  const gap = text[place.span.start - 1] === ":" ? " " : "";
  const item = (label: string, rest: Partial<Completion> = {}): Completion => ({
    label,
    kind: "value",
    span: place.span,
    newText: gap + quoted(label),
    ...rest,
  });
  const { knowledge } = view;
  const board = view.ctx.board?.value;
  const inEntry = key === "boards" ? (place.path[2] ?? "board") : key;
  switch (inEntry) {
    case "board":
      return [
        ...[...knowledge.boards.values()].map(({ value }) =>
          item(value.id, {
            kind: "board",
            description: value.title,
            documentation: boardDocumentation(value),
          }),
        ),
        ...loggedBoards(view).map(([id, logs]) =>
          item(id, { kind: "board", description: `named in ${logs === 1 ? "1 log" : `${logs} logs`}` }),
        ),
      ];
    case "revision":
      return [...(board?.revisions ?? [])].map(([id, note]) => item(id, { description: note }));
    case "meter":
      return [...(view.ctx.shop?.value.meters.values() ?? [])].map((m) =>
        item(m.id, { description: m.title }),
      );
    case "rom-set":
      return [...(board?.romSets.values() ?? [])].map((set) => item(set.id, { description: set.title }));
    case "job": {
      const next = nextJob(earlierJobNumbers(view), view.front.received ?? "");
      return next === undefined ? [] : [item(next, { description: "the number after the last" })];
    }
    case "owner":
      return [...new Set(others(view).flatMap(({ owner }) => owner ?? []))]
        .sort(byRef)
        .map((owner) => item(owner, { description: "owner of another job" }));
    case "comeback-of":
      return comebacks(view).map(({ job = "", title, returned }) =>
        item(job, {
          description: [title, returned && `returned ${returned}`].filter(Boolean).join(" · "),
        }),
      );
    case "received":
    case "warranty-until":
    case "returned":
      return [today(place.span, gap)];
    case "approval":
      return place.path.length > 1
        ? [today(place.span, gap)]
        : ["asked", "agreed", "refused"].map((word) => ({
            ...today(place.span, gap),
            label: word,
            newText: `${gap}{ ${word}: today }`,
            snippet: `${gap}{ ${word}: \${CURRENT_YEAR}-\${CURRENT_MONTH}-\${CURRENT_DATE} }`,
            filterText: word,
            preselect: word === "asked",
          }));
    case "symptoms":
      return symptoms(view, place, item);
    default:
      return fromSchema(schemaAt("front-matter", [key]), item);
  }
}

/** Below one of the `boards:` what is known of that board. */
function ofEntry(view: LogView, { path }: YamlPlace): LogView {
  const own = path[0] === "boards" && view.set?.find(({ doc }) => doc.ofSet?.path[1] === path[1]);
  return own || view;
}

/** The workspace's other logs. */
const others = ({ doc, earlier }: LogView): LogSummary[] =>
  [...(earlier?.values() ?? [])].filter(({ uri }) => uri !== doc.uri);

const earlierJobNumbers = (view: LogView): string[] => others(view).flatMap(({ job }) => job ?? []);

/** Jobs of this very board, the latest first; those of boards of its kind where its serial number is not known. */
function comebacks(view: LogView): LogSummary[] {
  const { board, serial, received } = view.front;
  const all = others(view);
  return serial === undefined
    ? all.filter((log) => log.job !== undefined && log.stage === "returned" && log.board === board)
    : earlierJobs(defined({ uri: view.doc.uri, board, serial, received }), all);
}

/** Boards that other logs name and no file describes, with the number of those logs; slips for a known id are none. */
function loggedBoards({ doc, earlier, knowledge }: LogView): [string, number][] {
  const counts = new Map<string, number>();
  for (const { uri, board } of eachBoard(earlier?.values() ?? [])) {
    if (uri === doc.uri || !board || knowledge.boards.has(board)) continue;
    if (nearestName(board, knowledge.boards.keys()) === undefined)
      counts.set(board, (counts.get(board) ?? 0) + 1);
  }
  return [...counts].sort(([a], [b]) => byRef(a, b));
}

function symptoms(
  view: LogView,
  place: YamlPlace,
  item: (label: string, rest?: Partial<Completion>) => Completion,
): Completion[] {
  const given = new Set(view.front.symptoms ?? []);
  const typed = view.doc.text.slice(place.span.start, place.span.end);
  // A list on one line is written where there is none yet.
  const wrap = place.path.length === 1 && !place.flow && place.where === "value";
  // On a line of its own below the key an item needs its dash.
  const dash = place.path.length === 1 && !place.flow && place.where === "blank";
  const boards = boardsOf(view).flatMap(({ ctx }) => ctx.board?.value ?? []);
  return boards
    .flatMap((board) => [...board.symptoms.values()].map((symptom) => ({ symptom, board })))
    .filter(({ symptom }) => !given.has(symptom.id) || symptom.id === typed)
    .map(({ symptom, board }) => {
      const base = item(symptom.id, {
        kind: "symptom",
        description: [symptom.title, symptom.shows].filter(Boolean).join(" · "),
        documentation: symptomDocumentation(symptom, board),
        filterText: `${symptom.id} ${symptom.title} ${symptom.shows ?? ""}`,
      });
      if (dash) return { ...base, newText: `- ${base.newText.trimStart()}` };
      return wrap ? { ...base, newText: base.newText.replace(/\S.*$/, (text) => `[${text}]`) } : base;
    });
}

function fromSchema(
  schema: SchemaPlace | undefined,
  item: (label: string, rest?: Partial<Completion>) => Completion,
): Completion[] {
  return (schema?.enum ?? []).map((value) => item(value, { kind: "keyword" }));
}

/** YAML would read "007" or "yes" as something else, so those are quoted. */
const quoted = (text: string): string =>
  /^[\w][\w./+-]*$/.test(text) && !/^[\d.+-]|^(?:true|false|null|yes|no|on|off|~)$/i.test(text)
    ? text
    : JSON.stringify(text);

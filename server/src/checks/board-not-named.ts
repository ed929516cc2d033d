import { type LogDocument, tablesOf } from "../log/document";
import type { LogTable } from "../log/model";
import { isNull, type YamlEntry } from "../syntax/yaml";
import type { TextEdit } from "../text/edits";
import { span } from "../text/span";
import { documentCheck } from "./check";

/** More fixes than these are a list to search in, which completion behind `board:` does better. */
const MOST_OFFERED = 3;

interface Offer {
  readonly title: string;
  readonly edit: TextEdit;
}

export default documentCheck({
  code: "board-not-named",
  title: "Readings of a board that is not named",
  severity: "information",
  scope: "document",
  why: "Designators, nets and limits come from the board file. While the front matter names no board, hardly more is asked of a reading than that it is one, and a log without a finding says nothing of the board.",
  remedy:
    "Write `board:` with the id of a board file into the front matter. Where there is no file of the board yet, a few parts and rails are enough to start one with.",
  examples: {
    bad: [
      `---
mendlog: 1
^^^^^^^^^^ board-not-named: can hardly be judged
job: 2026-014
---

## Diode check

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | 1.42    |
`,
      `---
mendlog: 1
board:
^^^^^^ board-not-named: Known boards: example
---

## Logic states

| Ref | Pin | State |
|-----|-----|-------|
| U14 | 1   | high  |
`,
    ],
    good: [
      `---
mendlog: 1
board: example
---

## Diode check

| Ref | Pin | Reading |
|-----|-----|---------|
| U14 | 1   | 0.58    |
`,
      `---
mendlog: 1
---

Nothing is measured yet.
`,
    ],
  },
  *run({ doc, knowledge, front }) {
    const { root } = doc.frontMatter.tree;
    if (root?.kind !== "map") return;
    const field = root.byKey.get("board");
    // A board that cannot be read as one is spoken of where it stands.
    if (field && !isEmpty(field)) return;
    const version = root.byKey.get("mendlog");
    const at = field ?? version;
    if (!at || !hasReadings(doc)) return;
    const symptoms = new Set(front.symptoms);
    const boards = [...knowledge.boards.values()]
      .map(({ value }) => ({
        value,
        shared: [...value.symptoms.keys()].filter((id) => symptoms.has(id)).length,
      }))
      .sort((a, b) => b.shared - a.shared || (a.value.id < b.value.id ? -1 : 1))
      .map(({ value }) => value);
    const hint =
      boards.length > 0
        ? `Known boards: ${boards.map(({ id }) => id).join(", ")}.`
        : "There is no *.board.yaml file in this workspace yet.";
    const place = field
      ? inField(doc, field)
      : version && belowOf(doc, root.byKey.get("job") ?? version, version);
    const offers: Offer[] = place
      ? boards
          .slice(0, MOST_OFFERED)
          .map(({ id, title }) => ({ title: `Name the board: ${id} (${title})`, edit: place(id) }))
      : [];
    yield {
      span: span(at.keySpan.start, valueEnd(doc.text, at)),
      message: `No board is named, so the readings can hardly be judged: their parts, nets and limits are not known. ${hint}`,
      data: { offers },
    };
  },
  fixes({ data }) {
    const { offers } = data as { readonly offers: readonly Offer[] };
    return offers.map(({ title, edit }) => ({
      title,
      edits: [edit],
      ...(offers.length === 1 ? { preferred: true } : {}),
    }));
  },
});

const isEmpty = ({ value }: YamlEntry): boolean =>
  isNull(value) || (value.kind === "scalar" && value.value === "");

/** What the eye found and what was done can be told without a board; what a meter or a probe said cannot. */
function hasReadings(doc: LogDocument): boolean {
  for (const { table } of tablesOf(doc)) if (isMeasuredTable(table)) return true;
  return false;
}

const isMeasuredTable = ({ readings }: LogTable): boolean =>
  readings.some(({ spec }) => spec.role === "reading" || spec.role === "state");

function behindColon(text: string, { keySpan }: YamlEntry): number {
  const colon = /^[ \t]*:/.exec(text.slice(keySpan.end, lineEnd(text, keySpan.end)));
  return keySpan.end + (colon?.[0].length ?? 0);
}

/** End of a field with what stands behind its colon on the same line; of an empty one the colon's. */
function valueEnd(text: string, field: YamlEntry): number {
  const colon = behindColon(text, field);
  const { start, end } = field.value.span;
  return end > start && start >= colon && end <= lineEnd(text, colon) ? end : colon;
}

type Place = (id: string) => TextEdit;

/** An empty field is filled in, and keeps the comment behind it. */
function inField({ text }: LogDocument, field: YamlEntry): Place {
  const old = span(behindColon(text, field), valueEnd(text, field));
  return (id) => ({ span: old, newText: ` ${id}` });
}

/** A field of its own below that of the job, or the first one where the job's takes several lines. */
function belowOf({ text }: LogDocument, job: YamlEntry, version: YamlEntry): Place {
  const oneLine = job.value.span.end <= lineEnd(text, job.keySpan.start);
  const end = lineEnd(text, (oneLine ? job : version).keySpan.start);
  const eol = text.startsWith("\r\n", end) ? "\r\n" : "\n";
  return (id) => ({ span: span(end, end), newText: `${eol}board: ${id}` });
}

function lineEnd(text: string, from: number): number {
  const at = text.slice(from).search(/\r?\n|$/);
  return from + at;
}

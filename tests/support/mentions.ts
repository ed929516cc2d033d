// What is named where, as text: one line a mention.
import { expect } from "vitest";
import { filesOf, nameRefusal, renameEdits, renameRefusal } from "../../server/src/features/rename";
import {
  type EntityReference,
  knowledgeMentions,
  logMentions,
  subjectInKnowledge,
  subjectInLog,
} from "../../server/src/features/shared/mentions";
import { applyEdits } from "../../server/src/text/edits";
import { openWorld, readFixture, type World } from "./workspace";

/** Every mention of every file as "log.md 3 U14 parts ref": the file, the line from 1, the words, kind and place. */
export async function mentionLines(fixture: string): Promise<string[]> {
  const world = await openWorld(fixture);
  return readFixture(fixture).flatMap(({ uri }) => {
    const text = world.service.text(uri) ?? "";
    return mentionsIn(world, uri).map((it) => mentionLine(uri, text, it));
  });
}

export function mentionsIn({ service }: Pick<World, "service">, uri: string): readonly EntityReference[] {
  const file = service.knowledgeFile(uri);
  if (file) return knowledgeMentions(file);
  const view = service.view(uri);
  return view ? logMentions(view) : [];
}

function mentionLine(
  uri: string,
  text: string,
  { span, thing, place, declares, pin }: EntityReference,
): string {
  const line = text.slice(0, span.start).split("\n").length;
  const words = text.slice(span.start, span.end);
  const behind = pin ? `.${text.slice(pin.span.start, pin.span.end)}` : "";
  return `${uri.slice("mem:/ws/".length)} ${line} ${words}${behind} ${thing.kind} ${place}${declares ? " !" : ""}`;
}

/**
 * What is named at `$0`, and every place that names it as "log.md 3", the file and the line from 1, with "!" where it
 * is declared. With `closed` only the file asked from is open, and the memory across jobs has read the others.
 */
export async function checkReferences(
  fixture: string,
  name: string | undefined,
  places: readonly string[],
  { closed = true } = {},
): Promise<void> {
  const { service, uri, offset, world } = await openAnyAt(fixture);
  const file = service.knowledgeFile(uri);
  const view = service.view(uri);
  const subject = file ? subjectInKnowledge(file, offset) : view && subjectInLog(view, offset);
  expect(
    subject?.mention.span &&
      (service.text(uri) ?? "").slice(subject.mention.span.start, subject.mention.span.end),
  ).toBe(name);
  if (!subject) return;
  if (closed) {
    for (const { uri: other } of world.files) if (other !== uri) await service.close(other);
    for await (const _ of service.index());
  }
  const found: string[] = [];
  for await (const it of service.mentionsOf(subject)) {
    for (const { span, declares } of it?.mentions ?? []) {
      const line = it?.text.slice(0, span.start).split("\n").length;
      found.push(`${it?.uri.slice("mem:/ws/".length)} ${line}${declares ? "!" : ""}`);
    }
  }
  expect(found.sort(byPlace)).toEqual([...places].sort(byPlace));
}

const byPlace = (a: string, b: string): number => a.localeCompare(b, "en", { numeric: true });

/** Opens a fixture whose cursor is in any of its files. */
export async function openAnyAt(fixture: string) {
  const file = readFixture(fixture).find(({ marked }) => marked.text.includes("$0"));
  if (!file) throw new Error("the fixture has no $0");
  const world = await openWorld(fixture.replace("$0", ""));
  return { world, service: world.service, uri: file.uri, offset: file.marked.text.indexOf("$0") };
}

export interface Renamed {
  /** Every file's text afterwards, by its path. */
  readonly files: Readonly<Record<string, string>>;
  /** Words changed only where a person agrees, as "file line". */
  readonly loose: readonly string[];
}

/** What becomes of every file, or the refusal's words. */
export async function renamed(fixture: string, newName: string): Promise<Renamed | string> {
  const { service, uri, offset, world } = await openAnyAt(fixture);
  const file = service.knowledgeFile(uri);
  const view = service.view(uri);
  const subject = file ? subjectInKnowledge(file, offset) : view && subjectInLog(view, offset);
  const files = subject ? filesOf(subject, service.knowledgeFiles()) : [];
  const why = renameRefusal(subject, files) ?? nameRefusal(subject!, newName, files, view);
  if (why !== undefined) return why;
  const texts: Record<string, string> = {};
  for (const it of world.files) texts[it.uri.slice("mem:/ws/".length)] = service.text(it.uri) ?? "";
  const loose: string[] = [];
  for await (const it of service.mentionsOf(subject!)) {
    if (!it) continue;
    const name = it.uri.slice("mem:/ws/".length);
    const edits = renameEdits(it, newName);
    texts[name] = applyEdits(it.text, edits);
    for (const { span, loose: isLoose } of edits)
      if (isLoose) loose.push(`${name} ${it.text.slice(0, span.start).split("\n").length}`);
  }
  return { files: texts, loose };
}

/** Files one after another as a fixture. */
export const asFixture = (files: Readonly<Record<string, string>>): string =>
  Object.entries(files)
    .map(([name, text]) => `//- ${name}\n${text}`)
    .join("");

// What is named where, as text: one line a mention.
import { knowledgeMentions, logMentions, type Mention } from "../../server/src/features/mentions";
import { openWorld, readFixture, type World } from "./workspace";

/** Every mention of every file as "log.md 3 U14 parts ref": the file, the line from 1, the words, kind and place. */
export async function mentionLines(fixture: string): Promise<string[]> {
  const world = await openWorld(fixture);
  return readFixture(fixture).flatMap(({ uri }) => {
    const text = world.service.text(uri) ?? "";
    return mentionsIn(world, uri).map((it) => mentionLine(uri, text, it));
  });
}

export function mentionsIn({ service }: Pick<World, "service">, uri: string): readonly Mention[] {
  const file = service.knowledgeFile(uri);
  if (file) return knowledgeMentions(file);
  const view = service.view(uri);
  return view ? logMentions(view) : [];
}

function mentionLine(uri: string, text: string, { span, thing, place, declares, pin }: Mention): string {
  const line = text.slice(0, span.start).split("\n").length;
  const words = text.slice(span.start, span.end);
  const behind = pin ? `.${text.slice(pin.span.start, pin.span.end)}` : "";
  return `${uri.slice("mem:/ws/".length)} ${line} ${words}${behind} ${thing.kind} ${place}${declares ? " !" : ""}`;
}

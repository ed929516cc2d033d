// What the fixes of a check make of a fixture: each is taken in a world of its own.
import { expect } from "vitest";
import type { Check, Fix } from "../../server/src/checks/check";
import { draftFile, namingEdit } from "../../server/src/features/board-file/draft";
import { boardFilePlace } from "../../server/src/features/board-file/place";
import { idOf } from "../../server/src/knowledge/board-file";
import type { Service } from "../../server/src/service";
import { applyEdits } from "../../server/src/text/edits";
import { lineDiff } from "./line-diff";
import { openWorld, type World } from "./workspace";

const FOLDER = "mem:/ws/";

export interface Mended {
  readonly kind: string;
  readonly title: string;
  /** As `makes` of an example has it. */
  readonly makes: string;
  /** How many findings of the check there were in the file, and are now. */
  readonly before: number;
  readonly after: number;
}

/** Every fix that is offered for the check's findings, in their order. */
export async function everyFix(
  check: Check,
  fixture: string,
  answerTo: (title: string) => string | undefined,
): Promise<Mended[]> {
  const { code } = check;
  const offered = offers(await openWorld(fixture), check);
  const all: Mended[] = [];
  for (const at of offered.keys()) {
    const world = await openWorld(fixture);
    const { service } = world;
    const offer = offers(world, check)[at];
    if (!offer) throw new Error("a world that is opened again offers something else");
    const { uri, kind, fix } = offer;
    const count = () => ownOf(service, uri, code).length;
    const before = count();
    const makes = take(service, uri, fix, answerTo(fix.title));
    all.push({ kind, title: fix.title, makes, before, after: count() });
  }
  return all;
}

const ownOf = (service: Service, uri: string, code: string) =>
  service.findings(uri).filter((finding) => finding.code === code);

/** Each fix with its kind: what the check's kinds offer one after the other is what is offered at the finding. */
const offers = ({ service, files }: World, { code, fixes = {} }: Check) =>
  files.flatMap(({ uri }) =>
    ownOf(service, uri, code).flatMap((finding) => {
      const text = service.text(uri) ?? "";
      const log = service.view(uri);
      const input = log ? { text, ctx: log.ctx, log } : { text };
      const own = Object.entries(fixes).flatMap(([kind, offer]) =>
        offer(finding, input).map((fix) => ({ uri, kind, fix })),
      );
      expect(own.map(({ fix }) => fix)).toEqual(service.fixes(uri, finding));
      return own;
    }),
  );

/** Changes the files as an editor does, and says how. */
function take(service: Service, uri: string, fix: Fix, answer: string | undefined): string {
  const changed = new Map<string, string>();
  if (fix.edits.length > 0) changed.set(uri, applyEdits(service.text(uri) ?? "", fix.edits));
  for (const { uri: other, text, edits } of fix.elsewhere ?? []) {
    expect(service.text(other)).toBe(text);
    changed.set(other, applyEdits(text, edits));
  }
  if (fix.creates) {
    expect(service.text(fix.creates.uri)).toBeUndefined();
    changed.set(fix.creates.uri, fix.creates.text);
  }
  if (fix.asks) for (const [file, text] of boardFileFrom(service, uri, answer)) changed.set(file, text);
  const told: string[] = [];
  for (const [file, text] of changed) {
    if (file !== uri) told.push(`//- ${file.slice(FOLDER.length)}`);
    told.push(lineDiff(service.text(file) ?? "", text));
    service.open(file, text);
    if (file !== uri) expect(ownOf(service, file, "knowledge-file-invalid")).toEqual([]);
  }
  return told.join("\n");
}

/** What the command makes that such a fix asks for, of the one log: the board file, and the log with its board's name. */
function boardFileFrom(service: Service, uri: string, answer: string | undefined): [string, string][] {
  const view = service.view(uri);
  if (!view) throw new Error(`${uri} is no log`);
  const name = view.front.board || answer;
  if (!name) throw new Error("the fix asks for a name, and the example has no answer");
  const id = view.front.board ? name : idOf(name);
  const made = draftFile({ logs: [view], library: service.knowledge.snapshot().library, name });
  if (!made.ok) throw new Error(made.reason);
  const place = boardFilePlace({ id, log: uri, folders: [FOLDER], files: service.knowledge.uris() });
  if (place === undefined) throw new Error("there is no place for the board file");
  const naming = namingEdit(view.doc, id);
  return [
    ...(naming ? [[uri, applyEdits(view.doc.text, [naming])] as [string, string]] : []),
    [place, made.text],
  ];
}

// The demo's logs without the board files that were written for them: first with nothing but the chips' numbers in a list
// of parts, as a technician may write it, then with the board files that are drafted from those very logs.
import { beforeAll, expect, test } from "vitest";
import { draftFile } from "../../server/src/features/board-file/draft";
import { builtinLibrary } from "../../server/src/knowledge/library";
import { loadBoard } from "../../server/src/knowledge/load-board";
import { Service } from "../../server/src/service";
import { demoLogs as allLogs, demoFiles } from "../support/demo";

/** A set has parts of several boards under one roof: one list at its end could be of any of them. */
const demoLogs = allLogs.filter(([, text]) => !/^boards:/m.test(text));

// The numbers and what is missed: MENDLOG_DRAFTED=print npx vitest run tests/stated/drafted.test.ts
const PRINT = process.env.MENDLOG_DRAFTED === "print";
/** Of the findings with the files. */
const FOUND_AT_LEAST = 33;
/** What no file says of a board is taken for what is usual: what the demo's board ties to ground, or has as a rail's voltage. */
const EXTRA_AT_MOST = 6;

interface Seen {
  readonly code: string;
  readonly line: number;
  readonly severity: string;
  readonly message: string;
}

type Texts = ReadonlyMap<string, string>;

const isBoard = (uri: string): boolean => uri.endsWith(".board.yaml");

async function open(texts: Texts): Promise<Service> {
  const service = new Service({ read: async (uri) => texts.get(uri), list: async () => [...texts.keys()] });
  await service.load();
  for await (const _ of service.index());
  return service;
}

/** The logs' findings; a list at a log's end moves none of their lines. */
async function look(texts: Texts): Promise<Map<string, Seen[]>> {
  const service = await open(texts);
  return new Map(
    demoLogs.map(([uri]) => {
      const text = texts.get(uri) ?? "";
      service.open(uri, text);
      const found = service.findings(uri).map(({ code, severity, message, span }) => ({
        code,
        severity,
        message,
        line: text.slice(0, span.start).split("\n").length,
      }));
      return [uri, found];
    }),
  );
}

/** A list of the parts that the log names, with what its board file says they are, behind everything else. */
function withParts(uri: string, text: string): string {
  const id = /^board: (\S+)/m.exec(text)?.[1] ?? "";
  const file = [...demoFiles].find(
    ([other]) => isBoard(other) && other.includes(id.replace(/^regata-/, "regatta-")),
  );
  const parts = file && loadBoard(file[1]).value?.parts;
  const named = new Set(text.match(/\b[A-Z]{1,3}\d{1,3}\b/g));
  const rows = [...(parts?.values() ?? [])].flatMap(({ ref, device, value }) => {
    const what = device ?? value;
    return named.has(ref) && what ? [`| ${ref} | ${what} |`] : [];
  });
  if (rows.length === 0) throw new Error(`${uri} names no part`);
  return `${text.trimEnd()}\n\n## Parts on the board\n\n| Ref | Device |\n|-----|--------|\n${rows.join("\n")}\n`;
}

let withFiles: Map<string, Seen[]>;
let logsOnly: Map<string, Seen[]>;
let drafted: Map<string, Seen[]>;
let boards: Map<string, string>;

/** The same check at the same line, each time it speaks. */
function places(found: ReadonlyMap<string, readonly Seen[]>): string[] {
  const times = new Map<string, number>();
  return [...found].flatMap(([uri, seen]) =>
    seen.map(({ code, line }) => {
      const place = `${uri.slice(uri.lastIndexOf("/") + 1)}:${line} ${code}`;
      const time = (times.get(place) ?? 0) + 1;
      times.set(place, time);
      return time === 1 ? place : `${place} (${time})`;
    }),
  );
}

const without = (some: readonly string[], others: readonly string[]): string[] =>
  some.filter((place) => !others.includes(place));

/** That no file describes the board is rightly said where there is none. */
const ofTheBoard = (place: string): boolean => / (?:unknown-board|board-not-named)$/.test(place);

beforeAll(async () => {
  withFiles = await look(demoFiles);
  const told = new Map([...demoFiles].filter(([uri]) => !isBoard(uri)));
  for (const [uri, text] of demoLogs) told.set(uri, withParts(uri, text));
  logsOnly = await look(told);
  const service = await open(told);
  const views = demoLogs.flatMap(([uri]) => service.viewOf(uri, told.get(uri) ?? "") ?? []);
  boards = new Map();
  // One log has a slip in its board's name, and nobody drafts a file of that name.
  for (const id of ["regatta-controller", "regatta-driver"]) {
    const logs = views.filter(({ front }) => front.board === id);
    const made = draftFile({ logs, library: logs[0]!.doc.library, name: id });
    if (made.ok) boards.set(`mem:/demo/boards/${id}.board.yaml`, made.text);
  }
  drafted = await look(new Map([...told, ...boards]));
});

test("most of what is found with the board files is found from the logs alone", () => {
  const [files, logs] = [places(withFiles), places(logsOnly)];
  const missed = without(files, logs);
  const extra = without(logs, files).filter((place) => !ofTheBoard(place));
  if (PRINT) console.log(`logs alone: ${files.length - missed.length} of ${files.length}`, { missed, extra });
  expect(files.length - missed.length).toBeGreaterThanOrEqual(FOUND_AT_LEAST);
  expect(extra.length, extra.join("\n")).toBeLessThanOrEqual(EXTRA_AT_MOST);
});

test("the files drafted from the logs load with no problem, and find at least as much", () => {
  expect(boards.size).toBe(2);
  for (const [uri, text] of boards) {
    const deviceOf = (part: string) => builtinLibrary().device(part)?.device;
    expect(loadBoard(text, { deviceOf }).problems, uri).toEqual([]);
    expect(text, uri).not.toContain("left out:");
  }
  const [files, logs, own] = [places(withFiles), places(logsOnly), places(drafted)];
  const missed = without(files, own);
  const extra = without(own, files).filter((place) => !ofTheBoard(place));
  if (PRINT) console.log(`drafted: ${files.length - missed.length} of ${files.length}`, { missed, extra });
  expect(missed.length, missed.join("\n")).toBeLessThanOrEqual(without(files, logs).length);
  expect(extra.length, extra.join("\n")).toBeLessThanOrEqual(EXTRA_AT_MOST);
});

test("what is in a drafted file is told of no more", () => {
  const codes = [...drafted.values()].flat().map(({ code }) => code);
  expect(codes).not.toContain("not-in-board-file");
  expect(codes).not.toContain("part-differs-from-board");
});

// What is asked of a copy of the sources: it is bundled with them and runs there, in plain values.

import { textOf } from "../../server/src/checks/example";
import { EXAMPLE_BOARD } from "../../server/src/checks/example-board";
import { CHECKS, checkOf } from "../../server/src/checks/registry";
import { hoverLog } from "../../server/src/features/hover";
import { suspectList } from "../../server/src/features/suspects";
import { builtinLibrary } from "../../server/src/knowledge/library";
import { KINDS } from "../../server/src/log/kinds";
import { startInProcess } from "../protocol/in-process";
import { openAt, openWorld, readFixture } from "../support/workspace";

export interface Found {
  readonly code: string;
  readonly span: { readonly start: number; readonly end: number };
  readonly message: string;
}

export type Question =
  | { readonly ask: "what-there-is" }
  /** A check's own examples, with what is found in each. */
  | { readonly ask: "examples"; readonly code: string }
  | { readonly ask: "findings" | "suspects"; readonly fixture: string }
  | { readonly ask: "hover"; readonly fixture: string }
  | { readonly ask: "request"; readonly fixture: string; readonly method: string };

export interface Answers {
  readonly "what-there-is": {
    readonly checks: readonly string[];
    readonly devices: readonly string[];
    readonly kinds: readonly string[];
  };
  readonly examples: {
    readonly bad: readonly { readonly text: string; readonly found: readonly Found[] }[];
    readonly good: readonly { readonly text: string; readonly found: readonly Found[] }[];
  };
  readonly findings: readonly Found[];
  readonly suspects: readonly string[];
  readonly hover: string | null;
  readonly request: unknown;
}

const LOG = "mem:/ws/log.md";

async function findingsIn(fixture: string): Promise<Found[]> {
  const { service } = await openWorld(fixture);
  return service.findings(LOG).map(({ code, span, message }) => ({ code, span, message }));
}

async function examplesOf(code: string): Promise<Answers["examples"]> {
  const check = checkOf(code);
  if (!check) throw new Error(`no check ${code}`);
  const each = (texts: readonly string[]) =>
    Promise.all(texts.map(async (text) => ({ text, found: await findingsIn(text) })));
  return { bad: await each(check.examples.bad.map(textOf)), good: await each(check.examples.good) };
}

async function requestAt(fixture: string, method: string): Promise<unknown> {
  const { offset } = await openAt(fixture);
  const log = readFixture(fixture.replace("$0", "")).find(({ uri }) => uri === LOG)?.marked.text ?? "";
  const texts = new Map([["mem:/ws/example.board.yaml", EXAMPLE_BOARD]]);
  const server = await startInProcess({ texts, folder: "mem:/ws" }, {}, {});
  await server.client.sendNotification("textDocument/didOpen", {
    textDocument: { uri: LOG, languageId: "markdown", version: 1, text: log },
  });
  const before = log.slice(0, offset).split("\n");
  const position = { line: before.length - 1, character: before.at(-1)?.length ?? 0 };
  const answer = await server.client.sendRequest(method, { textDocument: { uri: LOG }, position });
  await server.end();
  return answer;
}

export async function answer(question: Question): Promise<Answers[Question["ask"]]> {
  switch (question.ask) {
    case "what-there-is":
      return {
        checks: CHECKS.map(({ code }) => code),
        devices: builtinLibrary().devices.map(({ id }) => id),
        kinds: KINDS.map(({ id }) => id),
      };
    case "examples":
      return examplesOf(question.code);
    case "findings":
      return findingsIn(question.fixture);
    case "suspects": {
      const view = (await openWorld(question.fixture)).service.view(LOG);
      return (view ? suspectList(view)?.suspects : undefined)?.map(({ name }) => name) ?? [];
    }
    case "hover": {
      const { view, offset } = await openAt(question.fixture);
      return hoverLog(view, offset)?.markdown ?? null;
    }
    case "request":
      return requestAt(question.fixture, question.method);
  }
}

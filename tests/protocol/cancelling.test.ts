// Every request the server answers, held to three things: cancelled, it is answered at once whatever it waits for; what it
// was doing stops; and the server goes on. The list is the server's own: a request without a row fails.
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, test, vi } from "vitest";
import { CancellationTokenSource } from "vscode-jsonrpc/node";
import { type Position, type Range, SymbolKind } from "vscode-languageserver-protocol";
import { largeBoardText } from "../compute/diagnosis/large-board";
import { cursor } from "./bench";
import { FULL_CAPABILITIES } from "./client.js";
import { countingClock, type InProcess, idle, startInProcess, type Work } from "./in-process";

/** Steps of a long computation that were made in one go, with nobody let in. */
const inOneGo = vi.hoisted(() => ({ most: 0 }));
vi.mock("../../server/src/base/steps", () => ({
  finish(steps: Iterator<void, unknown>) {
    for (let count = 1; ; count += 1) {
      const step = steps.next();
      inOneGo.most = Math.max(inOneGo.most, count);
      if (step.done) return step.value;
    }
  },
}));

const CANCELLED = -32800;
/** Of the protocol's library, and before there is anything to cancel. */
const OF_THE_LIBRARY = ["initialize", "shutdown"];
/** Work that is done before the client cancels. */
const BEFORE = 4;
/** Work that may still be done: the cancellation needs some turns to arrive, and in every turn there is a step. */
const AFTER = 16;
/** A row that is long does at least this when it is let run: else that it stops early says nothing. */
const LONG = 3 * (BEFORE + AFTER);
/** Work that a row may do which does not look whether it is still wanted. */
const SHORT = BEFORE + AFTER;
/** Steps that need no turn in between. */
const FEW_STEPS = 8;

const FOLDER = "file:///bench";
const uriOf = (path: string): string => `${FOLDER}/${path}`;
const LOGS = 60;
const PICTURES = 60;
const IMAGES = 240;
const rows = (from: number, reading: string, count: number): string =>
  Array.from({ length: count }, (_, i) => `| U${from + i} | ${1 + (i % 6)} | ${reading} |\n`).join("");
const front = (job: string, date: string): string =>
  `---\nmendlog: 1\njob: ${job}\nboard: large\nsymptoms: [dead]\nreceived: ${date}\nstage: diagnosing\n---\n\n# Board ${job}\n\n`;
const TABLE = "## Diode check\n\n| Ref | Pin | Reading |\n|-----|-----|---------|\n";

const OPEN = `${front("2026-900", "2026-03-01")}${Array.from({ length: PICTURES }, (_, i) => `![View ${i}](../pictures/${i}.png)\n`).join("")}
${TABLE}| U1  | 1   | 0.58    |
| U2  | 4   | 0.58    |
${rows(3, "1.42", 24)}
## Work done

| Ref | Action  | Note |
|-----|---------|------|
| U1  | replace |      |
`;
const OF_IMAGES = `${front("2026-902", "2026-03-02")}## ROM check

| Ref | Image |
|-----|-------|
${Array.from({ length: IMAGES }, (_, i) => `| U1 | ../images/${i}.bin |\n`).join("")}`;
const texts = new Map<string, string>([
  [uriOf("large.board.yaml"), largeBoardText(3)],
  ...Array.from({ length: LOGS }, (_, i): [string, string] => [
    uriOf(`logs/${i}.md`),
    `${front(`2026-${100 + i}`, "2026-01-05")}![Before](../pictures/${i}.png)\n\n${TABLE}${rows(1, "0.58", 6)}`,
  ]),
  ...Array.from({ length: IMAGES }, (_, i): [string, string] => [uriOf(`images/${i}.bin`), "....."]),
  ...Array.from({ length: PICTURES }, (_, i): [string, string] => [uriOf(`pictures/${i}.png`), "....."]),
]);

const uri = uriOf("logs/open.md");
const textDocument = { uri };
const at = (marked: string): Position => cursor(OPEN.replace(marked.replace("$0", ""), marked)).position;
const ref = at("| $0U1  | 1 ");
const reading = at("| 1   | 0$0.58 ");
const symptom = at("symptoms: [de$0ad]");
const work = at("| U1  | repl$0ace |");
const bottom: Position = { line: OPEN.split("\n").length - 1, character: 0 };
const whole: Range = { start: { line: 0, character: 0 }, end: bottom };
const options = { tabSize: 4, insertSpaces: true };
const context = { diagnostics: [] };
const TIME = { today: "2026-03-20", oldAfterDays: 28 };

interface Row {
  readonly params: object | ((run: InProcess) => Promise<object>);
  /** It does much where there is much, and stops. */
  readonly long?: true;
  /** Files that are looked for in one turn. */
  readonly atOnce?: number;
  /** Another place of the same request. */
  readonly as?: string;
}

const position = { textDocument, position: ref };
const ROWS: Readonly<Record<string, Row | readonly Row[]>> = {
  "textDocument/hover": [
    { params: position },
    { as: "of a symptom", params: { textDocument, position: symptom }, long: true },
  ],
  "textDocument/completion": { params: position },
  "completionItem/resolve": { params: { label: "U1" } },
  "textDocument/signatureHelp": { params: { textDocument, position: reading } },
  "textDocument/definition": { params: position },
  "textDocument/references": { params: { ...position, context: { includeDeclaration: true } }, long: true },
  "textDocument/prepareRename": { params: position },
  "textDocument/rename": { params: { ...position, newName: "U901" }, long: true },
  "textDocument/documentHighlight": { params: position },
  "textDocument/documentSymbol": { params: { textDocument } },
  "textDocument/documentLink": {
    params: { textDocument: { uri: uriOf("logs/images.md") } },
    long: true,
    atOnce: 4,
  },
  "textDocument/foldingRange": { params: { textDocument } },
  "textDocument/selectionRange": { params: { textDocument, positions: [ref] } },
  "textDocument/semanticTokens/full": { params: { textDocument } },
  "textDocument/semanticTokens/full/delta": { params: { textDocument, previousResultId: "1" } },
  "textDocument/semanticTokens/range": { params: { textDocument, range: whole } },
  "textDocument/inlayHint": { params: { textDocument, range: whole } },
  "inlayHint/resolve": {
    params: {
      position: reading,
      label: "",
      data: { uri, version: 1, kind: "verdict", at: OPEN.indexOf("1.42") + 4 },
    },
  },
  "textDocument/codeLens": { params: { textDocument } },
  "codeLens/resolve": [
    { as: "of the suspects", params: lens(0), long: true },
    { as: "of the earlier jobs", params: lens(1), long: true },
  ],
  "textDocument/codeAction": [
    { params: { textDocument, range: { start: ref, end: ref }, context } },
    { as: "at the work", params: { textDocument, range: { start: work, end: work }, context }, long: true },
  ],
  "textDocument/formatting": { params: { textDocument, options } },
  "textDocument/rangeFormatting": { params: { textDocument, range: whole, options } },
  "textDocument/rangesFormatting": { params: { textDocument, ranges: [whole], options } },
  "textDocument/onTypeFormatting": { params: { textDocument, position: reading, ch: "\n", options } },
  "textDocument/diagnostic": { params: { textDocument }, long: true },
  "workspace/diagnostic": { params: { previousResultIds: [] }, long: true },
  "workspace/symbol": { params: { query: "2026" }, long: true },
  "workspaceSymbol/resolve": {
    params: {
      name: "U1",
      kind: SymbolKind.Class,
      location: { uri: uriOf("large.board.yaml") },
      data: {
        kind: "part",
        name: "U1",
        container: "",
        uri: uriOf("large.board.yaml"),
        path: ["parts", "U1"],
      },
    },
  },
  "workspace/executeCommand": [
    { as: "the suspects", params: { command: "mendlog.writeSuspects", arguments: [uri] }, long: true },
    { as: "the parts list", params: { command: "mendlog.writePartsList", arguments: [uri] }, long: true },
    { as: "the report", params: { command: "mendlog.writeReport", arguments: [uri, "html"] }, long: true },
  ],
  "workspace/willRenameFiles": {
    params: { files: [{ oldUri: uriOf("pictures"), newUri: uriOf("photographs") }] },
    long: true,
  },
  "mendlog/enterAt": { params: { uri, position: reading } },
  "mendlog/nextCell": { params: { uri, position: reading, direction: "next" } },
  "mendlog/leaveRow": { params: { uri, position: reading } },
  "mendlog/startRow": { params: { uri, position: reading } },
  "mendlog/takeBackRow": { params: { uri, position: reading } },
  "mendlog/writeCell": { params: { uri, position: reading, text: "0.58" } },
  "mendlog/pasteCells": { params: { uri, position: reading, text: "0.58\n0.59" } },
  "mendlog/meterQuestion": { params: { uri, position: reading } },
  "mendlog/meterReading": { params: { uri, position: reading, answer: "+5.80E-01", digits: 4 } },
  "mendlog/verdict": { params: { uri, position: reading } },
  "mendlog/tableOffers": { params: { uri } },
  "mendlog/insertTable": { params: { uri, id: "rails", position: bottom } },
  "mendlog/newLogChoices": { params: { today: TIME.today } },
  "mendlog/newLogBoard": { params: { words: "large" } },
  "mendlog/newLog": { params: { facts: { job: "2026-901", board: "large", received: TIME.today } } },
  "mendlog/boardDraft": { params: { uri }, long: true },
  "mendlog/importBoard": { params: { files: [{ name: "bom.csv", text: "Ref,Value\nU1,7404\n" }] } },
  "mendlog/jobs": { params: TIME },
  "mendlog/jobStatus": { params: { uri, ...TIME }, long: true },
  "mendlog/shopNumbers": { params: {} },
  "mendlog/suspects": { params: { uri }, long: true },
  "mendlog/toolReadings": { params: { uri } },
  "mendlog/toolJudge": {
    params: { uri, procedure: "Diode check", readings: [{ ref: "U1", pin: "1", value: "0.58" }] },
  },
  "mendlog/toolNext": { params: { uri }, long: true },
  "mendlog/guide": { params: { uri, position: reading }, long: true },
  "mendlog/preview": { params: { uri } },
  "mendlog/theme": { params: { theme: "dark" } },
};

function lens(which: number) {
  return async ({ client }: InProcess): Promise<object> => {
    const lenses = await client.sendRequest<{ data: { lens: { of: string } } }[]>("textDocument/codeLens", {
      textDocument,
    });
    const wanted = which === 0 ? "log" : "earlier";
    const found = lenses.find(({ data }) => data.lens.of === wanted);
    if (!found) throw new Error(`There is no lens of ${wanted}: ${JSON.stringify(lenses)}`);
    return found;
  };
}

const CASES = Object.entries(ROWS).flatMap(([method, some]) =>
  [some].flat().map((row): [string, string, Row] => [row.as ? `${method}, ${row.as}` : method, method, row]),
);

const CAPABILITIES = {
  ...FULL_CAPABILITIES,
  workspace: {
    ...FULL_CAPABILITIES.workspace,
    applyEdit: true,
    fileOperations: { willRename: true },
  },
  textDocument: {
    ...FULL_CAPABILITIES.textDocument,
    rename: { prepareSupport: true },
    inlayHint: { resolveSupport: { properties: ["tooltip"] } },
    semanticTokens: { requests: {}, tokenTypes: [], tokenModifiers: [], formats: ["relative"] },
  },
};

let clock: ReturnType<typeof countingClock>;
let counted: Work | undefined;
beforeEach(() => {
  inOneGo.most = 0;
});

async function start(gate?: Promise<void>): Promise<InProcess> {
  clock = countingClock(() => counted);
  const files = { texts, folder: FOLDER, ...(gate ? { gate } : {}) };
  const run = await startInProcess(files, CAPABILITIES, { showPlaces: true });
  counted = run.work;
  return run;
}

async function end(run: InProcess): Promise<void> {
  await run.end();
  counted = undefined;
  vi.useRealTimers();
  vi.restoreAllMocks();
}

async function open({ client }: InProcess): Promise<void> {
  for (const [path, text] of [
    ["logs/open.md", OPEN],
    ["logs/images.md", OF_IMAGES],
  ] as const) {
    await client.sendNotification("textDocument/didOpen", {
      textDocument: { uri: uriOf(path), languageId: "markdown", version: 1, text },
    });
  }
}

/** The log is open, every other one is read, and nobody types any more. */
async function settled(): Promise<InProcess> {
  // On a busy machine, too, nobody loses patience before the logs are read: what is left of them would be read in between.
  vi.useFakeTimers({ toFake: ["setTimeout"] });
  const run = await start();
  await run.client.sendRequest("mendlog/newLogChoices", { today: TIME.today });
  await open(run);
  // Whoever waits for the hand that types to rest has waited long enough.
  await run.client.sendRequest("mendlog/verdict", { uri, position: reading });
  clock.skip(10_000);
  await idle(run);
  return run;
}

const paramsOf = async ({ params }: Row, run: InProcess): Promise<object> =>
  typeof params === "function" ? params(run) : params;

/** The code of the error it was answered with, "answered" where it was none. */
const outcome = (answer: Promise<unknown>): Promise<unknown> =>
  answer.then(
    () => "answered",
    (error: { code?: number }) => error.code ?? error,
  );

async function expectServes({ client, log }: InProcess): Promise<void> {
  const hover = await client.sendRequest("textDocument/hover", { textDocument, position: reading });
  expect(JSON.stringify(hover)).toContain("0.58");
  expect(log.filter((line) => line.includes(" failed: "))).toEqual([]);
}

test("every request the server answers has a row here, and every row is of such a request", async () => {
  const run = await start();
  const own = [...run.methods].filter((method) => !OF_THE_LIBRARY.includes(method));
  expect(own.sort()).toEqual(Object.keys(ROWS).sort());
  await end(run);
});

describe("cancelled while the server waits for something else, it is answered all the same", () => {
  let run: InProcess;
  let letIn = () => {};
  beforeAll(async () => {
    const gate = new Promise<void>((resolve) => {
      letIn = resolve;
    });
    // Nothing that waits for a while comes to its end.
    vi.useFakeTimers({ toFake: ["setTimeout"] });
    run = await start(gate);
    await open(run);
  });
  afterAll(async () => {
    letIn();
    vi.useRealTimers();
    await idle(run);
    await expectServes(run);
    await end(run);
  });

  test.each(CASES.filter(([, , { params }]) => typeof params !== "function"))(
    "%s",
    async (_, method, row) => {
      const source = new CancellationTokenSource();
      const answer = outcome(run.client.sendRequest(method, row.params, source.token));
      await idle(run);
      source.cancel();
      // The folders are not even listed: whatever is answered did not wait for that.
      expect([CANCELLED, "answered"]).toContain(await answer);
    },
  );
});

describe("in one session", () => {
  let run: InProcess;
  beforeAll(async () => {
    run = await settled();
  });
  afterAll(() => end(run));

  test.each(CASES)("%s, cancelled behind its own heels, is answered so", async (_, method, row) => {
    const params = await paramsOf(row, run);
    const source = new CancellationTokenSource();
    const answer = outcome(run.client.sendRequest(method, params, source.token));
    source.cancel();
    expect(await answer).toBe(CANCELLED);
    await expectServes(run);
  });

  test.each(CASES.filter(([, , { long }]) => !long))("%s has nothing to stop", async (_, method, row) => {
    const params = await paramsOf(row, run);
    await idle(run);
    const from = run.work.all;
    inOneGo.most = 0;
    expect(await outcome(run.client.sendRequest(method, params))).toBe("answered");
    expect(run.work.all - from).toBeLessThanOrEqual(SHORT);
    expect(inOneGo.most).toBeLessThanOrEqual(FEW_STEPS);
    await expectServes(run);
  });
});

// Each in a session of its own: what was found for one is kept for the next.
describe("long ones stop", () => {
  let run: InProcess;
  beforeEach(async () => {
    run = await settled();
  });
  afterEach(() => end(run));

  test.each(CASES.filter(([, , { long }]) => long))("%s", async (_, method, row) => {
    const params = await paramsOf(row, run);
    await idle(run);
    const { client, work, asked } = run;
    const before = work.all;
    const source = new CancellationTokenSource();
    work.onMore = () => {
      if (work.all - before === BEFORE) source.cancel();
    };
    expect(await outcome(client.sendRequest(method, params, source.token))).toBe(CANCELLED);
    await idle(run);
    const done = work.all - before - BEFORE;
    work.onMore = () => {};
    expect(done).toBeLessThanOrEqual(AFTER * (row.atOnce ?? 1));
    expect(asked.filter((each) => /applyEdit|showMessage/.test(each))).toEqual([]);

    const from = work.all;
    inOneGo.most = 0;
    await client.sendRequest(method, params);
    await idle(run);
    expect(work.all - from).toBeGreaterThanOrEqual(LONG * (row.atOnce ?? 1));
    expect(inOneGo.most).toBeLessThanOrEqual(FEW_STEPS);
    await expectServes(run);
  });
});

// What a client may do wrong below the messages: it is told or answered, and never left waiting without a word.
// What a header is, which encodings there are and what becomes of another: Language Server Protocol 3.17, "Base Protocol";
// the codes and the null id: JSON-RPC 2.0, section 5.
import { spawn } from "node:child_process";
import { PassThrough } from "node:stream";
import { describe, expect, test } from "vitest";
import type { Message, ResponseMessage } from "vscode-languageserver";
import { frames } from "../../server/src/protocol/framing/frames";
import { FramedReader } from "../../server/src/protocol/framing/reader";
import { COMMANDS } from "./client.js";

const bytes = (text: string): Uint8Array => new TextEncoder().encode(text);

/** A message as a client sends it. */
const framed = (message: unknown, header = ""): string => {
  const body =
    typeof message === "string" ? message : JSON.stringify({ jsonrpc: "2.0", ...(message as object) });
  return `Content-Length: ${bytes(body).length}\r\n${header}\r\n${body}`;
};

const INITIALIZE = framed({
  id: 1,
  method: "initialize",
  params: { processId: null, rootUri: null, capabilities: {} },
});
const SHUTDOWN = framed({ id: 2, method: "shutdown" });
const EXIT = framed({ method: "exit" });

interface Said {
  readonly code: number | null;
  readonly answers: readonly ResponseMessage[];
  readonly err: string;
}

/** What the built server makes of these chunks over real pipes; `close` ends its input behind them. */
function serve(
  chunks: readonly (string | Uint8Array)[],
  { close = false, command = COMMANDS.server } = {},
): Promise<Said> {
  return new Promise((resolve) => {
    const child = spawn(process.execPath, command, { stdio: "pipe" });
    const out: Buffer[] = [];
    let err = "";
    child.stdout.on("data", (chunk) => out.push(chunk));
    child.stderr.on("data", (chunk) => {
      err += chunk;
    });
    // It may be gone before all of this is written: that is what is looked at.
    child.stdin.on("error", () => {});
    child.on("close", (code) => {
      const answers = frames()
        .push(new Uint8Array(Buffer.concat(out)))
        .flatMap((frame) =>
          frame.is === "message" ? [JSON.parse(new TextDecoder().decode(frame.body))] : [],
        )
        .filter((message) => "id" in message && !("method" in message));
      resolve({ code, answers, err });
    });
    for (const chunk of chunks) child.stdin.write(chunk);
    if (close) child.stdin.end();
  });
}

const isOneLine = expect.stringMatching(/^mendlog: [^\n]+\n$/);
const errorOf = (code: number, id: unknown = null) =>
  expect.objectContaining({ id, error: expect.objectContaining({ code, message: expect.any(String) }) });
const answerTo = (id: number) => expect.objectContaining({ id, result: expect.anything() });

describe("a header that cannot be believed ends the connection, with one line and status 1", () => {
  test.each([
    ["without a length", "Content-Type: application/vscode-jsonrpc\r\n\r\n{}", /no Content-Length/],
    ["no number", "Content-Length: NaN\r\n\r\n{}", /no number of bytes: "NaN"/],
    ["a number with more behind it", "Content-Length: 2 bytes\r\n\r\n{}", /no number of bytes/],
    ["negative", "Content-Length: -2\r\n\r\n{}", /no number of bytes: "-2"/],
    ["huge", "Content-Length: 99999999999999999999\r\n\r\n{}", /is more than the/],
    ["two that differ", "Content-Length: 2\r\nContent-Length: 3\r\n\r\n{}", /two Content-Length/],
    ["no colon", "Content-Length 2\r\n\r\n{}", /no colon/],
    ["line feeds alone", "Content-Length: 2\n\n{}", /line feed alone/],
    ["no header at all", '{"jsonrpc":"2.0"}', /begins with "\{"/],
    ["typed by a person", "hello\n", /line feed alone.*"hello/],
    ["no end", `X: ${"x".repeat(5000)}`, /has no end/],
    ["with signs for the terminal", "Content-Length: \u001b[31m\r\n\r\n", /no number of bytes/],
  ])("%s", async (_name, header, says) => {
    const said = await serve([INITIALIZE, header, SHUTDOWN]);
    expect(said).toEqual({ code: 1, answers: [answerTo(1)], err: isOneLine });
    expect(said.err).toMatch(says);
    expect(said.err).toMatch(/The connection is ended\.\n$/);
    expect(said.err.slice(0, -1)).not.toMatch(/[\u0000-\u001f\u007f-\u009f]/);
  });

  test("the command line's server does the same", async () => {
    const said = await serve([INITIALIZE, "Content-Length: NaN\r\n\r\n{}"], { command: COMMANDS.cli });
    expect(said).toEqual({ code: 1, answers: [answerTo(1)], err: isOneLine });
  });
});

describe("a body that is not what it should be is answered, and the next message read", () => {
  test.each([
    ["no JSON", framed("{'jsonrpc': 2.0}"), -32700],
    ["nothing at all", framed(""), -32700],
    [
      "no UTF-8",
      Buffer.concat([bytes("Content-Length: 4\r\n\r\n"), new Uint8Array([0x22, 0xe9, 0x22, 0x20])]),
      -32700,
    ],
    ["a number", framed("42"), -32600],
    ["null", framed("null"), -32600],
    ["several at once", framed("[]"), -32600],
    ["neither question nor answer", framed("{}"), -32600],
  ])("%s", async (_name, message, code) => {
    const said = await serve([INITIALIZE, message, SHUTDOWN, EXIT]);
    expect(said).toMatchObject({ code: 0, err: "" });
    expect(said.answers).toHaveLength(3);
    expect(said.answers).toContainEqual(errorOf(code));
    expect(said.answers).toContainEqual(answerTo(1));
  });

  test("a method that is no text is refused by the request's own id", async () => {
    const said = await serve([INITIALIZE, framed({ id: 7, method: 12 }), SHUTDOWN, EXIT]);
    expect(said.answers).toContainEqual(errorOf(-32600, 7));
  });

  test("another encoding is refused", async () => {
    const body = Buffer.from(JSON.stringify({ jsonrpc: "2.0", id: 5, method: "shutdown" }), "utf16le");
    const header = `Content-Length: ${body.length}\r\nContent-Type: application/vscode-jsonrpc; charset=utf-16\r\n\r\n`;
    const said = await serve([INITIALIZE, header, body, SHUTDOWN, EXIT]);
    expect(said).toMatchObject({ code: 0, err: "" });
    expect(said.answers).toContainEqual(errorOf(-32700));
    expect(said.answers.find(({ error }) => error)?.error?.message).toContain("utf-16");
  });

  test.each(["utf-8", "utf8", '"UTF-8"'])("%s is its own", async (charset) => {
    const type = `Content-Type: application/vscode-jsonrpc; charset=${charset}\r\n`;
    const said = await serve([INITIALIZE, framed({ id: 2, method: "shutdown" }, type), EXIT]);
    expect(said).toEqual({
      code: 0,
      err: "",
      answers: [answerTo(1), { jsonrpc: "2.0", id: 2, result: null }],
    });
  });
});

describe("a length that is wrong", () => {
  test("too long: the message behind it is taken for its end, which is told", async () => {
    const short = `Content-Length: 60\r\n\r\n${JSON.stringify({ jsonrpc: "2.0", method: "$/x" })}`;
    const said = await serve([INITIALIZE, short, SHUTDOWN, EXIT]);
    expect(said).toEqual({ code: 1, answers: expect.arrayContaining([errorOf(-32700)]), err: isOneLine });
  });

  test("too short: what is left of the body is no header, which is told", async () => {
    const long = `Content-Length: 10\r\n\r\n${JSON.stringify({ jsonrpc: "2.0", method: "$/x" })}`;
    const said = await serve([INITIALIZE, long, SHUTDOWN, EXIT]);
    expect(said).toEqual({ code: 1, answers: expect.arrayContaining([errorOf(-32700)]), err: isOneLine });
  });

  test("the stream ends within a message", async () => {
    const said = await serve([INITIALIZE, 'Content-Length: 100\r\n\r\n{"jsonrpc"'], { close: true });
    expect(said).toMatchObject({ code: 1, err: isOneLine });
    expect(said.err).toContain("after 10 of the 100 bytes");
  });

  test("the rest does not come: it is told once, and taken when it comes after all", async () => {
    const stream = new PassThrough();
    const told: string[] = [];
    const messages: Message[] = [];
    const fail = (): never => {
      throw new Error("must not be asked for");
    };
    const reader = new FramedReader(
      stream,
      { tell: (sentence) => told.push(sentence), answer: fail, came: () => undefined, end: () => {} },
      20,
    );
    reader.listen((message) => messages.push(message));
    const whole = framed({ method: "$/x" });
    stream.write(whole.slice(0, -3));
    await expect.poll(() => told).toHaveLength(1);
    stream.write(whole.slice(-3, -2));
    await new Promise((resolve) => setTimeout(resolve, 60));
    expect(told).toEqual([expect.stringMatching(/has not come for 0.02 s: there are 29 of the 32 bytes/)]);
    stream.write(whole.slice(-2));
    await expect.poll(() => messages).toEqual([{ jsonrpc: "2.0", method: "$/x" }]);
    reader.dispose();
  });
});

describe("however the bytes come", () => {
  const all = INITIALIZE + SHUTDOWN + EXIT;
  const answers = [answerTo(1), { jsonrpc: "2.0", id: 2, result: null }];

  test("several messages in one piece", async () => {
    expect(await serve([all])).toEqual({ code: 0, answers, err: "" });
  });

  test("byte by byte", async () => {
    expect(await serve([...bytes(all)].map((byte) => new Uint8Array([byte])))).toEqual({
      code: 0,
      answers,
      err: "",
    });
  });

  test("cut at every place, letters of several bytes among them", () => {
    const whole = bytes(
      framed({ method: "$/ö😀" }) + framed({ id: 1, method: "x" }, "Content-Type: a/b\r\n"),
    );
    const read = (pieces: readonly Uint8Array[]) => {
      const cut = frames();
      return pieces.flatMap((piece) =>
        cut.push(piece).map((frame) => (frame.is === "message" ? [...frame.body] : frame)),
      );
    };
    const uncut = read([whole]);
    expect(uncut).toHaveLength(2);
    for (let at = 1; at < whole.length; at++)
      expect(read([whole.subarray(0, at), whole.subarray(at)]), String(at)).toEqual(uncut);
  });

  test("its end without a word: status 1, and 0 behind a shutdown", async () => {
    expect(await serve([INITIALIZE], { close: true })).toEqual({ code: 1, answers: [answerTo(1)], err: "" });
    expect(await serve([INITIALIZE, SHUTDOWN], { close: true })).toEqual({ code: 0, answers, err: "" });
  });
});

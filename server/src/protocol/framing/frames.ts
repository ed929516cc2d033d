// The frames of the base protocol, cut out of a stream of bytes: lines of a header, an empty line, and as many bytes of a
// body as the header says. Where a header cannot be believed nobody knows where the next message begins, so the stream is
// over then: going on would answer what nobody asked.

/** Bytes; two short lines are usual, and whoever sends more than this sends no header. */
const LONGEST_HEADER = 4096;
/** Bytes; ten times the largest text that is ever read, and what is more is a slip in the header. */
const LARGEST_BODY = 256 * 1024 * 1024;

export type Frame =
  | {
      readonly is: "message";
      readonly body: Uint8Array;
      /** As the header has it, in small letters; absent where it says none. */
      readonly charset: string | undefined;
    }
  /** Nothing behind it can be read. */
  | { readonly is: "fault"; readonly says: string };

export interface Frames {
  /** What became whole with these bytes, in order. Nothing comes any more after a fault. */
  push(chunk: Uint8Array): readonly Frame[];
  /** What came of a message that is not whole yet, in words; undefined between two messages. */
  begun(): string | undefined;
}

interface Header {
  readonly length: number;
  readonly charset: string | undefined;
}

export function frames(): Frames {
  let header = "";
  let body: (Header & { readonly chunks: Uint8Array[]; came: number }) | undefined;
  let over = false;

  const takeHeader = (chunk: Uint8Array, from: number, out: Frame[]): number => {
    let at = from;
    while (at < chunk.length) {
      header += String.fromCharCode(chunk[at++]!);
      const wrong = wrongSoFar(header);
      const read = wrong ?? (header.endsWith("\r\n\r\n") ? readHeader(header) : undefined);
      if (typeof read === "string") {
        over = true;
        out.push({ is: "fault", says: read });
        return chunk.length;
      }
      if (read) {
        header = "";
        body = { ...read, chunks: [], came: 0 };
        return at;
      }
    }
    return at;
  };

  const takeBody = (chunk: Uint8Array, from: number, out: Frame[]): number => {
    if (!body) return from;
    const { length, charset, chunks } = body;
    const piece = chunk.subarray(from, from + length - body.came);
    if (piece.length > 0) chunks.push(piece);
    body.came += piece.length;
    if (body.came === length) {
      out.push({ is: "message", body: joined(chunks, length), charset });
      body = undefined;
    }
    return from + piece.length;
  };

  return {
    push(chunk) {
      const out: Frame[] = [];
      let at = 0;
      while (!over && at < chunk.length) {
        if (!body) at = takeHeader(chunk, at, out);
        // Also right behind a header: a body may have no bytes at all.
        at = takeBody(chunk, at, out);
      }
      return out;
    },
    begun() {
      if (body) return `${body.came} of the ${body.length} bytes that its header says`;
      return header === "" || over ? undefined : `${header.length} bytes of its header`;
    },
  };
}

/** What shows before the header is whole that it is none; looked for at once, so that nobody waits for the rest of it. */
function wrongSoFar(header: string): string | undefined {
  if (header.length === 1 && !/[\w!#$%&'*+.^`|~\r-]/.test(header))
    return `a message begins with ${quoted(header)}, not with a header`;
  if (/(?:^|[^\r])\n$/.test(header))
    return `a header line ends with a line feed alone, not with a carriage return before it: ${quoted(header)}`;
  return header.length > LONGEST_HEADER ? `a header has no end: ${quoted(header)}` : undefined;
}

/** The header, or what is wrong with it. */
function readHeader(text: string): Header | string {
  let length: number | undefined;
  let charset: string | undefined;
  for (const line of text.split("\r\n")) {
    if (line === "") continue;
    const colon = line.indexOf(":");
    if (colon < 0) return `a header line has no colon: ${quoted(line)}`;
    const value = line.slice(colon + 1).trim();
    switch (line.slice(0, colon).trim().toLowerCase()) {
      case "content-length": {
        if (!/^\d+$/.test(value)) return `a Content-Length is no number of bytes: ${quoted(value)}`;
        if (length !== undefined && length !== Number(value)) return `a header has two Content-Length lines`;
        length = Number(value);
        break;
      }
      case "content-type":
        charset = /;\s*charset\s*=\s*"?([^\s;"]+)/i.exec(value)?.[1]?.toLowerCase();
        break;
    }
  }
  if (length === undefined) return `a header has no Content-Length: ${quoted(text.trim())}`;
  if (length > LARGEST_BODY)
    return `a Content-Length of ${length} bytes is more than the ${LARGEST_BODY} that are taken`;
  return { length, charset };
}

const quoted = (text: string): string => JSON.stringify(text.length > 60 ? `${text.slice(0, 60)}…` : text);

function joined(chunks: readonly Uint8Array[], length: number): Uint8Array {
  if (chunks.length === 1) return chunks[0]!;
  const whole = new Uint8Array(length);
  let at = 0;
  for (const chunk of chunks) {
    whole.set(chunk, at);
    at += chunk.length;
  }
  return whole;
}

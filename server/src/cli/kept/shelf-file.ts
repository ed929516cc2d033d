// The file in which a server keeps what it remembers of closed logs: put together and taken apart in steps, so that ten thousand
// logs hold up nobody and are in memory once. One that is of another program, of another folder, or not whole is taken for none.
import { createHash } from "node:crypto";
import { withLater } from "../../base/later";
import type { Steps } from "../../base/steps";
import type { Remembered } from "../../workspace/remembered";
import type { KeptFor } from "./file";

/** Raised with every change of what stands in the file. */
const FORMAT = 3;
/** Bytes put together at a time, and summed up at a time: a millisecond or two. */
const PIECE = 512 * 1024;
const SUM_LENGTH = 64;

interface Header extends KeptFor {
  readonly "mendlog-jobs": number;
}

/** Its bytes, piece by piece: a line that says what it is for, four lines for each log, and a sum of all of them. */
export function* shelfPieces(all: Iterable<Remembered>, of: KeptFor): Iterable<Uint8Array> {
  const sum = createHash("sha256");
  const header: Header = { "mendlog-jobs": FORMAT, ...of };
  let text = `${JSON.stringify(header)}\n`;
  const piece = (): Uint8Array => {
    const bytes = Buffer.from(text);
    text = "";
    sum.update(bytes);
    return bytes;
  };
  for (const { uri, hash = 0, packed, stretches } of all) {
    text += `${JSON.stringify([uri, hash])}\n${packed?.head ?? ""}\n${packed?.rest ?? ""}\n${stretches?.join(",") ?? ""}\n`;
    if (text.length >= PIECE) yield piece();
  }
  yield piece();
  yield Buffer.from(sum.digest("hex"));
}

/** What the file keeps, one log a step; nothing where it is not for this. What is long is read when it is asked for. */
export function* onShelf(
  bytes: Uint8Array,
  { root, build, library }: KeptFor,
): Steps<void, Remembered | undefined> {
  const body = bytes.subarray(0, Math.max(0, bytes.length - SUM_LENGTH));
  const sum = createHash("sha256");
  for (let at = 0; at < body.length; at += PIECE) {
    sum.update(body.subarray(at, at + PIECE));
    yield undefined;
  }
  const decoder = new TextDecoder();
  if (decoder.decode(bytes.subarray(body.length)) !== sum.digest("hex")) return;
  let at = 0;
  const line = (): Uint8Array => {
    const end = body.indexOf(10, at);
    const piece = body.subarray(at, end < 0 ? body.length : end);
    at = end < 0 ? body.length : end + 1;
    return piece;
  };
  const header = headerIn(decoder.decode(line()));
  if (
    header?.["mendlog-jobs"] !== FORMAT ||
    header.root !== root ||
    header.build !== build ||
    header.library !== library
  )
    return;
  while (at < body.length) {
    const [uri, hash] = JSON.parse(decoder.decode(line())) as [uri: string, hash: string | 0];
    const head = decoder.decode(line());
    const rest = line();
    const stretches = decoder.decode(line());
    yield {
      uri,
      ...(hash === 0 ? {} : { hash }),
      ...(head === "" ? {} : { packed: withLater({ head }, { rest: () => new TextDecoder().decode(rest) }) }),
      ...(stretches === "" ? {} : { stretches: Int32Array.from(stretches.split(","), Number) }),
    };
  }
}

function headerIn(line: string): Header | undefined {
  try {
    return JSON.parse(line) as Header;
  } catch {
    return undefined;
  }
}

import { isLog } from "../log/sniff";
import { isMarkdown } from "../workspace/host";
import { isUtf16 } from "../workspace/utf16";
import { type Disk, done, failed, type Tried } from "./io";

/** Larger logs are not read: a bench log of a whole year is far below it. In bytes. */
export const MOST_LOG_BYTES = 16 * 1024 * 1024;
/** Enough of a file to see whether it is a log. In bytes. */
export const HEAD_BYTES = 64 * 1024;

/** A file's text, as `decode` gives it. Where a file is too large, a log is refused and other Markdown is empty. */
export async function readText(disk: Disk, path: string, size: number): Promise<Tried<string>> {
  if (size > MOST_LOG_BYTES) return tooLarge(disk, path, size);
  const bytes = await disk.read(path, MOST_LOG_BYTES);
  return bytes.ok ? decode(bytes.value) : bytes;
}

async function tooLarge(disk: Disk, path: string, size: number): Promise<Tried<string>> {
  const head = await disk.read(path, HEAD_BYTES);
  if (!head.ok) return head;
  const text = new TextDecoder("utf-8").decode(head.value);
  if (isMarkdown(path) && !isLog(text) && !text.includes("\0")) return done("");
  const megabytes = (bytes: number) => `${Math.round(bytes / 1024 / 1024)} MiB`;
  return failed(
    `is not read: it is ${megabytes(size)} large, and ${megabytes(MOST_LOG_BYTES)} is the most. Split it by job`,
  );
}

/**
 * Bytes as text: UTF-8, a byte order mark left out as editors do, so that places in it are theirs. Anything
 * else is refused rather than guessed at.
 */
export function decode(bytes: Uint8Array): Tried<string> {
  if (isUtf16(bytes)) return failed("is not read: it is UTF-16 text. Save it as UTF-8");
  if (bytes.includes(0)) return failed("is not text: it holds zero bytes");
  try {
    return done(new TextDecoder("utf-8", { fatal: true }).decode(bytes));
  } catch {
    return failed(`is not UTF-8 text: see line ${firstBadLine(bytes)}. Save it as UTF-8`);
  }
}

/** Number of the first line, from 1, that does not decode. Bytes are cut at line ends, which no longer sequence holds. */
function firstBadLine(bytes: Uint8Array): number {
  const decoder = new TextDecoder("utf-8", { fatal: true });
  let from = 0;
  for (let line = 1; ; line++) {
    let end = from;
    while (end < bytes.length && bytes[end] !== 10 && bytes[end] !== 13) end++;
    try {
      decoder.decode(bytes.subarray(from, end));
    } catch {
      return line;
    }
    if (end === bytes.length) return line;
    from = end + (bytes[end] === 13 && bytes[end + 1] === 10 ? 2 : 1);
  }
}

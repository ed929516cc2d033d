// What a folder's logs said, and what was found in them, kept between two runs in one file. It may be deleted at any time; one
// that is of another program, of another folder, or not whole is taken for none.
import { createHash } from "node:crypto";
import type { Remembered } from "../../workspace/remembered";
import type { Checked } from "../desk";

/** Raised with every change of what stands in the file. */
const FORMAT = 2;
/** Larger ones are not written, in bytes. */
export const MOST_KEPT = 256 * 1024 * 1024;
/** A file written so shortly before it was looked at may have been written again unseen, in milliseconds. */
const UNSURE = 2000;

/** What has to be the same for anything kept to be of use. */
export interface KeptFor {
  readonly root: string;
  /** Stands for this program, to the byte. */
  readonly build: string;
  /** Stands for the devices and procedures that logs are read with. */
  readonly library: string;
}

/** What is kept of one log, with what tells whether its file has changed since. */
export interface KeptLog {
  /** Bytes of the file, and when it was last written, in milliseconds since 1970. */
  readonly size: number;
  readonly changed: number;
  readonly remembered: Remembered;
  /** What was found in it, and what stands for all that it was judged by. */
  readonly checked?: { readonly stamp: string; readonly result: Checked };
}

/** By absolute path with links followed. */
export type KeptLogs = ReadonlyMap<string, KeptLog>;

interface Header extends KeptFor {
  readonly "mendlog-kept": number;
  /** Milliseconds since 1970. */
  readonly written: number;
}

type Meta = readonly [
  path: string,
  uri: string,
  size: number,
  changed: number,
  hash: string | 0,
  stamp: string | 0,
];

/** The file's bytes; undefined where they would be too many. @param written milliseconds since 1970 */
export function keptBytes(kept: KeptLogs, of: KeptFor, written: number): Uint8Array | undefined {
  const encoder = new TextEncoder();
  const header: Header = { "mendlog-kept": FORMAT, ...of, written };
  const parts = [encoder.encode(`${JSON.stringify(header)}\n`)];
  let length = parts[0]!.length;
  for (const [path, { size, changed, remembered, checked }] of kept) {
    const { uri, hash = 0, packed, stretches } = remembered;
    const meta: Meta = [path, uri, size, changed, hash, checked?.stamp ?? 0];
    const result = checked ? JSON.stringify(checked.result) : "";
    const part = encoder.encode(
      `${JSON.stringify(meta)}\n${packed?.head ?? ""}\n${packed?.rest ?? ""}\n${stretches?.join(",") ?? ""}\n${result}\n`,
    );
    parts.push(part);
    length += part.length;
    if (length > MOST_KEPT) return undefined;
  }
  const body = Buffer.concat(parts);
  return Buffer.concat([body, encoder.encode(sumOf(body))]);
}

const numbersIn = (text: string): Int32Array => Int32Array.from(text.split(","), Number);

const sumOf = (body: Uint8Array): string => createHash("sha256").update(body).digest("hex");
const SUM_LENGTH = 64;

/** What the file keeps; empty where it is not for this. What is long is read when it is asked for. */
export function keptIn(bytes: Uint8Array, { root, build, library }: KeptFor): KeptLogs {
  const none: KeptLogs = new Map();
  try {
    const body = bytes.subarray(0, Math.max(0, bytes.length - SUM_LENGTH));
    const decoder = new TextDecoder();
    if (decoder.decode(bytes.subarray(body.length)) !== sumOf(body)) return none;
    let at = 0;
    const line = (): Uint8Array => {
      const end = body.indexOf(10, at);
      if (end < 0) throw new SyntaxError("The last line has no end.");
      const piece = body.subarray(at, end);
      at = end + 1;
      return piece;
    };
    const header = JSON.parse(decoder.decode(line())) as Header;
    if (
      header["mendlog-kept"] !== FORMAT ||
      header.root !== root ||
      header.build !== build ||
      header.library !== library
    )
      return none;
    const kept = new Map<string, KeptLog>();
    while (at < body.length) {
      const [path, uri, size, changed, hash, stamp] = JSON.parse(decoder.decode(line())) as Meta;
      const head = decoder.decode(line());
      const rest = line();
      const stretches = line();
      const result = line();
      if (changed > header.written - UNSURE) continue;
      const packed =
        head === ""
          ? undefined
          : {
              head,
              get rest() {
                return new TextDecoder().decode(rest);
              },
            };
      kept.set(path, {
        size,
        changed,
        remembered: {
          uri,
          ...(hash === 0 ? {} : { hash }),
          ...(packed ? { packed } : {}),
          ...(stretches.length === 0 ? {} : { stretches: numbersIn(decoder.decode(stretches)) }),
        },
        ...(stamp === 0
          ? {}
          : {
              checked: {
                stamp,
                get result() {
                  return JSON.parse(new TextDecoder().decode(result)) as Checked;
                },
              },
            }),
      });
    }
    return kept;
  } catch {
    return none;
  }
}

// Pictures of the log made part of the report. Only what lies in the workspace is read, by whoever calls.
import type { FileBytes, NoBytes } from "../../compute/memory/file-bytes";
import type { OwnerReport, ReportImage } from "./model";

/**
 * Reads a picture by its path relative to the log, percent signs decoded, "/" between folders, unless it has more than
 * `most` bytes. It must refuse what lies outside the workspace, links followed.
 */
export type ReadImage = (path: string, most: number) => Promise<FileBytes>;

/** Bytes of one picture, and of all together: the page is sent by mail. */
export const MOST_IMAGE_BYTES = 2 * 1024 * 1024;
export const MOST_ALL_BYTES = 8 * 1024 * 1024;
const MOST_IMAGES = 40;

const megabytes = (bytes: number): string => `${bytes / 1024 / 1024} MiB`;

/** As clauses. */
const WHY_NOT: Readonly<Record<NoBytes["reason"], string>> = {
  absent: "it is not there",
  outside: "it is not in the workspace",
  "not-a-file": "it is not a file",
  unreadable: "it cannot be read",
  "too-large": `it is larger than ${megabytes(MOST_IMAGE_BYTES)}`,
};

/** The report with its pictures as `data:` uris, or with the reason why one is left out. */
export async function inlineImages(report: OwnerReport, read: ReadImage): Promise<OwnerReport> {
  let left = MOST_ALL_BYTES;
  const images: ReportImage[] = [];
  for (const [index, image] of report.images.entries()) {
    const got =
      index < MOST_IMAGES
        ? await inlined(image.source, read, left)
        : { leftOut: `only ${MOST_IMAGES} are taken` };
    if ("size" in got) left -= got.size;
    images.push({
      alt: image.alt,
      source: image.source,
      ...(image.when ? { when: image.when } : {}),
      ...("data" in got ? { data: got.data } : { leftOut: got.leftOut }),
    });
  }
  return { ...report, images };
}

type Inlined = { readonly data: string; readonly size: number } | { readonly leftOut: string };

async function inlined(source: string, read: ReadImage, left: number): Promise<Inlined> {
  const path = localImagePath(source);
  if (path === undefined) return { leftOut: "it is not a file beside the log" };
  const got = await read(path, MOST_IMAGE_BYTES);
  if (!got.ok) return { leftOut: WHY_NOT[got.reason] };
  const { bytes } = got;
  if (bytes.length > left)
    return { leftOut: `all pictures together are larger than ${megabytes(MOST_ALL_BYTES)}` };
  const type = imageType(bytes);
  if (!type) return { leftOut: "it is not a PNG, JPEG, GIF or WebP picture" };
  return { data: `data:${type};base64,${base64(bytes)}`, size: bytes.length };
}

/** Undefined for addresses with a scheme, for paths from a root, and for what does not decode. */
export function localImagePath(source: string): string | undefined {
  if (/^[a-z][a-z0-9+.-]*:/i.test(source) || /^[/\\]/.test(source)) return undefined;
  try {
    const path = decodeURIComponent(source.replace(/[?#].*$/s, ""));
    // Decoded, it must still be no other kind of address.
    const odd = path === "" || path.includes("\0") || path.includes("\\") || /^(?:[a-z]+:|\/)/i.test(path);
    return odd ? undefined : path;
  } catch {
    return undefined;
  }
}

/** By its first bytes, whatever its name is; drawings that can hold scripts are not among them. */
export function imageType(bytes: Uint8Array): string | undefined {
  const starts = (...wanted: number[]): boolean => wanted.every((byte, i) => bytes[i] === byte);
  const text = (from: number, to: number): string => String.fromCharCode(...bytes.subarray(from, to));
  if (starts(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a)) return "image/png";
  if (starts(0xff, 0xd8, 0xff)) return "image/jpeg";
  if (/^GIF8[79]a$/.test(text(0, 6))) return "image/gif";
  if (text(0, 4) === "RIFF" && text(8, 12) === "WEBP") return "image/webp";
  return undefined;
}

const CHUNK = 0x6000;

/** RFC 4648 base64, in pieces whose length is a multiple of three. */
function base64(bytes: Uint8Array): string {
  let out = "";
  for (let at = 0; at < bytes.length; at += CHUNK)
    out += btoa(String.fromCharCode(...bytes.subarray(at, at + CHUNK)));
  return out;
}

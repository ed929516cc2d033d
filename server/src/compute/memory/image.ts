// A memory's image: its checks, and what its bytes give away without any set to compare with.
import { crc32 } from "./crc32";
import { sayHex } from "./hex";
import { sha1 } from "./sha1";
import { sum8, sum16 } from "./sums";

/** Checks as lower-case hexadecimal of full width, size in bytes; those not known are left out. */
export interface ImageChecks {
  readonly size?: number;
  readonly sum16?: string;
  readonly crc32?: string;
  readonly sha1?: string;
}

/** All checks of the bytes. */
export const checksOf = (bytes: Uint8Array): Required<ImageChecks> & { readonly sum8: string } => ({
  size: bytes.length,
  sum8: hex(sum8(bytes), 2),
  sum16: hex(sum16(bytes), 4),
  crc32: hex(crc32(bytes), 8),
  sha1: sha1(bytes),
});

const hex = (value: number, digits: number): string => sayHex(value, digits).toLowerCase();

/** The byte all bytes are, FF of an erased chip for one; undefined where they differ or there are none. */
export function fillOf(bytes: Uint8Array): number | undefined {
  const [first] = bytes;
  return bytes.every((byte) => byte === first) ? first : undefined;
}

/**
 * How many times over the image holds the same bytes: 2 where both halves are equal, 4 for quarters, and so on; 1
 * where the halves differ. An image of one value throughout counts as 1: it is blank, not doubled.
 */
export function copiesOf(bytes: Uint8Array): number {
  if (fillOf(bytes) !== undefined) return 1;
  let copies = 1;
  for (let size = bytes.length; size >= 2 && size % 2 === 0; size /= 2) {
    const half = size / 2;
    if (!bytes.subarray(0, half).every((byte, i) => byte === bytes[half + i])) break;
    copies *= 2;
  }
  return copies;
}

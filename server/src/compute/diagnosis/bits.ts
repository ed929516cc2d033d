// Sets of small whole numbers as words of 32 bits.

export type Bits = Uint32Array;

export const noBits = (size: number): Bits => new Uint32Array(Math.max(1, Math.ceil(size / 32)));

export function allBits(size: number): Bits {
  const bits = noBits(size);
  for (let i = 0; i < size; i += 1) setBit(bits, i);
  return bits;
}

export function setBit(bits: Bits, i: number): void {
  bits[i >>> 5]! |= 1 << (i & 31);
}

export function clearBit(bits: Bits, i: number): void {
  bits[i >>> 5]! &= ~(1 << (i & 31));
}

export const hasBit = (bits: Bits, i: number): boolean => (bits[i >>> 5]! & (1 << (i & 31))) !== 0;

export function isEmpty(bits: Bits): boolean {
  for (const word of bits) if (word !== 0) return false;
  return true;
}

/** `a` without what is in `b`. */
export function minus(a: Bits, b: Bits): Bits {
  const out = new Uint32Array(a.length);
  for (let i = 0; i < a.length; i += 1) out[i] = a[i]! & ~b[i]!;
  return out;
}

export function and(a: Bits, b: Bits): Bits {
  const out = new Uint32Array(a.length);
  for (let i = 0; i < a.length; i += 1) out[i] = a[i]! & b[i]!;
  return out;
}

/** Every member of `a` is in `b`. */
export function within(a: Bits, b: Bits): boolean {
  for (let i = 0; i < a.length; i += 1) if ((a[i]! & ~b[i]!) !== 0) return false;
  return true;
}

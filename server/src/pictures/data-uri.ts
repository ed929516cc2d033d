const DIGITS = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";

/** Base64 (RFC 4648, section 4) of a text's UTF-8 bytes; written out, since it has to run where there is no Buffer. */
export function base64(text: string): string {
  const bytes = new TextEncoder().encode(text);
  let out = "";
  for (let i = 0; i < bytes.length; i += 3) {
    const left = bytes.length - i;
    const bits = ((bytes[i] ?? 0) << 16) | ((bytes[i + 1] ?? 0) << 8) | (bytes[i + 2] ?? 0);
    const digit = (shift: number): string => DIGITS.charAt((bits >> shift) & 63);
    out += digit(18) + digit(12) + (left > 1 ? digit(6) : "=") + (left > 2 ? digit(0) : "=");
  }
  return out;
}

/** An SVG as a uri that needs nothing to be fetched. */
export const dataUri = (svg: string): string => `data:image/svg+xml;base64,${base64(svg)}`;

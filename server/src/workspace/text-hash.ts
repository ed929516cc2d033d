/** Two 32-bit sums of the UTF-16 code units and the length: enough to tell the versions of one file apart. */
export function textHash(text: string): string {
  let a = 0x811c9dc5;
  let b = 0x9e3779b9;
  for (let i = 0; i < text.length; i++) {
    const unit = text.charCodeAt(i);
    a = Math.imul(a ^ unit, 0x01000193);
    b = Math.imul(b + unit, 0x85ebca6b) ^ (b >>> 13);
  }
  return `${text.length.toString(36)}-${(a >>> 0).toString(36)}-${(b >>> 0).toString(36)}`;
}

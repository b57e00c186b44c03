/**
 * A digest of a text, 16 hexadecimal digits: a 32-bit FNV-1a hash (Fowler, Noll, Vo) over its UTF-16 code units,
 * and a second multiplicative hash of another kind beside it. For noticing change, not for security.
 */
export function digestOf(text: string): string {
  let a = 0x811c9dc5;
  let b = 0xdeadbeef;
  for (let i = 0; i < text.length; i++) {
    const code = text.charCodeAt(i);
    a = Math.imul(a ^ code, 0x01000193);
    b = Math.imul(b ^ code ^ (b >>> 15), 0x85ebca6b);
  }
  return hex(a) + hex(b);
}

function hex(value: number): string {
  return (value >>> 0).toString(16).padStart(8, '0');
}

// Arrays of numbers out of base64: the server writes little-endian, as every browser's machine counts. (space/decode.ts)

/** The bytes that base64 stands for. */
export function bytesOf(base64: string): Uint8Array<ArrayBuffer> {
  const letters = atob(base64);
  const bytes = new Uint8Array(letters.length);
  for (let k = 0; k < letters.length; k++) bytes[k] = letters.charCodeAt(k);
  return bytes;
}

export function floatsOf(base64: string): Float32Array<ArrayBuffer> {
  return new Float32Array(bytesOf(base64).buffer);
}

export function wholesOf(base64: string): Uint32Array<ArrayBuffer> {
  return new Uint32Array(bytesOf(base64).buffer);
}

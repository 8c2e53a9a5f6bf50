import { inflateRawSync } from 'node:zlib';

const END = 0x06054b50;
const STORED = 0;

/** Every file of a zip archive as text, by name; enough for the workbooks that we write. */
export function zipEntries(bytes: Uint8Array): Map<string, string> {
  const zip = Buffer.from(bytes);
  let end = zip.length - 22;
  while (zip.readUInt32LE(end) !== END) end -= 1;
  const entries = new Map<string, string>();
  let at = zip.readUInt32LE(end + 16);
  for (let left = zip.readUInt16LE(end + 10); left > 0; left -= 1) {
    const method = zip.readUInt16LE(at + 10);
    const size = zip.readUInt32LE(at + 20);
    const nameLength = zip.readUInt16LE(at + 28);
    const name = zip.toString('utf8', at + 46, at + 46 + nameLength);
    const local = zip.readUInt32LE(at + 42);
    const start = local + 30 + zip.readUInt16LE(local + 26) + zip.readUInt16LE(local + 28);
    const packed = zip.subarray(start, start + size);
    entries.set(name, (method === STORED ? packed : inflateRawSync(packed)).toString('utf8'));
    at += 46 + nameLength + zip.readUInt16LE(at + 30) + zip.readUInt16LE(at + 32);
  }
  return entries;
}

import { inflateSync } from 'node:zlib';

/** A picture as bytes: red, green, blue, alpha of each pixel, row by row from the top left. */
export type Picture = { readonly width: number; readonly height: number; readonly rgba: Uint8Array };

const SIGNATURE = '89504e470d0a1a0a';
/** Bytes a pixel by the colour type of the header: RGB and RGBA, the two that screenshots come in. */
const CHANNELS: ReadonlyMap<number, number> = new Map([
  [2, 3],
  [6, 4],
]);

/** Reads a PNG of 8 bits a channel, not interlaced (PNG specification, third edition, 9 and 11); throws on any other. */
export function readPng(file: Buffer): Picture {
  if (file.subarray(0, 8).toString('hex') !== SIGNATURE) throw new Error('this is no PNG');
  const chunks = chunksOf(file);
  const header = chunks.find(({ type }) => type === 'IHDR')?.data ?? Buffer.alloc(13);
  const channels = CHANNELS.get(header.readUInt8(9));
  if (header.readUInt8(8) !== 8 || channels === undefined || header.readUInt8(12) !== 0) {
    throw new Error('this kind of PNG is not read here');
  }
  const [width, height] = [header.readUInt32BE(0), header.readUInt32BE(4)];
  const packed = Buffer.concat(chunks.filter(({ type }) => type === 'IDAT').map(({ data }) => data));
  const rows = unfilter(inflateSync(packed), width * channels, height, channels);
  return { width, height, rgba: channels === 4 ? rows : withAlpha(rows) };
}

function chunksOf(file: Buffer): readonly { readonly type: string; readonly data: Buffer }[] {
  const chunks: { type: string; data: Buffer }[] = [];
  for (let at = 8; at < file.length; ) {
    const length = file.readUInt32BE(at);
    chunks.push({ type: file.toString('latin1', at + 4, at + 8), data: file.subarray(at + 8, at + 8 + length) });
    at += 12 + length;
  }
  return chunks;
}

function unfilter(filtered: Buffer, rowBytes: number, height: number, step: number): Uint8Array {
  const rows = new Uint8Array(rowBytes * height);
  let above = new Uint8Array(rowBytes);
  for (let row = 0; row < height; row += 1) {
    const from = row * (rowBytes + 1);
    const here = rows.subarray(row * rowBytes, (row + 1) * rowBytes);
    unfilterRow(filtered.subarray(from + 1, from + 1 + rowBytes), filtered[from] ?? 0, { here, above, step });
    above = here;
  }
  return rows;
}

type Rows = { readonly here: Uint8Array; readonly above: Uint8Array; readonly step: number };

/** What lies left of the first pixel counts as 0, and so does the row above the first. */
function unfilterRow(filtered: Buffer, kind: number, { here, above, step }: Rows): void {
  for (let at = 0; at < filtered.length; at += 1) {
    const guess = predicted(kind, here[at - step] ?? 0, above[at] ?? 0, above[at - step] ?? 0);
    here[at] = (filtered[at] ?? 0) + guess;
  }
}

function predicted(kind: number, left: number, up: number, upLeft: number): number {
  switch (kind) {
    case 0:
      return 0;
    case 1:
      return left;
    case 2:
      return up;
    case 3:
      return (left + up) >> 1;
    case 4:
      return paeth(left, up, upLeft);
    default:
      throw new Error(`no such filter of a PNG: ${kind}`);
  }
}

function paeth(left: number, up: number, upLeft: number): number {
  const guess = left + up - upLeft;
  const [byLeft, byUp, byUpLeft] = [Math.abs(guess - left), Math.abs(guess - up), Math.abs(guess - upLeft)];
  if (byLeft <= byUp && byLeft <= byUpLeft) return left;
  return byUp <= byUpLeft ? up : upLeft;
}

function withAlpha(rgb: Uint8Array): Uint8Array {
  const rgba = new Uint8Array((rgb.length / 3) * 4).fill(255);
  for (let pixel = 0; pixel < rgb.length / 3; pixel += 1) rgba.set(rgb.subarray(3 * pixel, 3 * pixel + 3), 4 * pixel);
  return rgba;
}

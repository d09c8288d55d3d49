// Draws the app's icons, a plain figure over a thick floor line, and writes them to assets/icons.
// Run by hand after a change to the drawing: `node app/build/make-icons.mjs`.
import { mkdirSync, writeFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { deflateSync } from 'node:zlib';

const INK = [0x14, 0x16, 0x1a];
const FIELD = [0xf6, 0xf4, 0xee];
/** Each pixel is the mean of 4 x 4 samples. */
const SAMPLES = 4;

/**
 * Round-ended strokes [x1, y1, x2, y2, half width] on a square of side 1; a head is one of no length.
 *
 * @type {[number, number, number, number, number][]}
 */
const DRAWING = [
  [0.5, 0.235, 0.5, 0.235, 0.075],
  [0.5, 0.37, 0.5, 0.55, 0.047],
  [0.5, 0.39, 0.335, 0.29, 0.032],
  [0.5, 0.39, 0.665, 0.29, 0.032],
  [0.5, 0.55, 0.41, 0.735, 0.038],
  [0.5, 0.55, 0.59, 0.735, 0.038],
  [0.235, 0.81, 0.765, 0.81, 0.036],
];

/**
 * @param {number} x
 * @param {number} y
 * @param {[number, number, number, number, number]} stroke
 */
function covers(x, y, [x1, y1, x2, y2, halfWidth]) {
  const length2 = (x2 - x1) ** 2 + (y2 - y1) ** 2;
  const along = length2 === 0 ? 0 : ((x - x1) * (x2 - x1) + (y - y1) * (y2 - y1)) / length2;
  const nearest = Math.min(1, Math.max(0, along));
  return Math.hypot(x - x1 - nearest * (x2 - x1), y - y1 - nearest * (y2 - y1)) <= halfWidth;
}

/**
 * The share of a pixel that the drawing covers, 0 to 1.
 *
 * @param {number} column
 * @param {number} row
 * @param {number} size pixels a side
 * @param {number} scale of the drawing about the middle, so that a maskable icon keeps its safe zone
 */
function coverage(column, row, size, scale) {
  let hits = 0;
  for (let sample = 0; sample < SAMPLES * SAMPLES; sample += 1) {
    const x = (column + ((sample % SAMPLES) + 0.5) / SAMPLES) / size;
    const y = (row + (Math.floor(sample / SAMPLES) + 0.5) / SAMPLES) / size;
    if (DRAWING.some((stroke) => covers(0.5 + (x - 0.5) / scale, 0.5 + (y - 0.5) / scale, stroke))) hits += 1;
  }
  return hits / SAMPLES ** 2;
}

/**
 * @param {number} size
 * @param {number} scale
 */
function draw(size, scale) {
  const rows = Buffer.alloc(size * (1 + size * 3));
  for (let row = 0; row < size; row += 1) {
    for (let column = 0; column < size; column += 1) {
      const ink = coverage(column, row, size, scale);
      const at = row * (1 + size * 3) + 1 + column * 3;
      FIELD.forEach((field, part) => {
        rows[at + part] = Math.round(field + ((INK[part] ?? 0) - field) * ink);
      });
    }
  }
  return rows;
}

const CRC_TABLE = Array.from({ length: 256 }, (_, byte) => {
  let value = byte;
  for (let bit = 0; bit < 8; bit += 1) value = value & 1 ? 0xedb88320 ^ (value >>> 1) : value >>> 1;
  return value >>> 0;
});

/** @param {Buffer} bytes */
function crc32(bytes) {
  let crc = 0xffffffff;
  for (const byte of bytes) crc = (CRC_TABLE[(crc ^ byte) & 0xff] ?? 0) ^ (crc >>> 8);
  return (crc ^ 0xffffffff) >>> 0;
}

/**
 * One chunk of a PNG file (W3C Portable Network Graphics, section 5.3).
 *
 * @param {string} type
 * @param {Buffer} data
 */
function chunk(type, data) {
  const body = Buffer.concat([Buffer.from(type, 'latin1'), data]);
  const framed = Buffer.alloc(body.length + 8);
  framed.writeUInt32BE(data.length, 0);
  body.copy(framed, 4);
  framed.writeUInt32BE(crc32(body), body.length + 4);
  return framed;
}

/**
 * @param {number} size
 * @param {Buffer} rows of 8-bit RGB, each after its filter byte
 */
function encodePng(size, rows) {
  const header = Buffer.alloc(13);
  header.writeUInt32BE(size, 0);
  header.writeUInt32BE(size, 4);
  header.set([8, 2, 0, 0, 0], 8);
  const signature = Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
  const data = deflateSync(rows, { level: 9 });
  return Buffer.concat([signature, chunk('IHDR', header), chunk('IDAT', data), chunk('IEND', Buffer.alloc(0))]);
}

const folder = fileURLToPath(new URL('../../assets/icons/', import.meta.url));
mkdirSync(folder, { recursive: true });
/** @type {[string, number, number][]} */
const icons = [
  ['icon-192.png', 192, 1],
  ['icon-512.png', 512, 1],
  ['icon-maskable-512.png', 512, 0.8],
];
for (const [name, size, scale] of icons) writeFileSync(folder + name, encodePng(size, draw(size, scale)));

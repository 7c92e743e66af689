/**
 * Our mark, drawn into PNG files: the end of a board with its rings, the heart at the lower edge. Drawn anew for each
 * size, so that the small ones stay clear.
 */
import { deflateSync } from 'node:zlib';

type Rgb = readonly [red: number, green: number, blue: number];

const WOOD: Rgb = [239, 226, 200];
const RING: Rgb = [138, 94, 52];
const HEART: Rgb = [47, 93, 76];
const SAMPLES = 4;

interface Ink {
  readonly colour: Rgb;
  /** 0 clear to 1. */
  readonly cover: number;
}

const CLEAR: Ink = { colour: WOOD, cover: 0 };

/** The mark at a point, both 0 to 1 from the upper left. */
function inkAt(x: number, y: number, ringCount: number, outline: boolean): Ink {
  if (!insideBoard(x, y)) return CLEAR;
  const fromHeart = Math.hypot(x - 0.5, y - 0.86);
  if (fromHeart < 0.17) return { colour: outline ? [255, 255, 255] : HEART, cover: 1 };
  const ring = (fromHeart - 0.17) / (0.75 / ringCount);
  const onRing = ring - Math.floor(ring) > 0.62;
  if (outline) return onRing ? { colour: [255, 255, 255], cover: 1 } : CLEAR;
  return { colour: onRing ? RING : WOOD, cover: 1 };
}

/** A square with rounded corners, a little in from the edge. */
function insideBoard(x: number, y: number): boolean {
  const [edge, corner] = [0.04, 0.12];
  const [dx, dy] = [Math.abs(x - 0.5) - (0.5 - edge - corner), Math.abs(y - 0.5) - (0.5 - edge - corner)];
  return dx <= 0 && dy <= 0 ? true : Math.hypot(Math.max(dx, 0), Math.max(dy, 0)) <= corner;
}

/** `outline` is the white mark on nothing that Microsoft asks for beside the coloured one. */
export function iconPng(sizePx: number, outline = false): Buffer {
  const ringCount = sizePx < 32 ? 3 : sizePx < 80 ? 4 : 6;
  const rows: Buffer[] = [];
  for (let y = 0; y < sizePx; y += 1) {
    const row = Buffer.alloc(1 + sizePx * 4);
    for (let x = 0; x < sizePx; x += 1) row.set(pixel(x, y, sizePx, ringCount, outline), 1 + x * 4);
    rows.push(row);
  }
  return pngOf(sizePx, Buffer.concat(rows));
}

function pixel(x: number, y: number, sizePx: number, ringCount: number, outline: boolean): number[] {
  const sum = [0, 0, 0];
  let cover = 0;
  for (let sample = 0; sample < SAMPLES * SAMPLES; sample += 1) {
    const right = (x + ((sample % SAMPLES) + 0.5) / SAMPLES) / sizePx;
    const down = (y + (Math.floor(sample / SAMPLES) + 0.5) / SAMPLES) / sizePx;
    const ink = inkAt(right, down, ringCount, outline);
    cover += ink.cover;
    ink.colour.forEach((value, channel) => {
      sum[channel] = (sum[channel] ?? 0) + value * ink.cover;
    });
  }
  const colour = sum.map((value) => (cover === 0 ? 0 : Math.round(value / cover)));
  return [...colour, Math.round((cover / SAMPLES ** 2) * 255)];
}

function pngOf(sizePx: number, pixels: Buffer): Buffer {
  const header = Buffer.alloc(13);
  header.writeUInt32BE(sizePx, 0);
  header.writeUInt32BE(sizePx, 4);
  // Eight bits a channel, red, green, blue and cover.
  header.set([8, 6, 0, 0, 0], 8);
  return Buffer.concat([
    Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]),
    chunk('IHDR', header),
    chunk('IDAT', deflateSync(pixels, { level: 9 })),
    chunk('IEND', Buffer.alloc(0)),
  ]);
}

function chunk(type: string, data: Buffer): Buffer {
  const named = Buffer.concat([Buffer.from(type, 'ascii'), data]);
  const whole = Buffer.alloc(8 + named.length);
  whole.writeUInt32BE(data.length, 0);
  named.copy(whole, 4);
  whole.writeUInt32BE(crc32(named), 4 + named.length);
  return whole;
}

function crc32(bytes: Buffer): number {
  let crc = 0xffffffff;
  for (const byte of bytes) {
    crc ^= byte;
    for (let bit = 0; bit < 8; bit += 1) crc = (crc >>> 1) ^ (crc & 1 ? 0xedb88320 : 0);
  }
  return (crc ^ 0xffffffff) >>> 0;
}

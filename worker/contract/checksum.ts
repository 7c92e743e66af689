/** CRC-32 as in gzip and PNG (ISO 3309, reflected polynomial 0xEDB88320): tells a damaged file from a whole one. */

const table = Uint32Array.from({ length: 256 }, (_, byte) => {
  let crc = byte;
  for (let bit = 0; bit < 8; bit++) crc = crc & 1 ? (crc >>> 1) ^ 0xedb88320 : crc >>> 1;
  return crc >>> 0;
});

/** The checksum of what came before, continued by these bytes; begin with 0. */
export function crc32(bytes: Uint8Array, before = 0): number {
  let crc = ~before >>> 0;
  for (const byte of bytes) crc = (table[(crc ^ byte) & 0xff] ?? 0) ^ (crc >>> 8);
  return ~crc >>> 0;
}

export function crcText(crc: number): string {
  return crc.toString(16).padStart(8, '0');
}

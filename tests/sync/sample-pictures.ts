/** Pictures of a few bytes, put together part by part. @source ITU-T T.81 annex B (JPEG); ISO/IEC 15948 clause 5 (PNG) */

export function jpegPart(marker: number, content: Uint8Array): Uint8Array {
  const length = content.length + 2;
  return Uint8Array.from([0xff, marker, length >> 8, length & 0xff, ...content]);
}

/** A JPEG's skeleton with parts of its own after the first. */
export function jpeg(...parts: readonly Uint8Array[]): Uint8Array<ArrayBuffer> {
  const header = jpegPart(0xe0, new TextEncoder().encode("JFIF\0"));
  const table = jpegPart(0xdb, new Uint8Array(65));
  const scan = [0xff, 0xda, 0, 2, 1, 2, 3, 0xff, 0xd9];
  return Uint8Array.from([0xff, 0xd8, ...header, ...parts.flatMap((part) => [...part]), ...table, ...scan]);
}

export function pngPart(name: string, content: Uint8Array): Uint8Array {
  return Uint8Array.from([0, 0, 0, content.length, ...new TextEncoder().encode(name), ...content, 0, 0, 0, 0]);
}

export function png(...parts: readonly Uint8Array[]): Uint8Array<ArrayBuffer> {
  const signature = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];
  const all = [
    pngPart("IHDR", new Uint8Array(13)),
    ...parts,
    pngPart("IDAT", new Uint8Array(9)),
    pngPart("IEND", new Uint8Array()),
  ];
  return Uint8Array.from([...signature, ...all.flatMap((part) => [...part])]);
}

import { ArchiveFailure } from "./failure";

/** An archive is a run of frames: what it is (one byte), its length (four bytes), its content. */
export type Frame = { readonly kind: "note"; readonly note: Note } | { readonly kind: "rows"; readonly bytes: Buffer };

export interface MigrationMark {
  readonly name: string;
  readonly checksum: string;
}

export interface SequencePosition {
  readonly name: string;
  readonly value: string;
}

export type Note =
  | { readonly is: "head"; readonly format: 1; readonly madeAt: string; readonly migrations: readonly MigrationMark[] }
  | { readonly is: "table"; readonly table: string; readonly columns: readonly string[] }
  | { readonly is: "table-end"; readonly table: string; readonly rows: number; readonly sha256: string }
  | { readonly is: "sequences"; readonly sequences: readonly SequencePosition[] }
  | { readonly is: "end"; readonly tables: number };

const NOTE = "N".charCodeAt(0);
const ROWS = "R".charCodeAt(0);
const HEADER_BYTES = 5;
const LONGEST_FRAME_BYTES = 64 * 1024 * 1024;

export function encodeNote(note: Note): Buffer {
  return frame(NOTE, Buffer.from(JSON.stringify(note)));
}

export function encodeRows(bytes: Buffer): Buffer {
  return frame(ROWS, bytes);
}

function frame(kind: number, content: Buffer): Buffer {
  const header = Buffer.alloc(HEADER_BYTES);
  header.writeUInt8(kind, 0);
  header.writeUInt32BE(content.length, 1);
  return Buffer.concat([header, content]);
}

/** The frames in a stream of bytes cut anywhere. @throws ArchiveFailure when the bytes are no frames, or end inside one */
export async function* decodeFrames(bytes: AsyncIterable<Buffer>): AsyncGenerator<Frame> {
  let held: Buffer = Buffer.alloc(0);
  for await (const chunk of bytes) {
    held = held.length === 0 ? chunk : Buffer.concat([held, chunk]);
    while (held.length >= HEADER_BYTES) {
      const kind = held.readUInt8(0);
      const length = held.readUInt32BE(1);
      if ((kind !== NOTE && kind !== ROWS) || length > LONGEST_FRAME_BYTES) throw new ArchiveFailure("not-an-archive");
      if (held.length < HEADER_BYTES + length) break;
      const content = held.subarray(HEADER_BYTES, HEADER_BYTES + length);
      held = held.subarray(HEADER_BYTES + length);
      if (kind === ROWS) yield { kind: "rows", bytes: content };
      else yield { kind: "note", note: JSON.parse(content.toString("utf8")) as Note };
    }
  }
  if (held.length > 0) throw new ArchiveFailure("cut-short");
}

import * as z from "zod";
import { ArchiveFailure } from "./failure";

/** An archive is a run of frames: what it is (one byte), its length (four bytes), its content. */
export type Frame = { readonly kind: "note"; readonly note: Note } | { readonly kind: "rows"; readonly bytes: Buffer };

const migrationMark = z.strictObject({ name: z.string(), checksum: z.string() });
const sequencePosition = z.strictObject({ name: z.string(), value: z.string() });
const noteShape = z.discriminatedUnion("is", [
  z.strictObject({
    is: z.literal("head"),
    format: z.literal(1),
    madeAt: z.string(),
    migrations: z.array(migrationMark).readonly(),
  }),
  z.strictObject({ is: z.literal("table"), table: z.string(), columns: z.array(z.string()).readonly() }),
  z.strictObject({ is: z.literal("table-end"), table: z.string(), rows: z.number(), sha256: z.string() }),
  z.strictObject({ is: z.literal("sequences"), sequences: z.array(sequencePosition).readonly() }),
  z.strictObject({ is: z.literal("end"), tables: z.number() }),
]);

export type MigrationMark = z.infer<typeof migrationMark>;
export type Note = z.infer<typeof noteShape>;

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
      else yield { kind: "note", note: decodeNote(content) };
    }
  }
  if (held.length > 0) throw new ArchiveFailure("cut-short");
}

function decodeNote(content: Buffer): Note {
  try {
    return noteShape.parse(JSON.parse(content.toString("utf8")));
  } catch {
    throw new ArchiveFailure("damaged");
  }
}

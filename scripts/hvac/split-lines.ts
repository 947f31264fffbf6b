import type { Readable } from "node:stream";

export interface Line {
  /** Counted from 1, blank lines included. */
  readonly number: number;
  /** null where the line is too long to be a question or is not UTF-8. */
  readonly text: string | null;
}

const LONGEST_LINE_BYTES = 64 << 20;
const NEWLINE = 0x0a;

/** The lines of a stream, as many at a time as one chunk completes; blank ones are skipped. */
export async function* splitLines(input: Readable): AsyncGenerator<readonly Line[]> {
  const decoder = new TextDecoder("utf-8", { fatal: true });
  let pending: Buffer[] = [];
  let pendingBytes = 0;
  let number = 0;
  const finish = (lines: Line[]) => {
    number++;
    const text = pendingBytes > LONGEST_LINE_BYTES ? null : decode(decoder, Buffer.concat(pending, pendingBytes));
    pending = [];
    pendingBytes = 0;
    if (text === null || text.trim() !== "") lines.push({ number, text });
  };
  const keep = (part: Buffer) => {
    pendingBytes += part.length;
    if (pendingBytes <= LONGEST_LINE_BYTES) pending.push(part);
    else pending = []; // too long already: only its end is looked for
  };
  for await (const chunk of input as AsyncIterable<Buffer>) {
    const lines: Line[] = [];
    let start = 0;
    for (let end = chunk.indexOf(NEWLINE); end >= 0; end = chunk.indexOf(NEWLINE, start)) {
      keep(chunk.subarray(start, end));
      finish(lines);
      start = end + 1;
    }
    if (start < chunk.length) keep(chunk.subarray(start));
    yield lines;
  }
  if (pendingBytes > 0) {
    const lines: Line[] = [];
    finish(lines);
    yield lines;
  }
}

function decode(decoder: TextDecoder, bytes: Buffer): string | null {
  try {
    return decoder.decode(bytes);
  } catch {
    return null;
  }
}

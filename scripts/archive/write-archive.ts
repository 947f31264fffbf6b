import { createHash } from "node:crypto";
import { createWriteStream } from "node:fs";
import { rename, rm } from "node:fs/promises";
import { Readable } from "node:stream";
import { pipeline } from "node:stream/promises";
import { createGzip } from "node:zlib";
import type { Client } from "pg";
import { to as copyTo } from "pg-copy-streams";
import { encodeNote, encodeRows } from "./frames";
import { listMigrations, listSequences, listTables, type TableToCopy } from "./tables";

const NEWLINE = 10;

export interface ArchiveContent {
  readonly tables: number;
  readonly rows: number;
}

/** Writes everything in the database, as it is at one moment, into one compressed file that only its owner can read. */
export async function writeArchive(migrator: Client, file: string, now: Date): Promise<ArchiveContent> {
  const unfinished = `${file}.unfinished`;
  const content = { tables: 0, rows: 0 };
  await migrator.query("begin isolation level repeatable read read only");
  try {
    await migrator.query("set local row_security = off"); // an error, rather than a backup of what a policy lets through
    const frames = Readable.from(archive(migrator, now, content), { objectMode: false });
    await pipeline(frames, createGzip({ level: 6 }), createWriteStream(unfinished, { mode: 0o600, flags: "w" }));
    await rename(unfinished, file);
    return content;
  } finally {
    await rm(unfinished, { force: true });
    await migrator.query("rollback").catch(() => {}); // nothing was written; a lost connection said so already
  }
}

async function* archive(client: Client, now: Date, content: { tables: number; rows: number }): AsyncGenerator<Buffer> {
  const migrations = await listMigrations(client);
  yield encodeNote({ is: "head", format: 1, madeAt: now.toISOString(), migrations });
  for (const table of await listTables(client)) {
    content.tables += 1;
    content.rows += yield* tableFrames(client, table);
  }
  yield encodeNote({ is: "sequences", sequences: await listSequences(client) });
  yield encodeNote({ is: "end", tables: content.tables });
}

async function* tableFrames(client: Client, { table, columns }: TableToCopy): AsyncGenerator<Buffer, number> {
  yield encodeNote({ is: "table", table, columns });
  const digest = createHash("sha256");
  let rows = 0;
  for await (const chunk of client.query(copyTo(`copy ${table} (${columns.join(", ")}) to stdout`))) {
    const bytes = chunk as Buffer;
    digest.update(bytes);
    rows += countNewlines(bytes); // the text form escapes those inside values
    yield encodeRows(bytes);
  }
  yield encodeNote({ is: "table-end", table, rows, sha256: digest.digest("hex") });
  return rows;
}

function countNewlines(bytes: Buffer): number {
  let found = 0;
  for (let at = bytes.indexOf(NEWLINE); at !== -1; at = bytes.indexOf(NEWLINE, at + 1)) found += 1;
  return found;
}

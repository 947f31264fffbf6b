import { createHash } from "node:crypto";
import { once } from "node:events";
import { createReadStream } from "node:fs";
import { finished } from "node:stream/promises";
import { createGunzip } from "node:zlib";
import { type Client, DatabaseError } from "pg";
import { from as copyFrom } from "pg-copy-streams";
import { ArchiveFailure } from "./failure";
import { decodeFrames, type Frame, type Note } from "./frames";
import { listMigrations, listTables } from "./tables";
import type { ArchiveContent } from "./write-archive";

/** PostgreSQL's classes "data exception" and "integrity constraint violation". */
const SAYS_BAD_ROWS = /^2[23]/;

/** Fills an empty, migrated database from an archive, wholly or not at all. @throws ArchiveFailure */
export async function readArchive(migrator: Client, file: string): Promise<ArchiveContent> {
  await migrator.query("begin");
  try {
    await migrator.query("set local row_security = off");
    const tables = new Map((await listTables(migrator)).map(({ table, columns }) => [table, columns]));
    for (const table of tables.keys()) {
      await migrator.query(`lock table ${table} in exclusive mode`);
      const { rowCount } = await migrator.query(`select from ${table} limit 1`);
      if (rowCount !== 0) throw new ArchiveFailure("not-empty", table);
    }
    // What triggers keep is in the archive already; kept again beside it, it would be counted twice.
    for (const table of tables.keys()) await migrator.query(`alter table ${table} disable trigger user`);
    const content = await fill(migrator, decodeFrames(unzipped(file)), tables);
    for (const table of tables.keys()) await migrator.query(`alter table ${table} enable trigger user`);
    await migrator.query("commit");
    await migrator.query("analyze"); // until the server does by itself, pages of a large company would take minutes
    return content;
  } catch (error) {
    await migrator.query("rollback").catch(() => {}); // the first error says more
    throw error;
  }
}

async function fill(client: Client, frames: AsyncGenerator<Frame>, tables: ReadonlyMap<string, readonly string[]>) {
  await requireSameVersion(client, await nextNote(frames));
  const content = { tables: 0, rows: 0 };
  for (;;) {
    const note = await nextNote(frames);
    if (note.is === "table") {
      if (tables.get(note.table)?.join() !== note.columns.join()) throw new ArchiveFailure("other-version", note.table);
      content.tables += 1;
      content.rows += await fillTable(client, frames, note);
    } else if (note.is === "sequences") {
      for (const { name, value } of note.sequences) await client.query("select setval($1, $2)", [name, value]);
    } else if (note.is === "end" && note.tables === content.tables && note.tables === tables.size) {
      if (!(await frames.next()).done) throw new ArchiveFailure("damaged"); // reads to the end, so that gzip's own check runs
      return content;
    } else throw new ArchiveFailure("damaged");
  }
}

async function requireSameVersion(client: Client, head: Note) {
  if (head.is !== "head") throw new ArchiveFailure("not-an-archive");
  const marks = (migrations: readonly { name: string; checksum: string }[]) =>
    migrations.map(({ name, checksum }) => `${name} ${checksum}`).join();
  if (marks(head.migrations) === marks(await listMigrations(client))) return;
  throw new ArchiveFailure("other-version", `its last migration is ${head.migrations.at(-1)?.name ?? "none"}`);
}

async function fillTable(
  client: Client,
  frames: AsyncGenerator<Frame>,
  start: Note & { is: "table" },
): Promise<number> {
  const copy = client.query(copyFrom(`copy ${start.table} (${start.columns.join(", ")}) from stdin`));
  const done = finished(copy);
  done.catch(() => {}); // awaited below; a failure while rows are still sent must not end the process
  const digest = createHash("sha256");
  try {
    for await (const frame of untilNote(frames)) {
      if (frame.kind === "note") {
        const { note } = frame;
        const whole = note.is === "table-end" && note.table === start.table && note.sha256 === digest.digest("hex");
        if (!whole) throw new ArchiveFailure("damaged", start.table);
        copy.end();
        await done;
        return note.rows;
      }
      digest.update(frame.bytes);
      if (!copy.write(frame.bytes)) await Promise.race([once(copy, "drain"), done]);
    }
    throw new ArchiveFailure("cut-short");
  } catch (error) {
    if (!copy.destroyed) copy.end(); // the transaction takes back what was sent
    const told = await done.then(
      () => error,
      (refused: unknown) => refused, // a stream the server has refused fails in its own way when it is written to
    );
    if (error instanceof ArchiveFailure) throw error; // what the file lacks, not what the server made of its half
    for (const each of [error, told])
      if (each instanceof DatabaseError && SAYS_BAD_ROWS.test(each.code ?? ""))
        throw new ArchiveFailure("damaged", `${start.table}: ${each.message}`);
    throw error;
  }
}

/** The frames up to and with the next note; leaves the rest for the next reader. */
async function* untilNote(frames: AsyncGenerator<Frame>): AsyncGenerator<Frame> {
  for (;;) {
    const next = await frames.next();
    if (next.done) return;
    yield next.value;
    if (next.value.kind === "note") return;
  }
}

async function nextNote(frames: AsyncGenerator<Frame>): Promise<Note> {
  const next = await frames.next();
  if (next.done) throw new ArchiveFailure("cut-short");
  if (next.value.kind !== "note") throw new ArchiveFailure("damaged");
  return next.value.note;
}

async function* unzipped(file: string): AsyncGenerator<Buffer> {
  const source = createReadStream(file);
  const unzip = createGunzip();
  let begun = false;
  source.once("error", (error) => unzip.destroy(error));
  try {
    for await (const chunk of source.pipe(unzip)) {
      begun = true;
      yield chunk as Buffer;
    }
  } catch (error) {
    const code = (error as NodeJS.ErrnoException).code ?? "";
    if (code === "Z_BUF_ERROR") throw new ArchiveFailure("cut-short");
    if (code.startsWith("Z_")) throw new ArchiveFailure(begun ? "damaged" : "not-an-archive");
    throw error;
  } finally {
    source.destroy();
  }
}

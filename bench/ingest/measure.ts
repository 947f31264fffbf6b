import { createHash } from "node:crypto";
import { once } from "node:events";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { Client } from "pg";
import { from as copyFrom } from "pg-copy-streams";
import { v7 as uuidv7 } from "uuid";
import { prepareDatabase } from "@/lib/embedded/roles";
import { startEmbedded } from "@/lib/embedded/server";
import type { CompanyId, JobId, PersonId, TraceId } from "@/lib/ids";
import { packChunk } from "@/lib/sync/trace-chunk";
import { migrateDatabase } from "@/prisma/migrate";
import { seedDemo } from "@/scripts/seed-demo";

// Runs with the server's condition, in a process of its own; prints what it measured as JSON.

const SAMPLES = 4096;
const CHUNKS = 600;
const ROUNDS = 5;
const UPLOADS_AT_ONCE = 8;

interface Place {
  readonly company: CompanyId;
  readonly job: JobId;
  readonly person: PersonId;
}

const dataFolder = mkdtempSync(join(tmpdir(), "dryhold-ingest-"));
const server = await startEmbedded({ projectFolder: process.cwd(), dataFolder });
try {
  const urls = await prepareDatabase(server);
  await migrateDatabase(urls);
  await seedDemo(urls);
  process.env.DATABASE_URL = urls.databaseUrl;
  const { receiveChunk } = await import("@/lib/db/receive-chunk");
  const migrator = new Client({ connectionString: urls.migratorUrl });
  await migrator.connect();
  const { rows } = await migrator.query<Place>(
    "select j.tenant_id as company, j.id as job, m.person_id as person from circuit_job j join member m on m.tenant_id = j.tenant_id where 'technician' = any (m.roles) limit 1",
  );
  const place = rows[0]!;
  const chunks = Array.from({ length: CHUNKS }, (_, at) => gaugeChunk(at));

  const receive = async (atOnce: number) => {
    const trace = uuidv7() as TraceId;
    let next = 0;
    const upload = async () => {
      for (let index = next++; index < CHUNKS; index = next++) {
        const at = { jobId: place.job, traceId: trace, index, personId: place.person };
        const taken = await receiveChunk(place.company, at, chunks[index]!);
        if (!taken.ok) throw new Error(taken.error.code);
      }
    };
    return perSecond(() => Promise.all(Array.from({ length: atOnce }, upload)));
  };
  const copy = async (chunksPerCommit: number) => {
    const trace = uuidv7();
    await migrator.query("insert into trace (tenant_id, id, job_id, person_id) values ($1, $2, $3, $4)", [
      place.company,
      trace,
      place.job,
      place.person,
    ]);
    const lines = chunks.map(
      (packed, at) =>
        `${place.company}\t${trace}\t${at}\t${SAMPLES}\t\\\\x${packed.toString("hex")}\t\\\\x${createHash("sha256").update(packed).digest("hex")}\n`,
    );
    return perSecond(async () => {
      for (let at = 0; at < CHUNKS; at += chunksPerCommit) {
        const stream = migrator.query(
          copyFrom("copy trace_chunk (tenant_id, trace_id, chunk_index, sample_count, packed, digest) from stdin"),
        );
        stream.end(lines.slice(at, at + chunksPerCommit).join(""));
        await once(stream, "finish");
      }
    });
  };

  // In turns, so that a busy moment of the machine is everybody's; the middle of the rounds counts.
  const took: Record<"received" | "receivedAlone" | "copied" | "copiedEach", number[]> = {
    received: [],
    receivedAlone: [],
    copied: [],
    copiedEach: [],
  };
  for (let round = 0; round < ROUNDS; round++) {
    took.copied.push(await copy(CHUNKS));
    took.received.push(await receive(UPLOADS_AT_ONCE));
    took.copiedEach.push(await copy(1));
    took.receivedAlone.push(await receive(1));
  }
  await migrator.end();
  console.log(JSON.stringify({ bytesPerSample: chunks[0]!.length / SAMPLES, ...took }));
} finally {
  await server.release();
  rmSync(dataFolder, { recursive: true, force: true });
}
process.exit(); // the application's connections would wait for more

/** A gauge at one sample a second: its clock a few milliseconds off each time, its value rising and trembling, a temperature beside it. */
function gaugeChunk(at: number): Buffer {
  let state = at * 2654435761 + 1;
  const small = (most: number) => {
    state = (Math.imul(state ^ (state >>> 15), 0x2c1b3c6d) + 0x9e3779b9) >>> 0;
    return state % most;
  };
  const samples = Array.from({ length: SAMPLES }, (_, n) => ({
    atMs: 1_764_000_000_000 + (at * SAMPLES + n) * 1000 + small(20),
    value: 310 + Math.round(120 * (1 - Math.exp(-n / 900))) + small(4),
    temperatureC: 21 + small(4) / 10,
  }));
  const packed = packChunk({ unit: "micron", samples });
  if (!packed.ok) throw new Error(packed.error.code);
  return Buffer.from(packed.value);
}

async function perSecond(work: () => Promise<unknown>): Promise<number> {
  const startedAt = performance.now();
  await work();
  return (CHUNKS * SAMPLES) / ((performance.now() - startedAt) / 1000);
}

import { createHash } from "node:crypto";
import { v7 as uuidv7 } from "uuid";
import { afterAll, beforeAll, beforeEach, describe, expect, test, vi } from "vitest";
import { listExceptions } from "@/lib/db/exceptions";
import { refreshJob } from "@/lib/db/job-summary";
import { receiveChunk } from "@/lib/db/receive-chunk";
import { receiveEntries } from "@/lib/db/receive-entries";
import { withTenant } from "@/lib/db/tenant";
import { findChunk, listTraces, readTraces } from "@/lib/db/traces";
import { EntryId, InstallationId, type JobId, TraceId } from "@/lib/ids";
import { makeEntry } from "@/lib/sync/protocol";
import { traceDigest } from "@/lib/sync/trace";
import { packChunk, type TraceUnit } from "@/lib/sync/trace-chunk";
import { recordOf } from "../hvac/procedure/evidence-samples";
import { withConnection } from "./fresh-database";
import { anotherJob, type Planted, type TwoCompanies, twoCompanies } from "./two-companies";

let database: TwoCompanies;
let job: JobId;
let traceId: TraceId;
beforeAll(async () => {
  database = await twoCompanies();
});
afterAll(() => database.drop());
beforeEach(async () => {
  job = await anotherJob(database.alder);
  traceId = TraceId.parse(uuidv7());
});

/** A chunk of 600 samples, one a second. */
function chunk(from = 0, unit: TraceUnit = "micron"): Uint8Array<ArrayBuffer> {
  const samples = Array.from({ length: 600 }, (_, n) => ({ atMs: (from + n) * 1000, value: 300 + n / 10 }));
  const packed = packChunk({ unit, samples });
  if (!packed.ok) throw new Error(packed.error.code);
  return new Uint8Array(packed.value);
}
const put = (index: number, bytes: Uint8Array<ArrayBuffer>, at: Planted = database.alder, jobId = job) =>
  receiveChunk(at.company, { jobId, traceId, index, personId: at.technician.personId }, bytes);
const sha256 = (bytes: Uint8Array) => createHash("sha256").update(bytes).digest("hex");
const inAlder = <T>(work: Parameters<typeof withTenant<T>>[1]) => withTenant(database.alder.company, work);

describe("a chunk of readings", () => {
  test("comes back byte for byte, under its own digest", async () => {
    const bytes = chunk();
    expect(await put(0, bytes)).toEqual({ ok: true, value: sha256(bytes) });
    expect(await inAlder((tx) => findChunk(tx, job, traceId, 0))).toEqual(bytes);
    expect(await inAlder((tx) => listTraces(tx, job))).toEqual([
      { traceId, chunks: [{ index: 0, digest: sha256(bytes), sampleCount: 600 }] },
    ]);
  });

  test("sent again, also over two connections at once, is kept once", async () => {
    const answers = await Promise.all([put(0, chunk()), put(0, chunk()), put(0, chunk())]);
    expect(answers.every(({ ok }) => ok)).toBe(true);
    expect((await inAlder((tx) => listTraces(tx, job)))[0]!.chunks).toHaveLength(1);
  });

  test("never takes the place of another", async () => {
    await put(0, chunk());
    expect(await put(0, chunk(1))).toEqual({ ok: false, error: { code: "chunk-used-otherwise" } });
    expect(await inAlder((tx) => findChunk(tx, job, traceId, 0))).toEqual(chunk());
  });

  test.each([
    ["nothing", new Uint8Array()],
    ["zeros", new Uint8Array(64)],
    ["text", new TextEncoder().encode("0,300\n1,301\n")],
    ["a chunk cut short", chunk().subarray(0, 900)],
    ["a chunk with more behind it", new Uint8Array([...chunk(), 0])],
  ])("that is %s is refused before anything is written", async (_what, bytes) => {
    expect(await put(0, new Uint8Array(bytes))).toMatchObject({ ok: false, error: { code: "not-a-chunk" } });
    expect(await inAlder((tx) => listTraces(tx, job))).toEqual([]);
  });

  test("of a job of another company looks like one of no job, and cannot be read there", async () => {
    await put(0, chunk());
    const notFound = { ok: false, error: { code: "not-found" } };
    expect(await put(0, chunk(), database.birch)).toEqual(notFound);
    expect(await put(0, chunk(), database.birch, uuidv7() as JobId)).toEqual(notFound);
    const seen = await withTenant(database.birch.company, async (tx) => ({
      chunk: await findChunk(tx, job, traceId, 0),
      traces: await listTraces(tx, job),
    }));
    expect(seen).toEqual({ chunk: null, traces: [] });
  });

  test("of a trace that belongs to another job is refused", async () => {
    await put(0, chunk());
    const other = await anotherJob(database.alder);
    expect(await put(1, chunk(600), database.alder, other)).toEqual({ ok: false, error: { code: "not-found" } });
  });
});

describe("a trace is read", () => {
  const read = async () => (await inAlder((tx) => readTraces(tx, job))).get(traceId);

  test("whole when its chunks came in any order", async () => {
    for (const index of [2, 0, 1]) await put(index, chunk(index * 600));
    const trace = await read();
    expect(trace?.samples).toHaveLength(1800);
    expect(trace?.samples.map(({ atMs }) => atMs)).toEqual(Array.from({ length: 1800 }, (_, n) => n * 1000));
  });

  test("up to the first gap", async () => {
    for (const index of [0, 2]) await put(index, chunk(index * 600));
    expect((await read())?.samples).toHaveLength(600);
  });

  test("up to where another unit begins: its numbers mean something else", async () => {
    await put(0, chunk());
    await put(1, chunk(600, "Pa"));
    expect((await read())?.samples).toHaveLength(600);
  });
});

describe("a chunk that comes after the entry that names its trace", () => {
  test("has the job judged again, on the lists too", async () => {
    const { alder } = database;
    const bytes = chunk();
    const named = { traceId, sampleCount: 600, digest: traceDigest([sha256(bytes)]) };
    const evidence = { record: { kept: "trace", trace: named }, source: "bluetooth" } as const;
    const author = {
      company: alder.company,
      job,
      installation: InstallationId.parse(uuidv7()),
      person: alder.technician.personId,
    };
    const writing = {
      id: EntryId.parse(uuidv7()),
      seq: 1,
      heads: [],
      deviceAt: "2026-11-25T08:00:00.000Z",
      clockOffsetMs: 0,
    };
    const entry = makeEntry(author, writing, { kind: "step-recorded", body: recordOf("hold", evidence) });
    await inAlder((tx) => receiveEntries(tx, alder.technician, [entry]));
    const summary = () => inAlder((tx) => tx.circuitJob.findFirst({ where: { id: job }, select: { summary: true } }));
    const before = await summary();
    await put(0, bytes);
    const after = await summary();
    expect(after).not.toEqual(before);
    await inAlder((tx) => refreshJob(tx, job));
    expect(await summary()).toEqual(after);
  });
});

test("an entry is taken also on a job whose log can no longer be folded, and the job asks for a look", async () => {
  const { alder } = database;
  await put(0, chunk());
  await withConnection(database.adminUrl, (admin) =>
    admin.query("update trace_chunk set packed = '\\x00' where trace_id = $1", [traceId]),
  );
  const author = {
    company: alder.company,
    job,
    installation: InstallationId.parse(uuidv7()),
    person: alder.technician.personId,
  };
  const writing = {
    id: EntryId.parse(uuidv7()),
    seq: 1,
    heads: [],
    deviceAt: "2026-11-25T08:00:00.000Z",
    clockOffsetMs: 0,
  };
  const entry = makeEntry(author, writing, { kind: "note", body: { text: "all the same", photos: [] } });
  const told = vi.spyOn(console, "error").mockImplementation(() => {});
  const { receipts } = await inAlder((tx) => receiveEntries(tx, alder.technician, [entry]));
  expect(receipts.map(({ id }) => id)).toEqual([entry.id]);
  expect(told).toHaveBeenCalledOnce();
  told.mockRestore();
  const { toReview } = await inAlder((tx) => listExceptions(tx, "2026-11-25"));
  expect(toReview.find(({ id }) => id === job)).toMatchObject({
    state: "needs-review",
    reviews: [expect.stringContaining("cannot be read")],
  });
});

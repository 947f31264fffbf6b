import { sha256 } from "@noble/hashes/sha2.js";
import { bytesToHex } from "@noble/hashes/utils.js";
import { v7 } from "uuid";
import type { TraceReference } from "@/lib/hvac/procedure";
import type { JobId, TraceId } from "@/lib/ids";
import { err, ok, type Result } from "@/lib/result";
import { type KnownTrace, traceDigest } from "../trace";
import {
  MAX_SAMPLES_PER_CHUNK,
  type PackError,
  packChunk,
  type TraceSample,
  type TraceUnit,
  unpackChunk,
} from "../trace-chunk";
import type { ChunkRow, Desk } from "./device-rows";
import type { DeviceStore } from "./device-store";

/** Keeps a whole record of samples on disk, in chunks to be sent, and gives the reference an entry names it by. */
export async function keepTrace(
  store: DeviceStore,
  desk: Desk,
  job: JobId,
  unit: TraceUnit,
  samples: readonly TraceSample[],
): Promise<Result<TraceReference, PackError>> {
  const trace = v7() as TraceId;
  const rows: ChunkRow[] = [];
  for (let from = 0; from < samples.length; from += MAX_SAMPLES_PER_CHUNK) {
    const packed = packChunk({ unit, samples: samples.slice(from, from + MAX_SAMPLES_PER_CHUNK) });
    if (!packed.ok) return packed;
    const digest = chunkDigest(packed.value);
    rows.push({ ...desk, trace, index: rows.length, job, packed: packed.value, digest, sentAt: null });
  }
  if (rows.length === 0) return err({ code: "no-samples" });
  await store.transaction("rw", ["chunks"], async ({ chunks }) => {
    for (const row of rows) await chunks.add(row);
  });
  return ok({ traceId: trace, sampleCount: samples.length, digest: traceDigest(rows.map((row) => row.digest)) });
}

/** @source FIPS 180-4 (SHA-256), over the packed bytes as they are sent */
export function chunkDigest(packed: Uint8Array): string {
  return bytesToHex(sha256(packed));
}

/** A trace out of its chunks in order; chunks that do not read are left out, which the trace's digest then shows. */
export function traceOfChunks(chunks: readonly Pick<ChunkRow, "packed" | "digest">[]): KnownTrace {
  const samples: TraceSample[] = [];
  let unit: TraceUnit = "micron";
  for (const { packed } of chunks) {
    const chunk = unpackChunk(packed);
    if (!chunk.ok) continue;
    unit = chunk.value.unit;
    for (const sample of chunk.value.samples) samples.push(sample);
  }
  return { unit, samples, chunkDigests: chunks.map(({ digest }) => digest) };
}

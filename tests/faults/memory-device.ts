import { v4, v7 } from "uuid";
import type { Entry, LogEntry, Stamp } from "@/lib/hvac/procedure";
import { type EntryId, InstallationId, type JobId, type TraceId } from "@/lib/ids";
import { type Ask, chunkDigest, type Desk, traceOfChunks } from "@/lib/sync/device";
import { headsOf, listOwed, makeEntry, mergeEntries, nextSeq, stamped, unstamped } from "@/lib/sync/protocol";
import { traceDigest } from "@/lib/sync/trace";
import { packChunk } from "@/lib/sync/trace-chunk";
import type { FieldDevice } from "./field-device";

interface Chunk {
  readonly trace: TraceId;
  readonly index: number;
  readonly packed: Uint8Array;
  readonly digest: string;
  sent: boolean;
}

/**
 * The plainest device that keeps the rules of the log: arrays, one entry a request, everything sent again until it is answered.
 * It shares the pure protocol with the product and nothing of its outbox, so that a fault of the one shows against the other.
 */
export function memoryDevice(desk: Desk, job: JobId, ask: Ask): FieldDevice {
  const installation = InstallationId.parse(v4());
  const author = { company: desk.company, job, installation, person: desk.person };
  let log: LogEntry[] = [];
  const chunks: Chunk[] = [];
  const problems = new Set<EntryId>();
  const lives = new Set<object>();
  let full = false;
  let highest = 0;
  const standing = () => log.filter(({ id }) => !problems.has(id));
  const take = (entries: readonly LogEntry[]) => {
    if (full) throw new DOMException("The disk is full.", "QuotaExceededError");
    log = mergeEntries(log, entries).entries;
    for (const { id } of entries) problems.delete(id);
  };
  const born = () => {
    const life = {};
    lives.add(life);
    return { alive: () => lives.has(life) };
  };

  return {
    person: desk.person,
    async write(content, nowMs) {
      if (full) throw new DOMException("The disk is full.", "QuotaExceededError");
      const seen = standing();
      const heads = headsOf(seen);
      const writing = {
        id: v7({ msecs: nowMs }) as EntryId,
        seq: Math.max(highest + 1, nextSeq(log, author)),
        heads,
        deviceAt: new Date(nowMs).toISOString(),
        clockOffsetMs: null,
      };
      const entry = makeEntry(author, writing, content(seen, heads));
      highest = entry.seq;
      log = [...log, unstamped(entry)];
      return entry;
    },
    async keepTrace(samples) {
      if (full) throw new DOMException("The disk is full.", "QuotaExceededError");
      const packed = packChunk({ unit: "micron", samples });
      if (!packed.ok) throw new Error(packed.error.code);
      const trace = v7() as TraceId;
      const digest = chunkDigest(packed.value);
      chunks.push({ trace, index: 0, packed: packed.value, digest, sent: false });
      return { traceId: trace, sampleCount: samples.length, digest: traceDigest([digest]) };
    },
    async send() {
      const { alive } = born();
      for (const chunk of chunks.filter(({ sent }) => !sent)) {
        const path = `/api/${desk.slug}/jobs/${job}/traces/${chunk.trace}/chunks/${chunk.index}`;
        const answer = await ask(path, { method: "PUT", body: chunk.packed.slice() }).catch(() => null);
        if (!answer || answer.status >= 500 || answer.status === 401) return "not-sent";
        if (alive() && answer.ok) chunk.sent = true;
      }
      for (const owed of listOwed(standing(), installation)) {
        const { stamp: _none, ...entry } = owed;
        const body = JSON.stringify({ entries: [entry] });
        const answer = await ask(`/api/${desk.slug}/entries`, { method: "POST", body }).catch(() => null);
        if (!answer || (!answer.ok && answer.status !== 422)) return "not-sent";
        const told = (await answer.json().catch(() => null)) as { receipts: { stamp: Stamp }[] } | null;
        if (!told || !alive()) return "not-sent";
        const stamp = told.receipts[0]?.stamp;
        if (stamp) take([stamped(entry as Entry, stamp)]);
        else problems.add(owed.id);
      }
      return "all-sent";
    },
    async fetch() {
      const { alive } = born();
      const answer = await ask(`/api/${desk.slug}/jobs/${job}/log`, {}).catch(() => null);
      if (!answer?.ok) return "not-fetched";
      const told = (await answer.json().catch(() => null)) as {
        entries: LogEntry[];
        traces: { traceId: TraceId; chunks: { index: number }[] }[];
      } | null;
      if (!told || !alive()) return "not-fetched";
      take(told.entries);
      for (const { traceId: trace, chunks: named } of told.traces) {
        for (const { index } of named) {
          if (chunks.some((each) => each.trace === trace && each.index === index)) continue;
          const bytes = await ask(`/api/${desk.slug}/jobs/${job}/traces/${trace}/chunks/${index}`, {}).catch(
            () => null,
          );
          if (!bytes?.ok) return "not-fetched";
          const packed = new Uint8Array(await bytes.arrayBuffer());
          if (alive()) chunks.push({ trace, index, packed, digest: chunkDigest(packed), sent: true });
        }
      }
      return "fresh";
    },
    // Its disk is memory: what dies is what was under way.
    kill: async () => lives.clear(),
    setFull(now) {
      full = now;
    },
    async held() {
      const ids = [...new Set(chunks.map(({ trace }) => trace))];
      const of = (id: TraceId) => chunks.filter(({ trace }) => trace === id).sort((a, b) => a.index - b.index);
      return {
        entries: standing(),
        waiting: listOwed(standing(), installation).length + chunks.filter(({ sent }) => !sent).length,
        problems: [...problems],
        traces: new Map(ids.map((id) => [id, traceOfChunks(of(id))])),
      };
    },
    end: async () => {},
  };
}

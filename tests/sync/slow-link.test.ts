import { IDBFactory } from "fake-indexeddb";
import { v4 } from "uuid";
import { expect, test } from "vitest";
import type { CompanyId, JobId, PersonId } from "@/lib/ids";
import {
  type Ask,
  chunkDigest,
  type Desk,
  DeviceStore,
  keepTrace,
  pageLocks,
  sendOwed,
  writeEntry,
} from "@/lib/sync/device";
import type { TraceSample } from "@/lib/sync/trace-chunk";

const BYTES_PER_S = 20_000;
const HEAD_BYTES = 800; // a request's and an answer's heads, roughly
const desk: Desk = { company: v4() as CompanyId, slug: "north", person: v4() as PersonId };
const job = v4() as JobId;

/** Four hours of a gauge, once a second. */
const fourHours: TraceSample[] = Array.from({ length: 4 * 3600 }, (_, n) => ({
  atMs: 1_764_000_000_000 + n * 1000 + ((n * 7919) % 20),
  value: 310 + Math.round(90 * (1 - Math.exp(-n / 2000))) + ((n * 31) % 4),
  temperatureC: 21 + ((n * 17) % 5) / 10,
}));

/** A link that carries 20 kB a second by a clock of its own and breaks at the given seconds. */
function slowLink(breaksAtS: number[]) {
  const link = { nowS: 0, carriedBytes: 0, kept: new Map<string, string>(), entries: 0, wholeChunks: [] as string[] };
  const carry = (bytes: number) => {
    const endsS = link.nowS + bytes / BYTES_PER_S;
    const breakS = breaksAtS[0];
    if (breakS !== undefined && breakS < endsS) {
      breaksAtS.shift();
      link.carriedBytes += Math.max(0, breakS - link.nowS) * BYTES_PER_S;
      link.nowS = Math.max(link.nowS, breakS);
      throw new TypeError("network: the link broke");
    }
    link.carriedBytes += bytes;
    link.nowS = endsS;
  };
  const ask: Ask = async (path, request) => {
    const body =
      typeof request.body === "string" ? new TextEncoder().encode(request.body) : (request.body as Uint8Array);
    carry(HEAD_BYTES / 2 + body.length);
    if (path.includes("/chunks/")) {
      link.wholeChunks.push(path);
      const digest = chunkDigest(body);
      link.kept.set(path, digest);
      carry(HEAD_BYTES / 2);
      return Response.json({ digest });
    }
    const { entries } = JSON.parse(request.body as string) as { entries: { id: string }[] };
    link.entries += entries.length;
    carry(HEAD_BYTES / 2);
    const stamp = { receivedSeq: 1, receivedAt: "2026-01-05T10:00:00Z", roles: ["technician"] };
    return Response.json({ receipts: entries.map(({ id }) => ({ id, stamp })), quarantined: [] });
  };
  return { link, ask };
}

async function tabletWithFourHours() {
  const store = new DeviceStore("dryhold", { indexedDB: new IDBFactory() });
  const kept = await keepTrace(store, desk, job, "micron", fourHours);
  if (!kept.ok) throw new Error(kept.error.code);
  await writeEntry(store, pageLocks(), desk, job, { kind: "note", body: { text: "held four hours", photos: [] } });
  return store;
}
const bytesOf = async (store: DeviceStore) =>
  (await store.chunks.list()).reduce((sum, { packed }) => sum + packed.length, 0);

test("four hours at one reading a second are on the server within five seconds of a 20 kB/s link, and the entry after them", async () => {
  const store = await tabletWithFourHours();
  const { link, ask } = slowLink([]);
  expect(await sendOwed(store, pageLocks(), desk, ask)).toEqual({ code: "all-sent" });
  expect(link.nowS).toBeLessThan(5);
  expect(link.entries).toBe(1);
});

test.each([
  ["once in the middle", [1.7]],
  ["again and again", [0.3, 0.9, 1.6, 2.2, 2.9, 3.4, 4.4, 5.2]],
])("a link that breaks %s costs at most the chunk under way each time", async (_when, breaksAtS) => {
  const store = await tabletWithFourHours();
  const largest = Math.max(...(await store.chunks.list()).map(({ packed }) => packed.length));
  const { link, ask } = slowLink([...breaksAtS]);
  let rounds = 1;
  while ((await sendOwed(store, pageLocks(), desk, ask)).code !== "all-sent") rounds += 1;
  expect(rounds).toBe(breaksAtS.length + 1);
  const chunks = await store.chunks.list();
  expect([...link.kept.values()].sort()).toEqual(chunks.map(({ digest }) => digest).sort());
  const needed = (await bytesOf(store)) + (chunks.length + 1) * (HEAD_BYTES + 1000);
  expect(link.carriedBytes).toBeLessThanOrEqual(needed + breaksAtS.length * (largest + HEAD_BYTES));
  // What was acknowledged is not sent again: only a lost answer makes a chunk go twice.
  expect(link.wholeChunks.length).toBeLessThanOrEqual(chunks.length + breaksAtS.length);
});

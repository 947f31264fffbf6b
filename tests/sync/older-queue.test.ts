import Dexie from "dexie";
import { IDBFactory, IDBKeyRange } from "fake-indexeddb";
import { v4, v7 } from "uuid";
import { expect, test } from "vitest";
import type { Entry } from "@/lib/hvac/log/entry";
import type { CompanyId, EntryId, InstallationId, JobId, PersonId, TraceId } from "@/lib/ids";
import {
  countOutbox,
  type Desk,
  DeviceStore,
  listJobEntries,
  listTraces,
  pageLocks,
  sendOwed,
  writeEntry,
} from "@/lib/sync/device";
import { makeEntry } from "@/lib/sync/protocol";
import { packChunk } from "@/lib/sync/trace-chunk";

/*
 * What the first program wrote on tablets, written here as it did: version 10 of the store, through the library it used then.
 */

const desk: Desk = { company: v4() as CompanyId, slug: "north", person: v4() as PersonId };
const job = v4() as JobId;
const installation = v4() as InstallationId;

function entryOf(seq: number, heads: readonly EntryId[]): Entry {
  const writing = { id: v7() as EntryId, seq, heads, deviceAt: "2026-01-05T10:00:00.000Z", clockOffsetMs: null };
  const author = { company: desk.company, job, installation, person: desk.person };
  return makeEntry(author, writing, { kind: "note", body: { text: `note ${seq}`, photos: [] } });
}

async function writeAsTheFirstProgram(factory: IDBFactory) {
  const store = new Dexie("dryhold", { indexedDB: factory, IDBKeyRange });
  store.version(1).stores({
    outbox: "++order, &id, [company+person], [company+person+job]",
    log: "[company+person+job+id], [company+person+job]",
    sequences: "[installation+person+job]",
    chunks: "[trace+index], [company+person]",
    pages: "[company+person+name]",
    drafts: "[company+person+job+name]",
    kept: "name",
  });
  const first = entryOf(1, []);
  const second = entryOf(2, [first.id]);
  for (const entry of [first, second])
    await store.table("outbox").add({ ...desk, job, id: entry.id, entry, problem: null });
  await store.table("sequences").put({ installation, person: desk.person, job, last: 2 });
  await store.table("kept").put({ name: "installation", value: installation });
  await store.table("drafts").put({ ...desk, job, name: "hold", content: { note: "half typed" } });
  const packed = packChunk({ unit: "micron", samples: [{ atMs: 0, value: 300 }] });
  if (!packed.ok) throw new Error(packed.error.code);
  const chunk = { trace: v7() as TraceId, index: 0, job, packed: packed.value, digest: "d", sentAt: null };
  await store.table("chunks").add({ ...desk, ...chunk });
  store.close();
  return [first, second];
}

test("a queue the first program wrote is read, continued and sent in order by this one", async () => {
  const factory = new IDBFactory();
  const [first, second] = await writeAsTheFirstProgram(factory);
  const store = new DeviceStore("dryhold", { indexedDB: factory });
  expect(await countOutbox(store, desk)).toEqual({ waiting: 3, problems: 0 });
  expect((await listJobEntries(store, desk, job)).map(({ id }) => id)).toEqual([first?.id, second?.id]);
  expect((await store.drafts.get([desk.company, desk.person, job, "hold"]))?.content).toEqual({ note: "half typed" });
  expect([...(await listTraces(store, desk, job)).values()].map(({ samples }) => samples.length)).toEqual([1]);

  const third = await writeEntry(store, pageLocks(), desk, job, { kind: "note", body: { text: "after", photos: [] } });
  expect(third).toMatchObject({ seq: 3, installation, heads: [second?.id] });
  const sent: string[] = [];
  const outcome = await sendOwed(store, pageLocks(), desk, async (path, request) => {
    if (path.includes("/chunks/")) return Response.json({ digest: "d" });
    const { entries } = JSON.parse(String(request.body)) as { entries: Entry[] };
    sent.push(...entries.map(({ id }) => id));
    const stamp = { receivedSeq: 1, receivedAt: "2026-01-05T10:00:00Z", roles: ["technician"] };
    return Response.json({ receipts: entries.map(({ id }) => ({ id, stamp })), quarantined: [] });
  });
  expect(outcome).toEqual({ code: "all-sent" });
  expect(sent).toEqual([first?.id, second?.id, third.id]);
});

test("an older program does not open what a newer one has made, and harms nothing", async () => {
  const factory = new IDBFactory();
  const newer = new DeviceStore("dryhold", { indexedDB: factory });
  await writeEntry(newer, pageLocks(), desk, job, { kind: "note", body: { text: "kept", photos: [] } });
  newer.close();
  const older = new Dexie("dryhold", { indexedDB: factory, IDBKeyRange });
  older.version(1).stores({ outbox: "++order, &id" });
  await older.open().catch(() => undefined); // whether it opens or not
  older.close();
  expect((await countOutbox(new DeviceStore("dryhold", { indexedDB: factory }), desk)).waiting).toBe(1);
});

import { IDBFactory } from "fake-indexeddb";
import { v4 } from "uuid";
import { beforeEach, describe, expect, test } from "vitest";
import type { CompanyId, JobId, PersonId } from "@/lib/ids";
import {
  type Ask,
  confirmPerson,
  countOutbox,
  type Desk,
  DeviceStore,
  keepPicture,
  keepTrace,
  keptPerson,
  listJobEntries,
  pageLocks,
  signOutHere,
  writeEntry,
} from "@/lib/sync/device";
import { jpeg } from "./sample-pictures";

const company = v4() as CompanyId;
const job = v4() as JobId;
const desks = {
  ada: { company, slug: "north", person: v4() as PersonId },
  ben: { company, slug: "north", person: v4() as PersonId },
} satisfies Record<string, Desk>;
const keys = {
  ada: "QUFBQUFBQUFBQUFBQUFBQUFBQUFBQUFBQUFBQUFBQUE=",
  ben: "QkJCQkJCQkJCQkJCQkJCQkJCQkJCQkJCQkJCQkJCQkI=",
};

let store: DeviceStore;
let session: keyof typeof desks | null;
let reached: boolean;
const ask: Ask = async (path) => {
  if (!reached) throw new TypeError("network");
  if (path === "/api/auth/csrf") return Response.json({ csrfToken: "c" });
  if (path === "/api/auth/signout") {
    session = null;
    return Response.json({});
  }
  if (session === null) return new Response(null, { status: 401 });
  const { person } = desks[session];
  return Response.json({
    person: { id: person, name: session },
    company: { id: company, slug: "north", name: "North" },
    roles: ["technician"],
    tabletKey: keys[session],
  });
};
const note = (text: string) => ({ kind: "note" as const, body: { text, photos: [] } });
const signIn = (who: keyof typeof desks) => {
  session = who;
  return confirmPerson(store, "north", ask, true);
};
/** Everything on the device that can be read without a key. */
async function inTheClear(): Promise<string> {
  const shelves = [
    store.outbox,
    store.log,
    store.chunks,
    store.pictures,
    store.pages,
    store.drafts,
    store.kept,
  ] as const;
  return JSON.stringify(await Promise.all(shelves.map((shelf) => shelf.list())));
}

beforeEach(() => {
  store = new DeviceStore("dryhold", { indexedDB: new IDBFactory() });
  session = null;
  reached = true;
});

async function workUnsent() {
  await signIn("ada");
  reached = false;
  await writeEntry(store, pageLocks(), desks.ada, job, note("the compressor burned"));
  await writeEntry(store, pageLocks(), desks.ada, job, note("second"));
  await keepTrace(store, desks.ada, job, "micron", [{ atMs: 0, value: 300 }]);
  await keepPicture(store, desks.ada, job, jpeg());
  await store.drafts.put({ ...desks.ada, job, name: "hold", content: { note: "half typed" } });
  await store.pages.put({ ...desks.ada, name: "today", fetchedAt: "", content: "Larch Street 9" });
  reached = true;
}

describe("signing out with unsent work", () => {
  test("nothing of it can be read afterwards, and it is all there when the same person comes back", async () => {
    await workUnsent();
    const before = await listJobEntries(store, desks.ada, job);
    expect(await signOutHere(store, ask)).toBe("ended");
    expect(await inTheClear()).not.toMatch(/burned|second|half typed|Larch|ada/);
    expect(await store.locked.list()).toHaveLength(5);

    expect(await signIn("ada")).toMatchObject({ at: "confirmed", stillLocked: 0 });
    expect(await listJobEntries(store, desks.ada, job)).toEqual(before);
    expect(await countOutbox(store, desks.ada)).toEqual({ waiting: 3, problems: 0 });
    expect((await store.pictures.list())[0]?.bytes).toEqual(jpeg());
    expect((await store.drafts.get([company, desks.ada.person, job, "hold"]))?.content).toEqual({ note: "half typed" });
    expect(await store.locked.list()).toEqual([]);
    const next = await writeEntry(store, pageLocks(), desks.ada, job, note("third"));
    expect(next.seq).toBe(3);
  });

  test("the next person gets none of it, and a key of theirs opens nothing", async () => {
    await workUnsent();
    await signOutHere(store, ask);
    expect(await signIn("ben")).toMatchObject({ at: "confirmed", stillLocked: 0 });
    expect(await listJobEntries(store, desks.ben, job)).toEqual([]);
    keys.ada = keys.ben; // as if the server mixed keys up
    expect(await signIn("ada")).toMatchObject({ at: "confirmed", stillLocked: 5 });
    expect(await store.locked.list()).toHaveLength(5);
    keys.ada = "QUFBQUFBQUFBQUFBQUFBQUFBQUFBQUFBQUFBQUFBQUE=";
  });

  test("without a network the tablet shows nobody until the server was told that the session has ended", async () => {
    await workUnsent();
    reached = false;
    expect(await signOutHere(store, ask)).toBe("owed");
    expect(await inTheClear()).not.toMatch(/burned|Larch/);
    expect(await confirmPerson(store, "north", ask, false)).toEqual({ at: "nobody", because: "no-network" });
    reached = true;
    expect(await confirmPerson(store, "north", ask, false)).toEqual({ at: "nobody", because: "signed-out" });
    expect(session).toBeNull();
  });
});

describe("who is at the tablet", () => {
  test("a session that ran out leaves its person at work", async () => {
    await workUnsent();
    session = null;
    expect(await confirmPerson(store, "north", ask, false)).toMatchObject({ at: "kept", because: "signed-out" });
    expect((await countOutbox(store, desks.ada)).waiting).toBe(3);
  });

  test("a session that was ended on another page does not: the work is locked away", async () => {
    await workUnsent();
    session = null;
    expect(await confirmPerson(store, "north", ask, true)).toEqual({ at: "nobody", because: "signed-out" });
    expect(await inTheClear()).not.toMatch(/burned|Larch/);
  });

  test("somebody else signing in locks away whoever was there", async () => {
    await workUnsent();
    expect(await signIn("ben")).toMatchObject({ at: "confirmed", person: { name: "ben" } });
    expect(await inTheClear()).not.toMatch(/burned|Larch/);
    expect((await keptPerson(store, "north"))?.desk.person).toBe(desks.ben.person);
  });

  test("with no network a tablet that knows its person goes on, and one that does not shows nothing", async () => {
    reached = false;
    expect(await confirmPerson(store, "north", ask, false)).toEqual({ at: "nobody", because: "no-network" });
    reached = true;
    await signIn("ada");
    reached = false;
    expect(await confirmPerson(store, "north", ask, false)).toMatchObject({ at: "kept", person: { name: "ada" } });
    expect(await confirmPerson(store, "north", ask, true)).toEqual({ at: "nobody", because: "no-network" });
  });
});

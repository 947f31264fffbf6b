import { IDBFactory, IDBKeyRange } from "fake-indexeddb";
import fc from "fast-check";
import { v4 } from "uuid";
import { beforeEach, describe, expect, test } from "vitest";
import type { Entry, EntryContent } from "@/lib/hvac/log/entry";
import type { CompanyId, EntryId, JobId, PersonId } from "@/lib/ids";
import {
  type Ask,
  countOutbox,
  type Desk,
  DeviceStore,
  fetchLog,
  listJobEntries,
  listProblems,
  pageLocks,
  Sender,
  sendOwed,
  writeEntry,
} from "@/lib/sync/device";

const desk: Desk = { company: v4() as CompanyId, slug: "north", person: v4() as PersonId };
const job = v4() as JobId;
const note = (text: string): EntryContent => ({ kind: "note", body: { text, photos: [] } });

/** A server that keeps each id once and gives the same stamp again; what happens on the way is told to it. */
function makeServer() {
  const kept = new Map<EntryId, { entry: Entry; stamp: unknown }>();
  const requests: Entry[][] = [];
  const fates: ("arrives" | "lost-request" | "lost-answer" | 401 | 404 | 413 | 500)[] = [];
  const refuse = new Map<string, string>();
  const ask: Ask = async (path, request) => {
    const fate = fates.shift() ?? "arrives";
    if (fate === "lost-request") throw new TypeError("network");
    if (typeof fate === "number") return new Response(null, { status: fate });
    if (path.includes("/log?after=")) {
      const after = Number(path.split("after=")[1]);
      const entries = [...kept.values()]
        .filter(({ stamp }) => (stamp as { receivedSeq: number }).receivedSeq > after)
        .map(({ entry, stamp }) => ({ ...entry, stamp }));
      return Response.json({ job: { id: job }, entries, upTo: kept.size });
    }
    const { entries } = JSON.parse(String(request.body)) as { entries: Entry[] };
    requests.push(entries);
    const receipts: unknown[] = [];
    const quarantined: unknown[] = [];
    for (const [index, entry] of entries.entries()) {
      const reason = entry.kind === "note" ? refuse.get(entry.body.text) : undefined;
      if (reason) {
        quarantined.push({ index, id: entry.id, reason, message: "Your role does not write this." });
        continue;
      }
      const stamp = { receivedSeq: kept.size + 1, receivedAt: "2026-01-05T10:00:00Z", roles: ["technician"] };
      if (!kept.has(entry.id)) kept.set(entry.id, { entry, stamp });
      receipts.push({ id: entry.id, stamp: kept.get(entry.id)?.stamp });
    }
    if (fate === "lost-answer") throw new TypeError("network");
    return Response.json({ receipts, quarantined }, { status: quarantined.length === 0 ? 200 : 422 });
  };
  return { kept, requests, fates, refuse, ask };
}

let disk: { indexedDB: IDBFactory; IDBKeyRange: typeof IDBKeyRange };
const openTab = () => new DeviceStore("dryhold", disk);

beforeEach(() => {
  disk = { indexedDB: new IDBFactory(), IDBKeyRange };
});

describe("writing", () => {
  test("an entry is on disk when it says so: a page opened afterwards finds it", async () => {
    const tab = openTab();
    const entry = await writeEntry(tab, pageLocks(), desk, job, note("one"));
    tab.close();
    const again = openTab();
    expect((await listJobEntries(again, desk, job)).map(({ id }) => id)).toEqual([entry.id]);
    expect(await countOutbox(again, desk)).toEqual({ waiting: 1, problems: 0 });
  });

  test("two tabs writing at once give out each sequence once and make one chain", async () => {
    const [one, other] = [openTab(), openTab()];
    const [locks, otherLocks] = [pageLocks(), pageLocks()]; // not shared: only the disk parts them
    const written = await Promise.all(
      Array.from({ length: 12 }, (_, index) =>
        writeEntry(index % 2 ? one : other, index % 2 ? locks : otherLocks, desk, job, note(`note ${index}`)),
      ),
    );
    const bySeq = written.sort((a, b) => a.seq - b.seq);
    expect(bySeq.map(({ seq }) => seq)).toEqual(Array.from({ length: 12 }, (_, index) => index + 1));
    for (const [index, entry] of bySeq.entries()) {
      expect(entry.heads).toEqual(index === 0 ? [] : [bySeq[index - 1]?.id]);
      expect(entry.installation).toBe(bySeq[0]?.installation);
    }
  });

  test("a kill between taking the number and saving the entry costs neither", async () => {
    const tab = openTab();
    await writeEntry(tab, pageLocks(), desk, job, note("one"));
    const killed = writeEntry(tab, pageLocks(), desk, job, () => {
      throw new Error("killed here");
    });
    await expect(killed).rejects.toThrow("killed here");
    tab.close();
    const next = await writeEntry(openTab(), pageLocks(), desk, job, note("two"));
    expect(next.seq).toBe(2);
  });

  test("another person on the same tablet reads nothing of it", async () => {
    const tab = openTab();
    await writeEntry(tab, pageLocks(), desk, job, note("mine"));
    const other = { ...desk, person: v4() as PersonId };
    expect(await listJobEntries(tab, other, job)).toEqual([]);
    expect(await countOutbox(tab, other)).toEqual({ waiting: 0, problems: 0 });
    const theirs = await writeEntry(tab, pageLocks(), other, job, note("theirs"));
    expect(theirs.heads).toEqual([]);
  });
});

describe("sending", () => {
  test("entries go in the order they were written and are owed no longer once received", async () => {
    const [tab, locks, server] = [openTab(), pageLocks(), makeServer()];
    for (const text of ["one", "two", "three"]) await writeEntry(tab, locks, desk, job, note(text));
    expect(await sendOwed(tab, locks, desk, server.ask)).toEqual({ code: "all-sent" });
    expect(server.requests.flat().map(({ seq }) => seq)).toEqual([1, 2, 3]);
    expect(await countOutbox(tab, desk)).toEqual({ waiting: 0, problems: 0 });
    const log = await listJobEntries(tab, desk, job);
    expect(log.map(({ stamp }) => stamp?.receivedSeq).sort()).toEqual([1, 2, 3]);
  });

  test("a lost answer is asked for again; the server has the entry once and the stamp is the first one", async () => {
    const [tab, locks, server] = [openTab(), pageLocks(), makeServer()];
    const entry = await writeEntry(tab, locks, desk, job, note("one"));
    server.fates.push("lost-answer");
    expect(await sendOwed(tab, locks, desk, server.ask)).toEqual({ code: "no-network" });
    expect((await countOutbox(tab, desk)).waiting).toBe(1);
    expect(await sendOwed(tab, locks, desk, server.ask)).toEqual({ code: "all-sent" });
    expect(server.requests).toHaveLength(2);
    expect([...server.kept.keys()]).toEqual([entry.id]);
    expect((await listJobEntries(tab, desk, job))[0]?.stamp?.receivedSeq).toBe(1);
  });

  test("after a lost answer, reading the job's log alone settles what is owed", async () => {
    const [tab, locks, server] = [openTab(), pageLocks(), makeServer()];
    await writeEntry(tab, locks, desk, job, note("one"));
    server.fates.push("lost-answer");
    await sendOwed(tab, locks, desk, server.ask);
    expect(await fetchLog(tab, desk, server.ask, job)).toBe("fresh");
    expect((await countOutbox(tab, desk)).waiting).toBe(0);
    expect(await listJobEntries(tab, desk, job)).toHaveLength(1);
  });

  test("only one tab sends at a time", async () => {
    const [tab, locks, server] = [openTab(), pageLocks(), makeServer()];
    await writeEntry(tab, locks, desk, job, note("one"));
    const both = await Promise.all([sendOwed(tab, locks, desk, server.ask), sendOwed(tab, locks, desk, server.ask)]);
    expect(both.map(({ code }) => code).sort()).toEqual(["all-sent", "another-tab-sends"]);
    expect(server.requests).toHaveLength(1);
  });

  test.each([
    [401, "signed-out"],
    [404, "not-found"],
    [500, "server-trouble"],
  ] as const)("after a %i everything is kept and sent later", async (status, code) => {
    const [tab, locks, server] = [openTab(), pageLocks(), makeServer()];
    await writeEntry(tab, locks, desk, job, note("one"));
    server.fates.push(status);
    expect((await sendOwed(tab, locks, desk, server.ask)).code).toBe(code);
    await writeEntry(tab, locks, desk, job, note("two"));
    expect((await countOutbox(tab, desk)).waiting).toBe(2);
    expect((await sendOwed(tab, locks, desk, server.ask)).code).toBe("all-sent");
    expect(server.kept.size).toBe(2);
  });

  test("a batch the server finds too big is halved until it fits", async () => {
    const [tab, locks, server] = [openTab(), pageLocks(), makeServer()];
    for (let index = 0; index < 5; index++) await writeEntry(tab, locks, desk, job, note(`note ${index}`));
    server.fates.push(413, 413);
    expect((await sendOwed(tab, locks, desk, server.ask)).code).toBe("all-sent");
    expect(server.requests.map((batch) => batch.length)).toEqual([2, 2, 1]);
  });

  test("a quarantined entry stays here with its reason, leaves the log and holds nothing up", async () => {
    const [tab, locks, server] = [openTab(), pageLocks(), makeServer()];
    await writeEntry(tab, locks, desk, job, note("bad"));
    server.refuse.set("bad", "not-your-job");
    const good = await writeEntry(tab, locks, desk, job, note("good"));
    expect((await sendOwed(tab, locks, desk, server.ask)).code).toBe("all-sent");
    expect((await listProblems(tab, desk)).map(({ problem }) => problem?.code)).toEqual(["not-your-job"]);
    expect(await countOutbox(tab, desk)).toEqual({ waiting: 0, problems: 1 });
    expect((await listJobEntries(tab, desk, job)).map(({ id }) => id)).toEqual([good.id]);
  });

  test("whatever is lost on the way and whenever it is tried again, each entry arrives once and in order", async () => {
    const fate = fc.constantFrom("arrives" as const, "lost-request" as const, "lost-answer" as const, 500 as const);
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.oneof(fc.constant("write" as const), fc.constant("reopen" as const), fate), { maxLength: 30 }),
        async (happenings) => {
          disk = { indexedDB: new IDBFactory(), IDBKeyRange };
          const server = makeServer();
          let tab = openTab();
          let written = 0;
          for (const happening of happenings) {
            if (happening === "write") await writeEntry(tab, pageLocks(), desk, job, note(`note ${++written}`));
            else if (happening === "reopen") {
              tab.close();
              tab = openTab();
            } else {
              server.fates.push(happening);
              await sendOwed(tab, pageLocks(), desk, server.ask);
              server.fates.length = 0;
            }
          }
          await sendOwed(tab, pageLocks(), desk, server.ask);
          expect([...server.kept.values()].map(({ entry }) => entry.seq)).toEqual(
            Array.from({ length: written }, (_, index) => index + 1),
          );
          expect((await countOutbox(tab, desk)).waiting).toBe(0);
        },
      ),
      { numRuns: 60 },
    );
  });
});

describe("the sender", () => {
  test("a write during a round is sent by a second round", async () => {
    const [tab, locks, server] = [openTab(), pageLocks(), makeServer()];
    const sender = new Sender(() => sendOwed(tab, locks, desk, server.ask));
    await writeEntry(tab, locks, desk, job, note("one"));
    const first = sender.nudge();
    await writeEntry(tab, locks, desk, job, note("two"));
    await sender.nudge();
    await first;
    expect(server.kept.size).toBe(2);
    expect(sender.state).toBe("all-sent");
  });

  test("a session that ended is said, and sending goes on after signing in", async () => {
    const [tab, locks, server] = [openTab(), pageLocks(), makeServer()];
    const sender = new Sender(() => sendOwed(tab, locks, desk, server.ask));
    await writeEntry(tab, locks, desk, job, note("one"));
    server.fates.push(401);
    await sender.nudge();
    expect(sender.state).toBe("signed-out");
    await sender.nudge();
    expect(sender.state).toBe("all-sent");
    expect(server.kept.size).toBe(1);
  });
});

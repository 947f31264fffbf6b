import { setTimeout as delay } from "node:timers/promises";
import { v7 as uuidv7 } from "uuid";
import { afterAll, afterEach, beforeAll, describe, expect, test } from "vitest";
import { endAllSessions, openSession } from "@/lib/db/gate";
import { appendOfficeEntry } from "@/lib/db/office-entry";
import { withTenant } from "@/lib/db/tenant";
import { planVisit } from "@/lib/db/visits";
import type { EntryContent } from "@/lib/hvac/procedure";
import { type Change, readNotice } from "@/lib/live/change";
import { ChangeListener, type Subscriber } from "@/lib/live/change-listener";
import { changeStream } from "@/lib/live/change-stream";
import { type Serve, serveRoutes, sessionCookie } from "../faults/serve-routes";
import { withConnection } from "./fresh-database";
import { type Planted, type TwoCompanies, twoCompanies } from "./two-companies";

let database: TwoCompanies;
let serve: Serve;
beforeAll(async () => {
  database = await twoCompanies();
  serve = await serveRoutes();
});
afterAll(() => database.drop());

const note = (text: string): EntryContent => ({ kind: "note", body: { text, photos: [] } });
const change = (at: Planted) =>
  withTenant(at.company, (tx) => appendOfficeEntry(tx, at.job, at.dispatcher, note("seen")));
const until = async (holds: () => boolean, withinMs = 3000) => {
  for (const endsAt = Date.now() + withinMs; !holds() && Date.now() < endsAt; ) await delay(10);
  expect(holds()).toBe(true);
};

describe("the listener", () => {
  const leaves: (() => void)[] = [];
  afterEach(() => {
    for (const leave of leaves.splice(0)) leave();
  });
  const listener = () => new ChangeListener(() => database.databaseUrl);
  const follow = async (at: Planted, on = listener()) => {
    const told: (Change | "missed")[] = [];
    const subscriber: Subscriber = (each) => told.push(each);
    leaves.push(on.follow(at.company, subscriber));
    await until(() => on.isConnected);
    return told;
  };
  const connections = () =>
    withConnection(database.adminUrl, async (admin) => {
      const { rows } = await admin.query<{ pid: number }>(
        "select pid from pg_stat_activity where application_name = 'dryhold changes' and datname = current_database()",
      );
      return rows.map(({ pid }) => pid);
    });

  test("tells a company its own changes, by kind and id, and nothing of another's", async () => {
    const on = listener();
    const [ours, theirs] = [await follow(database.alder, on), await follow(database.birch, on)];
    await change(database.alder);
    await until(() => ours.length > 0);
    expect(ours).toEqual([{ kind: "job", id: database.alder.job }]);
    await change(database.birch);
    await until(() => theirs.length > 0);
    expect(theirs).toEqual([{ kind: "job", id: database.birch.job }]);
    expect(ours).toHaveLength(1);
  });

  test("says nothing of what is rolled back", async () => {
    const told = await follow(database.alder);
    const plan = { window: null, plannedStart: null, plannedMinutes: 30, people: [] };
    await withTenant(database.alder.company, async (tx) => {
      await planVisit(tx, database.alder.workOrderId, plan);
      throw new Error("changed my mind");
    }).catch(() => {});
    const kept = await withTenant(database.alder.company, (tx) => planVisit(tx, database.alder.workOrderId, plan));
    await until(() => told.length > 0);
    expect(told).toEqual([{ kind: "visit", id: kept.ok && kept.value }]);
  });

  test("uses one connection for all who follow, and none when nobody does", async () => {
    const on = listener();
    for (let n = 0; n < 20; n++) await follow(n % 2 ? database.alder : database.birch, on);
    expect(await connections()).toHaveLength(1);
    for (const leave of leaves.splice(0)) leave();
    await delay(100);
    expect(await connections()).toEqual([]);
    expect(on.isConnected).toBe(false);
  });

  test("makes a broken connection again, and says that changes may have been missed", async () => {
    const on = listener();
    const told = await follow(database.alder, on);
    const [pid] = await connections();
    await withConnection(database.adminUrl, (admin) => admin.query("select pg_terminate_backend($1)", [pid]));
    await change(database.alder); // while nobody listens
    await until(() => told.includes("missed"));
    told.length = 0;
    await change(database.alder);
    await until(() => told.length > 0);
    expect(told).toEqual([{ kind: "job", id: database.alder.job }]);
  });

  test("the database tells of no person and no word: three names and no more", async () => {
    const heard: string[] = [];
    await withConnection(database.adminUrl, async (admin) => {
      admin.on("notification", ({ payload }) => heard.push(payload ?? ""));
      await admin.query("listen dryhold_change");
      await change(database.alder);
      await until(() => heard.length > 0);
    });
    expect(heard).toEqual([`${database.alder.company} job ${database.alder.job}`]);
    expect(readNotice(heard[0])).toEqual({
      company: database.alder.company,
      change: { kind: "job", id: database.alder.job },
    });
    for (const odd of ["", "a b", "a visits b", "a job b c", undefined]) expect(readNotice(odd)).toBeNull();
  });
});

/** Reads a stream until it is left; what it said so far is in `text`. */
function reading(body: ReadableStream<Uint8Array> | null) {
  const reader = body!.getReader();
  const read = { text: "", isOver: false, leave: () => reader.cancel() };
  const decoder = new TextDecoder();
  void (async () => {
    for (let part = await reader.read(); !part.done; part = await reader.read())
      read.text += decoder.decode(part.value);
    read.isOver = true;
  })();
  return read;
}

describe("the stream of one reader", () => {
  const source = () => {
    const told: { to: Subscriber; isLeft: boolean } = { to: () => {}, isLeft: false };
    const follow = (subscriber: Subscriber) => {
      told.to = subscriber;
      return () => {
        told.isLeft = true;
      };
    };
    return { told, follow };
  };
  const always = async () => true;
  const open = new AbortController().signal;

  test("beats while nothing happens, and ends with the reader's right to it", async () => {
    const { told, follow } = source();
    let may = true;
    const read = reading(
      changeStream({ follow, mayFollow: async () => may, isBack: false, signal: open, heartbeatMs: 20 }),
    );
    await until(() => read.text.includes(": still here"));
    may = false;
    await until(() => read.isOver);
    expect(told.isLeft).toBe(true);
  });

  test("who comes back is told to ask for everything", async () => {
    const { follow } = source();
    const read = reading(changeStream({ follow, mayFollow: always, isBack: true, signal: open }));
    await until(() => read.text.includes("event: missed"));
    await read.leave();
  });

  test("a slow reader gets one notice to ask for everything in place of a thousand, and memory stays as it was", async () => {
    const { told, follow } = source();
    const body = changeStream({ follow, mayFollow: always, isBack: false, signal: open });
    for (let n = 0; n < 1000; n++) told.to({ kind: "job", id: `${n}` });
    const read = reading(body);
    await until(() => read.text.includes("event: missed"));
    expect(read.text.match(/event: change/g)!.length).toBeLessThan(40);
    expect(read.text.match(/event: missed/g)).toHaveLength(1);
    told.to({ kind: "job", id: "afterwards" });
    await until(() => read.text.includes("afterwards"));
    await read.leave();
  });

  test("who takes nothing at all is let go", async () => {
    const { told, follow } = source();
    changeStream({ follow, mayFollow: always, isBack: false, signal: open, heartbeatMs: 20 });
    for (let n = 0; n < 100; n++) told.to({ kind: "job", id: `${n}` });
    await until(() => told.isLeft);
  });

  test.each(["the reader leaves", "the request is dropped"])("ends when %s", async (how) => {
    const { told, follow } = source();
    const dropped = new AbortController();
    const read = reading(changeStream({ follow, mayFollow: always, isBack: false, signal: dropped.signal }));
    await until(() => read.text.includes("retry:"));
    if (how === "the reader leaves") await read.leave();
    else dropped.abort();
    await until(() => told.isLeft);
  });
});

describe("over the route", () => {
  const cookieOf = async (at: Planted) => {
    const session = uuidv7();
    await openSession(session, at.supervisor.personId, "test", 600);
    return sessionCookie(session, at.supervisor.personId);
  };

  test("a member is told of their company; another company's address looks like none", async () => {
    const cookie = await cookieOf(database.birch);
    expect((await serve("/api/alder/changes", {}, cookie)).status).toBe(404);
    expect((await serve("/api/nobody/changes", {}, cookie)).status).toBe(404);
    expect((await serve("/api/birch/changes", {}, "")).status).toBe(401);

    const answer = await serve("/api/birch/changes", {}, cookie);
    expect(answer.headers.get("content-type")).toContain("text/event-stream");
    const read = reading(answer.body);
    await delay(300);
    await change(database.alder);
    await change(database.birch);
    await until(() => read.text.includes("event: change"));
    expect(read.text).toContain(`data: {"kind":"job","id":"${database.birch.job}"}`);
    expect(read.text).not.toContain(database.alder.job);
    await read.leave();
    await endAllSessions(database.birch.supervisor.personId);
  });
});

import fc from "fast-check";
import { afterAll, beforeAll, beforeEach, expect, test, vi } from "vitest";
import { endJob, putDailyJobs, takeJob } from "@/lib/db/gate";
import { putJob } from "@/lib/db/job-queue";
import { withTenant } from "@/lib/db/tenant";
import { MOST_ATTEMPTS, type Work, waitAfter } from "@/lib/jobs/job";
import { runOneJob } from "@/lib/jobs/run-jobs";
import { withConnection } from "./fresh-database";
import { type TwoCompanies, twoCompanies } from "./two-companies";

let database: TwoCompanies;
beforeAll(async () => {
  database = await twoCompanies();
});
afterAll(() => database.drop());
beforeEach(() => sql("delete from gate.job"));

const sql = <Row extends object>(text: string) =>
  withConnection(database.migratorUrl, async (client) => (await client.query<Row>(text)).rows);
const put = (key: string, dueAt = new Date(Date.now() - 1000)) =>
  withTenant(database.alder.company, (tx) => putJob(tx, { kind: "look", key, dueAt }));
const runWith = (look: Work) => runOneJob({ once: { look }, daily: {} });
const makeDue = () => sql("update gate.job set due_at = now() - interval '1 second'");

test("a job is done once, in its company, and asked for again it stays done", async () => {
  await put("a");
  await put("a");
  const seen: string[] = [];
  const look: Work = async ({ company, key }) => void seen.push(`${company} ${key}`);
  expect(await runWith(look)).toBe(true);
  await put("a");
  expect(await runWith(look)).toBe(false);
  expect(seen).toEqual([`${database.alder.company} a`]);
});

test("a job of a transaction that came to nothing is never done, nor one that is not due, nor of a kind nobody does", async () => {
  await expect(
    withTenant(database.alder.company, async (tx) => {
      await putJob(tx, { kind: "look", key: "undone", dueAt: new Date(0) });
      throw new Error("rolled back");
    }),
  ).rejects.toThrow("rolled back");
  await put("later", new Date(Date.now() + 60_000));
  await withTenant(database.alder.company, (tx) => putJob(tx, { kind: "other", key: "x", dueAt: new Date(0) }));
  expect(await runWith(async () => undefined)).toBe(false);
});

test("two processes never hold the same job, and of many each is taken once", async () => {
  const keys = Array.from({ length: 20 }, (_, n) => `job ${n}`);
  for (const key of keys) await put(key);
  const taken = await Promise.all(Array.from({ length: 24 }, () => takeJob(["look"], 60)));
  expect(taken.flatMap((job) => job?.key ?? []).sort()).toEqual([...keys].sort());
});

test("a job whose process died is done by another, and the late one ends nothing", async () => {
  await put("a");
  const dead = await takeJob(["look"], 60);
  expect(await takeJob(["look"], 60)).toBeNull();
  await sql("update gate.job set held_until = now() - interval '1 second'");
  const next = await takeJob(["look"], 60);
  expect(next).toMatchObject({ key: "a", attempts: 2 });
  await endJob(dead!);
  expect(await sql("select ended_at from gate.job")).toEqual([{ ended_at: null }]);
  await endJob(next!);
  expect(await sql("select 1 from gate.job where ended_at is not null")).toHaveLength(1);
});

test("what fails is tried again later, given up after its attempts, and the log holds no word of what it was about", async () => {
  await put("a");
  const log = vi.spyOn(console, "error").mockImplementation(() => {});
  let tries = 0;
  const look: Work = async () => {
    tries += 1;
    throw new Error("no such mailbox: somebody@somewhere.example");
  };
  while (tries < MOST_ATTEMPTS) {
    expect(await runWith(look)).toBe(true);
    expect(await runWith(look)).toBe(false);
    await makeDue();
  }
  expect(await runWith(look)).toBe(false);
  expect(await sql("select failed from gate.job where ended_at is not null")).toEqual([{ failed: true }]);
  expect(log.mock.calls.flat().join("\n")).not.toContain("somewhere");
  expect(log).toHaveBeenCalledTimes(MOST_ATTEMPTS);
  log.mockRestore();
});

test("a daily job comes once for each company, and again at four the next morning of its own clock", async () => {
  await putDailyJobs(["look"]);
  await putDailyJobs(["look"]);
  const companies: string[] = [];
  const works = { once: {}, daily: { look: (async ({ company }) => void companies.push(company)) as Work } };
  while (await runOneJob(works));
  expect(companies.sort()).toEqual([database.alder.company, database.birch.company].sort());
  const due = await sql<{ clock: string; ahead: boolean }>(
    `select to_char(due_at at time zone 'America/Denver', 'HH24:MI') as clock,
       due_at > now() and due_at <= now() + interval '29 hours' as ahead from gate.job`,
  );
  expect(due).toEqual([
    { clock: "04:00", ahead: true },
    { clock: "04:00", ahead: true },
  ]);
});

test("the application may not touch the queue but by its functions", async () => {
  await expect(
    withConnection(database.databaseUrl, (client) => client.query("select * from gate.job")),
  ).rejects.toThrow(/permission denied/);
});

test("waits grow up to six hours and never shrink", () => {
  fc.assert(
    fc.property(fc.integer({ min: 1, max: MOST_ATTEMPTS - 2 }), (n) => {
      const [wait, next] = [waitAfter(n)!, waitAfter(n + 1)!];
      expect(next).toBeGreaterThanOrEqual(wait);
      expect(next).toBeLessThanOrEqual(6 * 3600);
    }),
  );
  expect(waitAfter(MOST_ATTEMPTS)).toBeNull();
});

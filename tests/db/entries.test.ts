import { v7 as uuidv7 } from "uuid";
import { afterAll, beforeAll, beforeEach, describe, expect, test } from "vitest";
import type { Member } from "@/lib/auth/session";
import { listEntries } from "@/lib/db/entries";
import { readJob } from "@/lib/db/job-summary";
import { findJob } from "@/lib/db/jobs";
import { appendOfficeEntry } from "@/lib/db/office-entry";
import { type QuarantineReason, receiveEntries } from "@/lib/db/receive-entries";
import { withTenant } from "@/lib/db/tenant";
import type { Entry, EntryContent } from "@/lib/hvac/procedure";
import { EntryId, InstallationId, JobId } from "@/lib/ids";
import { makeEntry } from "@/lib/sync/protocol";
import { recordOf } from "../hvac/procedure/evidence-samples";
import { withConnection } from "./fresh-database";
import { anotherJob, type TwoCompanies, twoCompanies } from "./two-companies";

let database: TwoCompanies;
let job: JobId;
beforeAll(async () => {
  database = await twoCompanies();
});
afterAll(() => database.drop());
beforeEach(async () => {
  job = await anotherJob(database.alder);
});

const installation = InstallationId.parse(uuidv7());
const send = (raw: readonly unknown[], member: Member = database.alder.technician) =>
  withTenant(member.companyId, (tx) => receiveEntries(tx, member, raw));

const note = (text: string): EntryContent => ({ kind: "note", body: { text, photos: [] } });

/** An entry as the technician's tablet writes it, with what is said otherwise. */
function written(content: EntryContent = note("seen"), seq = 1, change: object = {}): Entry {
  const { company, technician } = database.alder;
  const author = { company, job, installation, person: technician.personId };
  const writing = {
    id: EntryId.parse(uuidv7()),
    seq,
    heads: [],
    deviceAt: "2026-11-25T08:00:00.000Z",
    clockOffsetMs: 0,
  };
  return { ...makeEntry(author, writing, content), ...change } as Entry;
}

const logOf = (id = job) => withTenant(database.alder.company, (tx) => listEntries(tx, id));
const quarantined = () =>
  withTenant(database.alder.company, (tx) =>
    tx.quarantine.findMany({ select: { reason: true, raw: true, detail: true, personId: true } }),
  );

describe("a well-formed entry", () => {
  test("is kept as it was sent, stamped with the roles the server knows", async () => {
    const entry = written();
    const { receipts, quarantined } = await send([entry]);
    expect(quarantined).toEqual([]);
    const [, kept] = await logOf();
    expect(kept).toEqual({ ...entry, stamp: receipts[0]!.stamp });
    expect(receipts[0]!.stamp.roles).toEqual(["technician"]);
  });

  test("sent again gets the stamp it had, and changes nothing", async () => {
    const entry = written();
    const first = await send([entry]);
    const again = await send([entry, entry]);
    expect(again.receipts).toEqual([first.receipts[0], first.receipts[0]]);
    expect(await logOf()).toHaveLength(2);
  });

  test("sent again with its keys in another order is still the same entry", async () => {
    const entry = written();
    const first = await send([entry]);
    const turned = Object.fromEntries(Object.entries(entry).reverse());
    expect((await send([turned])).receipts).toEqual(first.receipts);
  });

  test("sent over two connections at once is written once", async () => {
    const parcel = Array.from({ length: 20 }, (_, n) => written(note(`line ${n}`), n + 1));
    const answers = await Promise.all([send(parcel), send(parcel), send(parcel)]);
    expect(answers[1]).toEqual(answers[0]);
    expect(answers[2]).toEqual(answers[0]);
    expect(await logOf()).toHaveLength(21);
  });

  test("two parcels that name two jobs in opposite order both arrive", async () => {
    const other = await anotherJob(database.alder);
    const here = Array.from({ length: 10 }, (_, n) => written(note("here"), n + 1));
    const there = Array.from({ length: 10 }, (_, n) => written(note("there"), n + 1, { job: other }));
    const sent = await Promise.allSettled([send([...here, ...there]), send([...there, ...here])]);
    const failed = sent.flatMap((one) => (one.status === "rejected" ? [String(one.reason)] : []));
    expect(failed).toEqual([]);
    expect(await logOf()).toHaveLength(11);
    expect(await logOf(other)).toHaveLength(11);
  });

  test("of the office and of a device written at the same time stand in one log without a gap", async () => {
    const parcel = Array.from({ length: 10 }, (_, n) => written(note(`line ${n}`), n + 1));
    const office = (n: number) =>
      withTenant(database.alder.company, (tx) => appendOfficeEntry(tx, job, database.alder.dispatcher, note(`o${n}`)));
    await Promise.all([...parcel.map((entry) => send([entry])), ...Array.from({ length: 10 }, (_, n) => office(n))]);
    const log = await logOf();
    expect(log).toHaveLength(21);
    const byOffice = log.filter((entry) => entry.person === database.alder.dispatcher.personId);
    expect(byOffice.map((entry) => entry.seq)).toEqual(Array.from({ length: 11 }, (_, n) => n + 1));
  });
});

describe("what is no entry of its author goes to quarantine, and the rest of the parcel stands", () => {
  type Case = readonly [string, QuarantineReason, () => unknown, string?];
  const cases: readonly Case[] = [
    ["no object", "malformed", () => "a string", ""],
    ["nothing", "malformed", () => null, ""],
    ["an unknown kind", "malformed", () => ({ ...written(), kind: "job-blessed" }), "kind"],
    ["an unknown field", "malformed", () => ({ ...written(), stamp: { roles: ["supervisor"] } }), ""],
    ["a sequence of 0", "malformed", () => written(note("x"), 0), "seq"],
    ["a sequence past what the database counts", "malformed", () => written(note("x"), 2 ** 31), "seq"],
    ["NaN, which JSON sends as null", "malformed", () => hold([0, null]), "body.evidence.record.readings.1.micron"],
    ["a negative pressure", "malformed", () => hold([300, -5]), "body.evidence.record.readings.1.micron"],
    ["a clock that runs backwards", "malformed", () => hold([300, 310], [60, 0]), "body.evidence.record.readings"],
    ["an id of version 4", "malformed", () => written(note("x"), 1, { id: crypto.randomUUID() }), "id"],
    ["an unknown step", "malformed", () => written(skip("polish"), 1), "body.step"],
    ["a field whose name cannot be stored", "malformed", () => ({ ...written(), "a\u0000b": 1 }), ""],
    ["a NUL in its text", "not-storable", () => written(note("a\u0000b"))],
    ["half a surrogate pair", "not-storable", () => written(note("a\ud800b"))],
    ["another company", "not-this-company", () => written(note("x"), 1, { company: database.birch.company })],
    ["another author", "not-the-author", () => written(note("x"), 1, { person: database.alder.supervisor.personId })],
    ["a job that is not there", "unknown-job", () => written(note("x"), 1, { job: JobId.parse(uuidv7()) })],
    ["a job of another company", "unknown-job", () => written(note("x"), 1, { job: database.birch.job })],
    ["the opening of a job", "not-yours-to-write", () => opening()],
  ];

  function hold(microns: readonly unknown[], seconds: readonly number[] = [0, 60]) {
    const readings = microns.map((micron, at) => ({ s: seconds[at], micron }));
    return written({
      kind: "step-recorded",
      body: recordOf("hold", { record: { kept: "inline", readings } } as never),
    });
  }
  function skip(step: string): EntryContent {
    const grounds = { reason: "other", statement: "x" } as const;
    return { kind: "step-skipped", body: { step: step as never, grounds, photos: [] } };
  }
  function opening(): Entry {
    const circuit = { refrigerant: { state: "unknown" }, fullChargeKg: null, internalVolume: null };
    const pressures = { lowSideDesignKPaGauge: null, highSideDesignKPaGauge: null, lineSet: null };
    const appliance = { applianceClass: "appliance", appliance: { use: "other", leakRulesApply: false } };
    const facts = { ...circuit, ...pressures, ...appliance } as never;
    return written({
      kind: "job-opened",
      body: { kind: "leak_repair", templateVersion: 1, circuit: facts, criteria: [] },
    });
  }

  for (const [what, reason, given, path] of cases)
    test(`${what}: ${reason}`, async () => {
      const sound = written(note("sound"), 7);
      const raw = given();
      const received = await send([raw, sound]);
      expect(received.quarantined).toMatchObject([{ index: 0, reason, ...(path !== undefined && { path }) }]);
      expect(received.quarantined[0]!.message).not.toBe("");
      expect(received.receipts.map(({ id }) => id)).toEqual([sound.id]);
      expect((await logOf()).map(({ id }) => id).slice(1)).toEqual([sound.id]);
      const kept = (await quarantined()).filter((one) => one.raw === JSON.stringify(raw));
      expect(kept).toMatchObject([{ reason, personId: database.alder.technician.personId }]);
    });

  test("an id used for something else", async () => {
    const first = written();
    await send([first]);
    const other = written(note("rewritten"), 2, { id: first.id });
    expect((await send([other])).quarantined).toMatchObject([{ id: first.id, reason: "id-used-otherwise" }]);
    expect((await logOf()).at(-1)).toMatchObject({ body: { text: "seen" } });
  });

  test("an id used in another job", async () => {
    const first = written();
    await send([first]);
    const elsewhere = { ...first, job: await anotherJob(database.alder) };
    expect((await send([elsewhere])).quarantined).toMatchObject([{ reason: "id-used-otherwise" }]);
  });

  test("a sequence number used for another entry", async () => {
    await send([written()]);
    expect((await send([written(note("another"))])).quarantined).toMatchObject([{ reason: "sequence-used-otherwise" }]);
    expect(await logOf()).toHaveLength(2);
  });

  test("one sent twice is kept once", async () => {
    const raw = { nonsense: uuidv7() };
    await send([raw]);
    await send([raw, raw]);
    expect((await quarantined()).filter((one) => one.raw === JSON.stringify(raw))).toHaveLength(1);
  });

  test("field work of someone from the office, whose note is taken", async () => {
    const { dispatcher } = database.alder;
    const mine = (content: EntryContent, seq: number) => written(content, seq, { person: dispatcher.personId });
    const opened = mine({ kind: "circuit-opened", body: { why: "x" } }, 1);
    const noted = mine(note("the customer called again"), 2);
    const received = await send([opened, noted], dispatcher);
    expect(received.quarantined).toMatchObject([{ id: opened.id, reason: "not-yours-to-write" }]);
    expect(received.receipts.map(({ id }) => id)).toEqual([noted.id]);
  });
});

test("text that only looks like an unstorable character is taken", async () => {
  const entry = written(note("typed \\u0000 and \\ud800, a smile 🙂 and a tab\t"));
  expect((await send([entry])).quarantined).toEqual([]);
  expect((await logOf()).at(-1)).toMatchObject({ body: entry.body });
});

test("an override granted by a technician is kept, and has no effect for want of the stamp", async () => {
  const asked = written({ kind: "override-asked", body: { step: "performance", why: "rain" } }, 1);
  const granted = written({ kind: "override-answered", body: { asks: asked.id, granted: true, why: "mine" } }, 2, {
    heads: [asked.id],
  });
  expect((await send([asked, granted])).receipts).toHaveLength(2);
  const { state } = await withTenant(database.alder.company, (tx) => readJob(tx, job));
  expect(state.overrides).toMatchObject([{ ask: asked.id, answer: "none" }]);
  expect(state.steps.find(({ step }) => step === "performance")?.settledBy).not.toBe("override");
  const row = await withTenant(database.alder.company, (tx) => findJob(tx, job));
  expect(row).toMatchObject({ asksOverride: true, summary: { asks: [{ ask: asked.id, step: "performance" }] } });
});

test("a hold is judged on arrival, and both verdicts are kept with the rules they were given by", async () => {
  const readings = Array.from({ length: 61 }, (_, n) => ({ s: n * 20, micron: 300 + n / 10 }));
  const evidence = {
    record: { kept: "inline" as const, readings },
    deviceVerdict: { verdict: "dry-and-tight", rulesVersion: "tablet-of-last-year" },
  };
  const entry = written({ kind: "step-recorded", body: recordOf("hold", evidence) });
  await send([entry]);
  await send([entry]);
  const verdicts = await withTenant(database.alder.company, (tx) =>
    tx.verdict.findMany({ where: { jobId: job }, orderBy: { judgedBy: "asc" } }),
  );
  expect(verdicts).toMatchObject([
    { judgedBy: "device", rulesVersion: "tablet-of-last-year", verdict: "dry-and-tight", entryId: entry.id },
    { judgedBy: "server", entryId: entry.id },
  ]);
  expect(verdicts[1]!.rulesVersion).not.toBe("");
});

test("what lists show of the job follows the log", async () => {
  const before = await withTenant(database.alder.company, (tx) => findJob(tx, job));
  const safe = written({ kind: "step-recorded", body: recordOf("make_safe") });
  await send([safe]);
  const after = await withTenant(database.alder.company, (tx) => findJob(tx, job));
  expect(before?.summary).toMatchObject({ kind: "leak_repair", openStep: "make_safe" });
  expect(after?.summary).toMatchObject({ openStep: "recover" });
  expect(after!.changedAt > before!.changedAt).toBe(true);
});

test("a throw after receipt leaves nothing: no entry, no verdict, no quarantine, no summary", async () => {
  const odd = { odd: uuidv7() };
  const before = await withTenant(database.alder.company, (tx) => findJob(tx, job));
  const failing = withTenant(database.alder.company, async (tx) => {
    await receiveEntries(tx, database.alder.technician, [
      written({ kind: "step-recorded", body: recordOf("make_safe") }),
      odd,
    ]);
    throw new Error("on purpose");
  });
  await expect(failing).rejects.toThrow("on purpose");
  expect(await logOf()).toHaveLength(1);
  expect((await quarantined()).filter((one) => one.raw === JSON.stringify(odd))).toEqual([]);
  expect(await withTenant(database.alder.company, (tx) => findJob(tx, job))).toEqual(before);
});

test("the application can neither reword nor take back an entry", async () => {
  await send([written()]);
  await withConnection(database.databaseUrl, async (client) => {
    await client.query("select set_config('app.tenant_id', $1, false)", [database.alder.company]);
    await expect(client.query("update entry set kind = 'note'")).rejects.toThrow(/permission denied/);
    await expect(client.query("delete from entry")).rejects.toThrow(/permission denied/);
    await expect(client.query("truncate entry")).rejects.toThrow(/permission denied/);
  });
});

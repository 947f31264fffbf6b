import { v7 as uuidv7 } from "uuid";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { Member } from "@/lib/auth/session";
import { listEntries } from "@/lib/db/entries";
import { receiveEntries } from "@/lib/db/receive-entries";
import { withTenant } from "@/lib/db/tenant";
import type { EntryContent, EvidenceOf } from "@/lib/hvac/procedure";
import { type CylinderId, EntryId, InstallationId, type JobId } from "@/lib/ids";
import { headsOf, makeEntry, nextSeq } from "@/lib/sync/protocol";
import { recordOf } from "../hvac/procedure/evidence-samples";
import { withConnection } from "./fresh-database";
import { anotherJob, type Planted, plantCompany, type TwoCompanies, twoCompanies } from "./two-companies";

let database: TwoCompanies;
beforeAll(async () => {
  database = await twoCompanies();
});
afterAll(() => database.drop());

let companies = 0;
const freshCompany = () => plantCompany(database, `cedar-${++companies}`);
const installation = InstallationId.parse("00000000-0000-7000-8000-0000000000aa");

/** One entry of the technician on top of all that was received so far. */
async function send(at: Planted, job: JobId, content: EntryContent, by: Member = at.technician) {
  return withTenant(at.company, async (tx) => {
    const log = await listEntries(tx, job);
    const author = { company: at.company, job, installation, person: by.personId };
    const writing = {
      id: EntryId.parse(uuidv7()),
      seq: nextSeq(log, author),
      heads: headsOf(log),
      deviceAt: new Date().toISOString(),
      clockOffsetMs: 0,
    };
    const entry = makeEntry(author, writing, content);
    const received = await receiveEntries(tx, by, [entry]);
    return { entry, received };
  });
}

async function cylinder(at: Planted, label: string, contentsKg = 0): Promise<CylinderId> {
  const id = uuidv7();
  await withTenant(at.company, (tx) =>
    tx.cylinder.create({
      data: {
        id,
        label,
        contents: contentsKg > 0 ? "new" : "empty",
        refrigerant: contentsKg > 0 ? "R-410A" : null,
        waterCapacityKg: 21.6,
        tareKg: 12,
        contentsKg,
      },
    }),
  );
  return id as CylinderId;
}
const weighing = (cylinderId: CylinderId | null, label: string, grossBeforeKg: number, grossAfterKg: number) => ({
  cylinderId,
  label,
  refrigerant: "R-410A",
  grossBeforeKg,
  grossAfterKg,
});
const recovered = (...of: Parameters<typeof weighing>[]): EntryContent => ({
  kind: "step-recorded",
  body: recordOf("recover", { cylinders: of.map((each) => ({ ...weighing(...each), stamp: null })) }),
});
const charged = (weighedInKg: number, ...of: Parameters<typeof weighing>[]): EntryContent => ({
  kind: "step-recorded",
  body: recordOf("break_and_charge", { weighedInKg, cylinders: of.map((each) => weighing(...each)) } as Partial<
    EvidenceOf<"break_and_charge">
  >),
});

/** Grams by place kind and id, none where there is nothing. */
async function held(at: Planted, kind: string, id?: string): Promise<number> {
  const rows = await withTenant(at.company, (tx) =>
    tx.refrigerantBalance.findMany({ where: { placeKind: kind, ...(id && { placeId: id }) } }),
  );
  return rows.reduce((sum, { grams }) => sum + Number(grams), 0);
}
const postingsOf = (at: Planted, jobId: JobId) =>
  withTenant(at.company, (tx) => tx.posting.findMany({ where: { jobId }, orderBy: { postedAt: "asc" } }));
const total = async (at: Planted) =>
  withTenant(at.company, async (tx) =>
    (await tx.refrigerantBalance.findMany()).reduce((sum, { grams }) => sum + Number(grams), 0),
  );

describe("the books open with what the registers hold", () => {
  test("a circuit with its factory charge, a cylinder with its contents; together they balance", async () => {
    const at = await freshCompany();
    const id = await cylinder(at, "N-1", 9.8);
    expect(await held(at, "circuit", at.circuitId)).toBe(3200);
    expect(await held(at, "cylinder", id)).toBe(9800);
    expect(await held(at, "before")).toBe(-13_000);
    expect(await total(at)).toBe(0);
  });

  test("a mass typed into the register later is a count, posted as one; another charge corrects the opening", async () => {
    const at = await freshCompany();
    const id = await cylinder(at, "N-1", 9.8);
    await withTenant(at.company, (tx) =>
      tx.cylinder.update({ where: { tenantId_id: { tenantId: at.company, id } }, data: { contentsKg: 9.5 } }),
    );
    expect(await held(at, "cylinder", id)).toBe(9500);
    const counted = await withTenant(at.company, (tx) => tx.posting.findMany({ where: { cause: "counted" } }));
    expect(counted.map(({ grams, toKind }) => [Number(grams), toKind])).toEqual([[300, "before"]]);
    await withTenant(at.company, (tx) =>
      tx.circuit.updateMany({ where: { id: at.circuitId }, data: { factoryChargeKg: 3.6 } }),
    );
    expect(await held(at, "circuit", at.circuitId)).toBe(3600);
    expect(await total(at)).toBe(0);
  });
});

describe("a job posts by itself when its entries are received", () => {
  test("recovery and charge move mass, the register's cylinder follows, and a resend posts nothing", async () => {
    const at = await freshCompany();
    const [into, from] = [await cylinder(at, "R-1"), await cylinder(at, "N-1", 9.8)];
    const { entry } = await send(at, at.job, recovered([into, "R-1", 12, 14.9]));
    await send(at, at.job, charged(3.2, [from, "N-1", 21.8, 18.6]));
    expect(await held(at, "cylinder", into)).toBe(2900);
    expect(await held(at, "cylinder", from)).toBe(6600);
    expect(await held(at, "circuit", at.circuitId)).toBe(3200 - 2900 + 3200);
    await withTenant(at.company, (tx) => receiveEntries(tx, at.technician, [entry]));
    expect(await postingsOf(at, at.job)).toHaveLength(2);
    const register = await withTenant(at.company, (tx) => tx.cylinder.findFirstOrThrow({ where: { id: into } }));
    expect(register).toMatchObject({ contents: "recovered", refrigerant: "R-410A", contentsKg: 2.9 });
    const balance = await withTenant(at.company, (tx) =>
      tx.refrigerantBalance.findFirstOrThrow({ where: { placeId: into } }),
    );
    expect(balance.owners).toEqual([at.customerId]);
  });

  test("[L7] a correction reverses the posting and makes a new one; what was posted stays on the record", async () => {
    const at = await freshCompany();
    const into = await cylinder(at, "R-1");
    const { entry } = await send(at, at.job, recovered([into, "R-1", 12, 14.9]));
    await send(at, at.job, {
      ...recovered([into, "R-1", 12, 15.1]),
      supersedes: { entry: entry.id, why: "misread" },
    } as EntryContent);
    expect(await held(at, "cylinder", into)).toBe(3100);
    const rows = await postingsOf(at, at.job);
    expect(rows.map(({ grams, reverses }) => [Number(grams), reverses !== null]).sort()).toEqual([
      [2900, false],
      [2900, true],
      [3100, false],
    ]);
    expect(await total(at)).toBe(0);
  });

  test("[L18] a cylinder filled beyond its limit, and one nobody knows, are recorded all the same", async () => {
    const at = await freshCompany();
    const into = await cylinder(at, "R-1");
    const { received } = await send(at, at.job, recovered([into, "R-1", 12, 40], [null, "somebody's", 10, 11]));
    expect(received.quarantined).toEqual([]);
    expect(await held(at, "cylinder", into)).toBe(28_000);
    expect(await held(at, "unnamed")).toBe(1000);
    expect(await total(at)).toBe(0);
  });

  test("an absurd mass or clock holds no entry up", async () => {
    const at = await freshCompany();
    const { received } = await send(at, at.job, recovered([null, "x", 0, 1e300]));
    expect(received.receipts).toHaveLength(1);
    expect(await postingsOf(at, at.job)).toEqual([]);
  });
});

test("postings of many writers at once lose nothing: every balance is the sum of its postings", async () => {
  const at = await freshCompany();
  const into = await cylinder(at, "R-1");
  const jobs = [at.job];
  for (let n = 0; n < 5; n++) jobs.push(await anotherJob(at));
  await Promise.all(
    jobs.map(async (job, j) => {
      for (let k = 0; k < 3; k++)
        await send(at, job, recovered([into, `R-1 ${j} ${k}`, 12, 12 + 0.1 * (j + 1) + k / 1000]));
    }),
  );
  const wanted = jobs.reduce((sum, _, j) => sum + 3 * 100 * (j + 1) + 3, 0);
  expect(await held(at, "cylinder", into)).toBe(wanted);
  expect(await total(at)).toBe(0);
  const sums = await withConnection(database.adminUrl, (admin) =>
    admin.query(
      `select b.place_kind, b.grams::int as kept, (select coalesce(sum(case when p.to_kind = b.place_kind then p.grams else 0 end)
          - sum(case when p.from_kind = b.place_kind then p.grams else 0 end), 0)::int from posting p where p.tenant_id = b.tenant_id) as summed
       from refrigerant_balance b where b.tenant_id = $1`,
      [at.company],
    ),
  );
  for (const { kept, summed } of sums.rows) expect(kept).toBe(summed);
});

test("the application may not change or take away a posting", async () => {
  await withConnection(database.databaseUrl, async (app) => {
    await app.query("select set_config('app.tenant_id', $1, false)", [database.alder.company]);
    await expect(app.query("update posting set grams = 1")).rejects.toThrow(/permission denied/);
    await expect(app.query("delete from posting")).rejects.toThrow(/permission denied/);
  });
});

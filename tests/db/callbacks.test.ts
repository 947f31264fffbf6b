import { afterAll, beforeAll, describe, expect, test } from "vitest";
import {
  addOwnCause,
  type CallbackDecision,
  decideCallback,
  findCallback,
  listCallbacks,
  proposeCallback,
} from "@/lib/db/callbacks";
import { takeCall } from "@/lib/db/calls";
import { createCircuit } from "@/lib/db/circuits";
import { openJob } from "@/lib/db/jobs";
import { listOfficeEvents } from "@/lib/db/office-events";
import { withTenant } from "@/lib/db/tenant";
import { openWorkOrder } from "@/lib/db/work-orders";
import type { JobId } from "@/lib/ids";
import { withConnection } from "./fresh-database";
import { anotherJob, type Planted, plantCompany, type TwoCompanies, twoCompanies } from "./two-companies";

let database: TwoCompanies;
beforeAll(async () => {
  database = await twoCompanies();
});
afterAll(() => database.drop());

const SITE_TIME_ZONE = "America/Denver"; // as planted
let companies = 0;
const freshCompany = () => plantCompany(database, `cedar-${++companies}`);

/** Closes a job as the fold would, so many of the site's days before today, at its noon. */
async function close(job: JobId, daysAgo: number, strength = "weak"): Promise<void> {
  await withConnection(database.adminUrl, (admin) =>
    admin.query(
      `update circuit_job set state = 'closed', strength = $2, summary = jsonb_build_object('kind', 'leak_repair', 'closedAt',
         to_char(((now() at time zone $4)::date - $3::int + time '12:00') at time zone $4 at time zone 'UTC',
           'YYYY-MM-DD"T"HH24:MI:SS"Z"')) where id = $1`,
      [job, strength, daysAgo, SITE_TIME_ZONE],
    ),
  );
}

/** A call on the company's unit that is ordered at once. */
function orderOn(at: Planted, equipmentId: string | null = at.equipmentId): Promise<string> {
  const { customerId, siteId } = at;
  const call = { customerId, siteId, equipmentId, caller: "", symptom: "Warm again", urgency: "today" } as const;
  return withTenant(at.company, async (tx) => {
    const callId = (await takeCall(tx, call, at.dispatcher.personId))!;
    return (await openWorkOrder(tx, callId))!;
  });
}

const find = (at: Planted, order: string) => withTenant(at.company, (tx) => findCallback(tx, order));
const outcomeOf = (at: Planted, jobId: string) =>
  withTenant(at.company, (tx) => tx.jobOutcome.findFirst({ where: { jobId } }));
const costs = { workHours: 2.5, travelCents: 3000, refrigerantCents: null, partsCents: 0, goodwillCents: null };
const confirmed = (originJobId: string, cause = "moisture-left"): CallbackDecision => ({
  state: "confirmed",
  originJobId,
  cause,
  note: "",
  costs,
});
const decide = (at: Planted, workOrderId: string, version: number, decision: CallbackDecision) =>
  withTenant(at.company, (tx) => decideCallback(tx, { workOrderId, version }, decision, at.supervisor.personId));

describe("a later order on a unit", () => {
  test("within the window is proposed as a callback of the job closed there, with the days between", async () => {
    const at = await freshCompany();
    await close(at.job, 14);
    const found = await find(at, await orderOn(at));
    expect(found!.callback).toMatchObject({
      state: "proposed",
      basis: "same-unit",
      originJobId: at.job,
      daysBetween: 14,
      version: 1,
    });
  });

  test("becomes the same circuit's once a job is opened on it", async () => {
    const at = await freshCompany();
    await close(at.job, 3);
    const order = await orderOn(at);
    await withTenant(at.company, (tx) =>
      openJob(tx, { workOrderId: order, circuitId: at.circuitId, kind: "leak_repair" }, at.dispatcher),
    );
    expect((await find(at, order))!.callback).toMatchObject({ basis: "same-circuit", originJobId: at.job });
  });

  test("is proposed when the unit becomes known on site only", async () => {
    const at = await freshCompany();
    await close(at.job, 3);
    const order = await orderOn(at, null);
    expect(await find(at, order)).toBeNull();
    await withTenant(at.company, (tx) =>
      openJob(tx, { workOrderId: order, circuitId: at.circuitId, kind: "unknown" }, at.dispatcher),
    );
    expect((await find(at, order))!.callback.originJobId).toBe(at.job);
  });

  test("after the window, or while nothing was closed, is no callback", async () => {
    const at = await freshCompany();
    expect(await find(at, await orderOn(at))).toBeNull();
    await close(at.job, 91);
    expect(await find(at, await orderOn(at))).toBeNull();
  });

  test("on its last day still is", async () => {
    const at = await freshCompany();
    await close(at.job, 90);
    expect((await find(at, await orderOn(at)))!.callback.daysBetween).toBe(90);
  });

  test("names the job on its own circuit before a later one on another circuit of the unit", async () => {
    const at = await freshCompany();
    const { circuitId: other } = await withTenant(at.company, async (tx) => {
      const own = await tx.circuit.findFirstOrThrow({ where: { id: at.circuitId } });
      const { name: _name, id: _id, tenantId: _tenant, equipmentId, archivedAt: _archived, ...fields } = own;
      return { circuitId: (await createCircuit(tx, equipmentId, { ...fields, name: "Circuit 2" } as never))! };
    });
    await close(at.job, 20, "strong");
    const order = await orderOn(at);
    const later = await withTenant(at.company, async (tx) => {
      const call = { customerId: at.customerId, siteId: at.siteId, equipmentId: at.equipmentId };
      const callId = (await takeCall(
        tx,
        { ...call, caller: "", symptom: "x", urgency: "soon" },
        at.dispatcher.personId,
      ))!;
      const between = (await openWorkOrder(tx, callId))!;
      const job = await openJob(tx, { workOrderId: between, circuitId: other, kind: "leak_repair" }, at.dispatcher);
      if (!job.ok) throw new Error(job.error.code);
      return job.value;
    });
    await close(later, 5);
    await withTenant(at.company, (tx) => proposeCallback(tx, order));
    expect((await find(at, order))!.callback.originJobId).toBe(later); // nothing says which circuit
    await withTenant(at.company, (tx) =>
      openJob(tx, { workOrderId: order, circuitId: at.circuitId, kind: "leak_repair" }, at.dispatcher),
    );
    expect((await find(at, order))!.callback).toMatchObject({ originJobId: at.job, basis: "same-circuit" });
  });

  test("never comes from its own job", async () => {
    const at = await freshCompany();
    await close(at.job, 2);
    expect(await find(at, at.workOrderId)).toBeNull();
    await withTenant(at.company, (tx) => proposeCallback(tx, at.workOrderId));
    expect(await find(at, at.workOrderId)).toBeNull();
  });
});

describe("a decision", () => {
  test("that confirms counts on the job it comes from, with its cause and costs, and is written down", async () => {
    const at = await freshCompany();
    await close(at.job, 14);
    const order = await orderOn(at);
    expect(await decide(at, order, 1, confirmed(at.job))).toEqual({ ok: true, value: null });
    const { callback } = (await find(at, order))!;
    expect(callback).toMatchObject({ state: "confirmed", causeCode: "moisture-left", version: 2, ...costs });
    expect((await outcomeOf(at, at.job))!.callbackOn!.toISOString().slice(0, 10)).toBe(callback.cameOn);
    const [event] = await withTenant(at.company, (tx) => listOfficeEvents(tx, order));
    expect(event).toMatchObject({ what: "confirmed", subject: "callback", person: { name: at.supervisor.name } });
  });

  test("taken back takes the callback off the job, and its costs with it", async () => {
    const at = await freshCompany();
    await close(at.job, 14);
    const order = await orderOn(at);
    await decide(at, order, 1, confirmed(at.job));
    await decide(at, order, 2, { state: "not-related", note: "another trade" });
    expect((await outcomeOf(at, at.job))!.callbackOn).toBeNull();
    expect((await find(at, order))!.callback).toMatchObject({ state: "not-related", workHours: null, causeCode: null });
  });

  test("of somebody who had not seen the last one is refused, and nothing is overwritten", async () => {
    const at = await freshCompany();
    await close(at.job, 14);
    const order = await orderOn(at);
    await decide(at, order, 1, { state: "not-related", note: "first" });
    expect(await decide(at, order, 1, confirmed(at.job))).toMatchObject({ error: { code: "changed-meanwhile" } });
    expect((await find(at, order))!.callback).toMatchObject({ state: "not-related", note: "first" });
  });

  test("of two at once only one holds", async () => {
    const at = await freshCompany();
    await close(at.job, 14);
    const order = await orderOn(at);
    const both = await Promise.all([
      decide(at, order, 1, confirmed(at.job)),
      decide(at, order, 1, { state: "not-related", note: "" }),
    ]);
    expect(both.map(({ ok }) => ok).sort()).toEqual([false, true]);
  });

  test("stays when the program proposes again", async () => {
    const at = await freshCompany();
    await close(at.job, 14);
    const order = await orderOn(at);
    await decide(at, order, 1, { state: "not-related", note: "" });
    await withTenant(at.company, (tx) => proposeCallback(tx, order));
    expect((await find(at, order))!.callback.state).toBe("not-related");
  });

  test("may name a cause of the company's own, and no other company's", async () => {
    const [at, foreign] = [await freshCompany(), await freshCompany()];
    await close(at.job, 14);
    const order = await orderOn(at);
    const own = (await withTenant(at.company, (tx) => addOwnCause(tx, "Gate left open")))!;
    const theirs = (await withTenant(foreign.company, (tx) => addOwnCause(tx, "Gate left open")))!;
    expect(await decide(at, order, 1, confirmed(at.job, theirs))).toMatchObject({ error: { code: "no-such-cause" } });
    expect(await decide(at, order, 1, confirmed(at.job, "no-such"))).toMatchObject({
      error: { code: "no-such-cause" },
    });
    expect((await decide(at, order, 1, confirmed(at.job, own))).ok).toBe(true);
    expect((await find(at, order))!.callback).toMatchObject({ ownCauseId: own, causeCode: null });
    expect(await withTenant(at.company, (tx) => addOwnCause(tx, "gate LEFT open"))).toBeNull();
  });

  test("may not name a job of another company or another unit", async () => {
    const at = await freshCompany();
    await close(at.job, 14);
    const order = await orderOn(at);
    expect(await decide(at, order, 1, confirmed(database.birch.job))).toMatchObject({
      error: { code: "no-such-origin" },
    });
  });

  test("on an order of another company finds nothing", async () => {
    const [at, foreign] = [await freshCompany(), await freshCompany()];
    await close(at.job, 14);
    const order = await orderOn(at);
    expect(await decide(foreign, order, 1, confirmed(at.job))).toMatchObject({ error: { code: "not-found" } });
    expect(await withTenant(foreign.company, (tx) => listCallbacks(tx, "proposed"))).toEqual([]);
  });
});

describe("the tallies", () => {
  const recounted = `
    select date_trunc('month', closed_on)::date::text as month, strength, job_kind, unit_age, count(*)::int as jobs
    from job_outcome where tenant_id = $1 and closed_on is not null group by 1, 2, 3, 4 order by 1, 2, 3, 4`;
  const kept = `select month::text, strength, job_kind, unit_age, jobs from outcome_month
    where tenant_id = $1 and jobs <> 0 order by 1, 2, 3, 4`;

  test("are what a recount says after jobs were closed, opened again and closed otherwise in any order", async () => {
    const at = await freshCompany();
    const jobs = [at.job, ...(await Promise.all(Array.from({ length: 5 }, () => anotherJob(at))))];
    let seed = 3;
    const random = (below: number) => {
      seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0;
      return Math.floor((seed / 2 ** 32) * below);
    };
    for (let step = 0; step < 60; step += 1) {
      const job = jobs[random(jobs.length)]!;
      if (random(3) === 0)
        await withConnection(database.adminUrl, (admin) =>
          admin.query("update circuit_job set state = 'open', strength = null where id = $1", [job]),
        );
      else await close(job, random(400), ["strong", "fair", "weak", "none"][random(4)]!);
    }
    await withConnection(database.adminUrl, async (admin) => {
      const [a, b] = [await admin.query(recounted, [at.company]), await admin.query(kept, [at.company])];
      expect(a.rows.length).toBeGreaterThan(0);
      expect(b.rows).toEqual(a.rows);
    });
  });

  test("put a job on the site's day, not on the server's", async () => {
    const at = await freshCompany(); // America/Denver
    await withConnection(database.adminUrl, (admin) =>
      admin.query(
        `update circuit_job set state = 'closed', strength = 'fair', summary = '{"kind": "leak_repair", "closedAt": "2026-03-01T05:30:00Z"}' where id = $1`,
        [at.job],
      ),
    );
    const outcome = (await outcomeOf(at, at.job))!;
    expect(outcome.closedOn!.toISOString().slice(0, 10)).toBe("2026-02-28");
    const [month] = await withTenant(at.company, (tx) => tx.outcomeMonth.findMany());
    expect(month!.month.toISOString().slice(0, 10)).toBe("2026-02-01");
  });
});

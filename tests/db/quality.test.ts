import { v7 as uuidv7 } from "uuid";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { listCallbackGaps, listCauseCosts, type QualityQuestion, tallyQuality } from "@/lib/db/quality";
import { countOutcomeJobs, listOutcomeJobs } from "@/lib/db/quality-jobs";
import { withTenant } from "@/lib/db/tenant";
import { type Cohort, type CohortJob, reportQuality, reportTallies, STRENGTHS } from "@/lib/quality";
import { seeded } from "../quality/random";
import { withConnection } from "./fresh-database";
import { type Planted, type TwoCompanies, twoCompanies } from "./two-companies";

const MS_PER_DAY = 86_400_000;
const TODAY = "2026-11-25";
const WINDOW = 90;
const day = (number: number) => new Date(number * MS_PER_DAY).toISOString().slice(0, 10);
const todayDay = Date.parse(`${TODAY}T00:00:00Z`) / MS_PER_DAY;

let database: TwoCompanies;
let cohort: Cohort;
beforeAll(async () => {
  database = await twoCompanies();
  cohort = { todayDay, windowDays: WINDOW, jobs: await plantCohort(database.alder, 1500, 4) };
  await plantCohort(database.birch, 300, 9);
});
afterAll(() => database.drop());

/** Closed jobs over three years with outcomes and confirmed callbacks, as the database's own triggers count them. */
async function plantCohort(at: Planted, count: number, seed: number): Promise<CohortJob[]> {
  const random = seeded(seed);
  const people = [at.technician.personId, at.supervisor.personId];
  const kinds = ["leak_repair", "compressor_change"];
  const ages = ["0-4", "15+"];
  const pick = <T>(list: readonly T[]) => list[Math.floor(random() * list.length)]!;
  const jobs = Array.from({ length: count }, (): CohortJob => {
    const closedDay = todayDay - Math.floor(random() * 1095);
    const back = closedDay + Math.floor(random() * 120);
    const strength = pick(STRENGTHS);
    const returns = random() < (strength === "weak" || strength === "none" ? 0.2 : 0.08);
    return {
      id: uuidv7(),
      closedDay,
      strength,
      technician: pick(people),
      stratum: { kind: pick(kinds), age: pick(ages) },
      callbackDay: returns && back <= todayDay ? back : null,
    };
  });
  await withConnection(database.adminUrl, async (admin) => {
    const { rows } = await admin.query<{ call: string }>(
      "select service_call_id as call from work_order where id = $1",
      [at.workOrderId],
    );
    const json = JSON.stringify(
      jobs.map((job, index) => ({
        ...job,
        index,
        order: uuidv7(),
        closed: day(job.closedDay),
        ...job.stratum,
        back: job.callbackDay === null ? null : day(job.callbackDay),
        cause: index % 2 === 0 ? "moisture-left" : "part-failed",
      })),
    );
    const from = `from jsonb_to_recordset($2::jsonb) as r(id uuid, index integer, "order" uuid, closed date, strength text, kind text,
      age text, technician uuid, back date, cause text)`;
    await admin.query("set session_replication_role = replica"); // the outcomes are planted as they are, not as a fold left them
    await admin.query(
      `insert into circuit_job (tenant_id, id, number, work_order_id, circuit_id, state, strength)
       select $1, id, 5000 + index, $3, $4, 'closed', strength ${from}`,
      [at.company, json, at.workOrderId, at.circuitId],
    );
    await admin.query("set session_replication_role = origin");
    await admin.query(
      `insert into job_outcome (tenant_id, job_id, closed_on, strength, job_kind, unit_age, person_id)
       select $1, id, closed, strength, kind, age, technician ${from}`,
      [at.company, json],
    );
    await admin.query(
      `insert into work_order (tenant_id, id, number, service_call_id)
       select $1, "order", 90000 + index, $3 ${from} where back is not null`,
      [at.company, json, rows[0]!.call],
    );
    await admin.query(
      `insert into callback (tenant_id, work_order_id, origin_job_id, basis, came_on, state, cause_code, work_hours, parts_cents)
       select $1, "order", id, 'same-unit', back, 'confirmed', cause, 2, 1000 ${from} where back is not null`,
      [at.company, json],
    );
  });
  return jobs;
}

const question = (more: Partial<QualityQuestion> = {}): QualityQuestion => ({
  fromDay: "2000-01-01",
  toDay: "2026-12-01",
  today: TODAY,
  windowDays: WINDOW,
  jobKind: null,
  ...more,
});

function within(from: string, to: string, kind?: string): Cohort {
  const jobs = cohort.jobs.filter(
    (job) => day(job.closedDay) >= from && day(job.closedDay) < to && (!kind || job.stratum.kind === kind),
  );
  return { ...cohort, jobs };
}

const reportOf = async (asked: QualityQuestion) =>
  reportTallies((await withTenant(database.alder.company, (tx) => tallyQuality(tx, asked))).tallies);

describe("the dashboard's figures are those of the cohort counted job by job", () => {
  test.each([
    ["all of it", "2000-01-01", "2026-12-01", undefined],
    ["a year", "2025-12-01", "2026-12-01", undefined],
    ["a year that is followed whole", "2025-01-01", "2026-01-01", undefined],
    ["the quarter at the edge of what is followed", "2026-07-01", "2026-10-01", undefined],
    ["a month nobody is followed in", "2026-11-01", "2026-12-01", undefined],
    ["one kind of job", "2025-12-01", "2026-12-01", "leak_repair"],
  ])("%s", async (_what, fromDay, toDay, kind) => {
    const asked = question({ fromDay, toDay, jobKind: kind ?? null });
    const [counted, expected] = [await reportOf(asked), reportQuality(within(fromDay, toDay, kind))];
    expect({ ...counted, technicians: byName(counted), adjusted: null }).toEqual({
      ...expected,
      technicians: byName(expected),
      adjusted: null,
    });
    // the strata come in another order, so that sums differ in their last digits
    expect(counted.adjusted.strata).toBe(expected.adjusted.strata);
    if (expected.adjusted.mantelHaenszelRiskRatio === null) return;
    expect(counted.adjusted.mantelHaenszelRiskRatio).toBeCloseTo(expected.adjusted.mantelHaenszelRiskRatio, 12);
    expect(counted.adjusted.interval95![0]).toBeCloseTo(expected.adjusted.interval95![0], 12);
  });

  test("a window the company shortens needs no recount", async () => {
    expect((await reportOf(question({ windowDays: 30 }))).byStrength).toEqual(
      reportQuality({ ...cohort, windowDays: 30 }).byStrength,
    );
  });

  test("months add up to the followed jobs of whole months", async () => {
    const { months } = await withTenant(database.alder.company, (tx) =>
      tallyQuality(tx, question({ toDay: "2026-08-01" })),
    );
    const expected = reportQuality(within("2000-01-01", "2026-08-01")).weakAgainstSound;
    expect(months.reduce((sum, { jobs }) => sum + jobs, 0)).toBe(expected.weak.jobs + expected.sound.jobs);
    expect(months.reduce((sum, { callbacks }) => sum + callbacks, 0)).toBe(
      expected.weak.callbacks + expected.sound.callbacks,
    );
  });

  test("gaps count the good jobs between those that came back", async () => {
    const gaps = await withTenant(database.alder.company, (tx) => listCallbackGaps(tx, question()));
    const followed = cohort.jobs
      .filter(({ closedDay }) => todayDay - closedDay >= WINDOW)
      .sort((a, b) => a.closedDay - b.closedDay || (a.id < b.id ? -1 : 1));
    const expected: number[] = [];
    let good = -1;
    for (const { callbackDay, closedDay } of followed) {
      const back = callbackDay !== null && callbackDay - closedDay <= WINDOW;
      if (back && good >= 0) expected.push(good);
      if (back) good = 0;
      else if (good >= 0) good += 1;
    }
    expect(gaps.map(({ jobs }) => jobs)).toEqual(expected.slice(-60));
  });

  test("costs add up by cause", async () => {
    const costs = await withTenant(database.alder.company, (tx) => listCauseCosts(tx, question()));
    const returned = cohort.jobs.filter(({ callbackDay }) => callbackDay !== null).length;
    expect(costs.reduce((sum, { callbacks }) => sum + callbacks, 0)).toBe(returned);
    for (const each of costs)
      expect(each).toMatchObject({ hours: 2 * each.callbacks, moneyCents: 1000 * each.callbacks });
  });

  test("the jobs behind a mark are as many as it says", async () => {
    const report = reportQuality(cohort);
    const filter = {
      fromDay: "2000-01-01",
      toDay: day(todayDay - WINDOW + 1),
      jobKind: null,
      strengths: ["weak"] as const,
      personId: null,
      cameBack: null,
      cause: null,
    };
    await withTenant(database.alder.company, async (tx) => {
      expect(await countOutcomeJobs(tx, filter)).toBe(report.byStrength.weak.jobs);
      const [job] = await listOutcomeJobs(tx, { ...filter, cause: "moisture-left" }, { take: 1 });
      expect(job!.callback!.causeCode).toBe("moisture-left");
    });
  });
});

function byName({ technicians }: { technicians: readonly { technician: string }[] }) {
  return [...technicians].sort((a, b) => (a.technician < b.technician ? -1 : 1));
}

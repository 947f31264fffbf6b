import { afterAll, beforeAll, expect, test } from "vitest";
import { readJob } from "@/lib/db/job-summary";
import { tallyQuality } from "@/lib/db/quality";
import { withTenant } from "@/lib/db/tenant";
import { JobId } from "@/lib/ids";
import { reportTallies } from "@/lib/quality";
import { dayAt } from "@/lib/work/site-time";
import { writeHistory } from "@/prisma/demo/history/write-history";
import { withConnection } from "./fresh-database";
import { type TwoCompanies, twoCompanies } from "./two-companies";

const now = new Date();
let database: TwoCompanies;
let written: { jobs: number; callbacks: number };
beforeAll(async () => {
  database = await twoCompanies();
  const { company, dispatcher, supervisor, technician } = database.alder;
  const people = new Map([
    ["ada@fernhollow.example", dispatcher.personId],
    ["marek@fernhollow.example", supervisor.personId],
    ["tomas@fernhollow.example", technician.personId],
    ["ines@fernhollow.example", technician.personId],
  ]);
  written = await withConnection(database.adminUrl, (admin) =>
    writeHistory(admin, { company, timeZone: "America/Chicago", people }, now, { jobsPerDay: 0.35 }),
  );
});
afterAll(() => database.drop());

test("the invented history is counted up by the database and is seen by its own company alone", async () => {
  const today = dayAt(now, "America/Chicago");
  const asked = { fromDay: "2000-01-01", toDay: "2100-01-01", today, windowDays: 90, jobKind: null };
  const counted = await withTenant(database.alder.company, (tx) => tallyQuality(tx, asked));
  expect(written.jobs).toBeGreaterThan(100);
  expect(counted.closed).toBe(written.jobs);
  const { byStrength } = reportTallies(counted.tallies);
  expect(byStrength.none.jobs).toBe(0);
  for (const strength of ["strong", "fair", "weak"] as const) expect(byStrength[strength].jobs).toBeGreaterThan(5);
  const others = await withTenant(database.birch.company, (tx) => tallyQuality(tx, asked));
  expect(others.closed).toBe(0);
});

test("a past job's log folds to what its row says, whatever its story", async () => {
  const jobs = await withTenant(database.alder.company, (tx) =>
    tx.circuitJob.findMany({ where: { state: "closed" }, take: 40, orderBy: { number: "desc" } }),
  );
  for (const job of jobs) {
    const { state, proof } = await withTenant(database.alder.company, (tx) => readJob(tx, JobId.parse(job.id)));
    expect(state.status).toBe("closed");
    expect(proof.strength).toBe(job.strength);
    expect(job.summary).toMatchObject({ proofReasons: proof.reasons.map(({ text }) => text) });
  }
  expect(new Set(jobs.map(({ strength }) => strength)).size).toBe(3);
});
